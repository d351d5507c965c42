# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every place that keeps jobs must do: events are only added, each once, and stay."""

from collections.abc import Callable
from pathlib import Path
from threading import Barrier, Thread

import pytest

from contract.examples import event, event_id, job, machine
from contract.stores import Kept
from firmlever.domain.job import KeptEvent, SentEvent, Taken
from firmlever.errors import UnknownJobError
from firmlever.ports import Jobs
from firmlever.store.database import open_database


@pytest.fixture
def jobs(kept: Kept) -> Jobs:
    kept.jobs.start(job(), ())
    return kept.jobs


def ids(found: object) -> list[str]:
    return [one.id for one in found]  # type: ignore[attr-defined]


def test_a_job_comes_back_as_it_went_in(jobs: Jobs) -> None:
    assert jobs.get("j1") == job()
    assert jobs.all() == (job(),)
    assert jobs.events("j1") == ()


def test_a_job_starts_with_its_first_events(jobs: Jobs) -> None:
    jobs.start(job("j2"), [event(1), event(2)])
    first = jobs.events("j2")
    assert [(one.id, one.body) for one in first] == [
        (event(1).id, event(1).body),
        (event(2).id, event(2).body),
    ]
    assert jobs.events("j1") == ()


def test_jobs_come_newest_first_and_by_machine(jobs: Jobs) -> None:
    for job_id, machine_id, minutes in [("a", "m2", 2), ("c", "m1", 1), ("b", "m1", 1)]:
        jobs.start(job(job_id, machine_id, minutes), ())
    assert ids(jobs.all()) == ["a", "b", "c", "j1"]
    assert ids(jobs.of_machine("m1")) == ["b", "c", "j1"]
    assert jobs.of_machine("nobody") == ()


def test_events_come_back_to_the_last_letter_in_the_order_they_came(jobs: Jobs) -> None:
    taken = jobs.take("j1", [event(5), event(2)])
    assert (taken.accepted, taken.differing) == ((event_id(5), event_id(2)), ())
    jobs.take("j1", [event(3)])
    came = jobs.events("j1")
    assert [(one.id, one.body) for one in came] == [
        (event(number).id, event(number).body) for number in (5, 2, 3)
    ]
    assert came[0].arrival < came[1].arrival < came[2].arrival
    assert taken.arrival == came[1].arrival


def test_only_what_arrived_later_is_handed_out(jobs: Jobs) -> None:
    first = jobs.take("j1", [event(1), event(2)])
    second = jobs.take("j1", [event(3)])
    assert ids(jobs.events("j1", first.arrival)) == [event_id(3)]
    assert jobs.events("j1", second.arrival) == ()


def test_an_event_that_comes_again_is_accepted_and_kept_once(jobs: Jobs) -> None:
    first = jobs.take("j1", [event(1), event(2)])
    before = jobs.events("j1")
    again = jobs.take("j1", [event(2), event(1), event(1)])
    assert again == Taken((event_id(2), event_id(1)), (), first.arrival)
    assert jobs.events("j1") == before


def test_other_content_under_a_kept_id_is_told_and_the_kept_one_stays(jobs: Jobs) -> None:
    jobs.take("j1", [event(1)])
    taken = jobs.take("j1", [event(1, "resumed"), event(2)])
    assert (taken.accepted, taken.differing) == ((event_id(2),), (event_id(1),))
    assert [one.body for one in jobs.events("j1")] == [event(1).body, event(2).body]


def test_an_id_of_another_job_is_other_content(jobs: Jobs) -> None:
    jobs.start(job("j2"), [event(1)])
    assert jobs.take("j1", [event(1)]) == Taken((), (event_id(1),), 0)
    assert ids(jobs.events("j2")) == [event_id(1)]
    assert jobs.events("j1") == ()


def test_of_two_contents_in_one_batch_the_first_is_kept(jobs: Jobs) -> None:
    taken = jobs.take("j1", [event(1), event(1, "resumed")])
    assert (taken.accepted, taken.differing) == ((event_id(1),), (event_id(1),))
    assert [one.body for one in jobs.events("j1")] == [event(1).body]


def test_no_events_change_nothing(jobs: Jobs) -> None:
    arrival = jobs.take("j1", [event(1)]).arrival
    assert jobs.take("j1", []) == Taken((), (), arrival)


@pytest.mark.parametrize(
    "ask",
    [
        lambda jobs: jobs.get("gone"),
        lambda jobs: jobs.take("gone", [event(9)]),
        lambda jobs: jobs.events("gone"),
    ],
    ids=["get", "take", "events"],
)
def test_a_job_that_is_not_there_is_named(jobs: Jobs, ask: Callable[[Jobs], object]) -> None:
    with pytest.raises(UnknownJobError, match="“gone”"):
        ask(jobs)
    assert jobs.take("j1", [event(9)]).accepted == (event_id(9),)


def test_a_removed_machine_leaves_its_jobs(kept: Kept) -> None:
    kept.machines.add(machine())
    kept.jobs.start(job(), [event(1)])
    kept.machines.remove("m1", read_revision=1)
    assert kept.jobs.of_machine("m1") == (job(),)
    assert ids(kept.jobs.events("j1")) == [event_id(1)]


def test_what_was_kept_is_there_after_a_new_start(tmp_path: Path) -> None:
    first = open_database(tmp_path)
    first.jobs.start(job(), [event(1)])
    first.close()
    again = open_database(tmp_path)
    assert again.jobs.all() == (job(),)
    assert again.jobs.events("j1") == (KeptEvent(1, event(1).id, event(1).body),)
    again.close()


def test_many_at_once_keep_each_event_once_and_in_order(tmp_path: Path) -> None:
    """Only a database promises this: eight devices send the same and their own at once."""
    database = open_database(tmp_path)
    database.jobs.start(job(), ())
    start = Barrier(8)
    seen: list[list[int]] = []

    def send(device: int) -> None:
        start.wait()
        told = []
        for batch in range(4):
            own = event(100 * device + batch)
            told.append(database.jobs.take("j1", [event(batch), own]).arrival)
        seen.append(told)

    devices = [Thread(target=send, args=(number,)) for number in range(1, 9)]
    for device in devices:
        device.start()
    for device in devices:
        device.join()
    arrived = database.jobs.events("j1")
    database.close()
    assert len(seen) == 8
    assert all(told == sorted(told) for told in seen)
    assert len({one.id for one in arrived}) == len(arrived) == 4 + 8 * 4


def test_an_arrival_is_never_given_twice(tmp_path: Path) -> None:
    """Whoever watches from arrival 2 on must not miss what comes after a restart."""
    for number in (1, 2, 3):
        database = open_database(tmp_path)
        if number == 1:
            database.jobs.start(job(), ())
        assert database.jobs.take("j1", [event(number)]).arrival == number
        database.close()


def test_a_large_batch_is_taken_whole(jobs: Jobs) -> None:
    batch = [SentEvent(event_id(number), "{}") for number in range(200)]
    assert len(jobs.take("j1", batch).accepted) == 200
