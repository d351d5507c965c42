# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every place that keeps machines must do; a further database joins by one more fixture."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from pathlib import Path
from threading import Barrier, Thread

import pytest

from contract.examples import START, TEXT, machine, plan
from contract.stores import Kept
from firmlever.errors import ChangedMeanwhileError, UnknownMachineError, UnknownPlanError
from firmlever.ports import Machines
from firmlever.store.database import open_database


@pytest.fixture
def store(kept: Kept) -> Machines:
    return kept.machines


def test_a_machine_comes_back_as_it_went_in(store: Machines) -> None:
    store.add(machine())
    assert store.get("m1") == machine()
    assert store.get("m1").text == TEXT
    assert store.all() == (machine(),)


def test_times_come_back_in_utc_whatever_zone_they_went_in(store: Machines) -> None:
    there = START.astimezone(timezone(timedelta(hours=5, minutes=30)))
    store.add(replace(machine(), made_at=there))
    kept = store.get("m1").made_at
    assert kept == START
    assert kept.utcoffset() is not None


def test_a_demo_stays_a_demo(store: Machines) -> None:
    store.add(replace(machine(), is_demo=True))
    store.add(machine("m2"))
    assert {one.id: one.is_demo for one in store.all()} == {"m1": True, "m2": False}


def test_the_last_changed_comes_first_then_the_name(store: Machines) -> None:
    for machine_id, name, minutes in [("a", "Tern", 1), ("b", "Auk", 1), ("c", "Rail", 2)]:
        store.add(machine(machine_id, name, minutes))
    assert [one.id for one in store.all()] == ["c", "b", "a"]


def test_a_change_of_what_was_read_is_kept(store: Machines) -> None:
    store.add(machine())
    changed = replace(machine(), name="Skerry", text="new", revision=2, changed_at=START)
    store.change(changed, read_revision=1)
    assert store.get("m1") == changed


def test_who_read_an_older_revision_overwrites_nothing(store: Machines) -> None:
    store.add(machine())
    first = replace(machine(), text="first", revision=2)
    store.change(first, read_revision=1)
    with pytest.raises(ChangedMeanwhileError) as late:
        store.change(replace(machine(), text="second", revision=2), read_revision=1)
    assert (late.value.name, late.value.read_revision, late.value.kept_revision) == (
        "Skerry 1100",
        1,
        2,
    )
    with pytest.raises(ChangedMeanwhileError):
        store.remove("m1", read_revision=1)
    assert store.all() == (first,)


def test_a_removed_machine_takes_its_plans_along(store: Machines) -> None:
    store.add(machine())
    store.add(machine("m2"))
    store.keep_plan(plan())
    store.keep_plan(plan("p2", "m2"))
    store.remove("m1", read_revision=1)
    assert [one.id for one in store.all()] == ["m2"]
    with pytest.raises(UnknownPlanError, match="“p1”"):
        store.plan("p1")
    assert store.plan("p2") == plan("p2", "m2")


def test_plans_come_newest_first_and_only_of_their_machine(store: Machines) -> None:
    store.add(machine())
    store.add(machine("m2"))
    kept = [plan("p1", minutes=1), plan("p2", minutes=3), plan("p3", "m2"), plan("p4", minutes=2)]
    for one in kept:
        store.keep_plan(one)
    assert store.plans("m1") == (kept[1], kept[3], kept[0])


@pytest.mark.parametrize(
    "ask",
    [
        lambda store: store.get("gone"),
        lambda store: store.change(replace(machine("gone"), revision=2), 1),
        lambda store: store.remove("gone", 1),
        lambda store: store.keep_plan(plan(machine_id="gone")),
        lambda store: store.plans("gone"),
    ],
    ids=["get", "change", "remove", "keep_plan", "plans"],
)
def test_a_machine_that_is_not_there_is_named(
    store: Machines, ask: Callable[[Machines], object]
) -> None:
    store.add(machine())
    with pytest.raises(UnknownMachineError, match="“gone”"):
        ask(store)
    assert store.all() == (machine(),)


def test_of_many_at_once_exactly_one_gets_through(tmp_path: Path) -> None:
    """Only a database promises this: threads with the same revision, one winner each round."""
    database = open_database(tmp_path)
    store = database.machines
    store.add(machine())
    for revision in range(1, 6):
        won, lost = race(store, revision)
        assert (len(won), len(lost)) == (1, 7)
        assert (store.get("m1").name, store.get("m1").revision) == (won[0], revision + 1)
    database.close()


def race(store: Machines, revision: int) -> tuple[list[str], list[str]]:
    """Have eight writers change what all of them read, and say who got through."""
    start = Barrier(8)
    won: list[str] = []
    lost: list[str] = []

    def write(name: str) -> None:
        start.wait()
        try:
            store.change(replace(machine(name=name), revision=revision + 1), revision)
            won.append(name)
        except ChangedMeanwhileError:
            lost.append(name)

    writers = [Thread(target=write, args=(f"writer {n}",)) for n in range(8)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    return won, lost


def test_what_was_kept_is_there_after_a_new_start(tmp_path: Path) -> None:
    first = open_database(tmp_path / "deep" / "folder")
    first.machines.add(machine())
    first.machines.keep_plan(plan())
    first.close()
    again = open_database(tmp_path / "deep" / "folder")
    assert again.machines.all() == (machine(),)
    assert again.machines.plans("m1") == (plan(),)
    again.close()


def test_now_is_kept_to_the_microsecond(store: Machines) -> None:
    now = datetime.now(START.tzinfo)
    store.add(replace(machine(), changed_at=now))
    assert store.get("m1").changed_at == now
