# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every place that keeps lever tests must do: tests and marks are added and stay."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from contract.examples import baseline, event_id, lever_test, machine
from contract.stores import Kept
from firmlever.errors import UnknownLeverTestError
from firmlever.ports import Levers
from firmlever.store.database import open_database


@pytest.fixture
def levers(kept: Kept) -> Levers:
    kept.levers.keep(lever_test())
    return kept.levers


def test_a_test_comes_back_as_it_went_in(levers: Levers) -> None:
    assert levers.get(event_id(1)) == lever_test()
    assert levers.keep(lever_test(2)) == lever_test(2)
    assert levers.get(event_id(2)).job_id == "j1"


def test_tests_come_oldest_first_and_by_circuit(levers: Levers) -> None:
    for number, machine_id, circuit in [(5, "m1", "front"), (3, "m1", "front"), (4, "m1", "rear")]:
        levers.keep(lever_test(number, machine_id, circuit))
    levers.keep(lever_test(2, "m2"))
    of_front = [one.id for one in levers.of_circuit("m1", "front")]
    assert of_front == [event_id(1), event_id(3), event_id(5)]
    assert [one.id for one in levers.of_circuit("m1", "rear")] == [event_id(4)]
    assert levers.of_circuit("nobody", "front") == ()


def test_what_is_kept_under_an_id_stays(levers: Levers) -> None:
    other = replace(lever_test(), who="Ben")
    assert levers.keep(other) == lever_test()
    assert levers.of_circuit("m1", "front") == (lever_test(),)


def test_the_marks_of_a_circuit_are_a_history(levers: Levers) -> None:
    levers.keep(lever_test(2))
    marks = (baseline(1), baseline(2, minutes=5), baseline(1, minutes=9))
    for mark in marks:
        levers.mark(mark)
    assert levers.baselines("m1", "front") == marks
    assert levers.baselines("m1", "rear") == ()


@pytest.mark.parametrize(
    "ask",
    [lambda levers: levers.get(event_id(9)), lambda levers: levers.mark(baseline(9))],
    ids=["get", "mark"],
)
def test_a_test_that_is_not_there_is_named(levers: Levers, ask: Callable[[Levers], object]) -> None:
    with pytest.raises(UnknownLeverTestError, match=event_id(9)):
        ask(levers)
    assert levers.baselines("m1", "front") == ()


def test_a_removed_machine_leaves_its_tests(kept: Kept) -> None:
    kept.machines.add(machine())
    kept.levers.keep(lever_test())
    kept.machines.remove("m1", read_revision=1)
    assert kept.levers.of_circuit("m1", "front") == (lever_test(),)


def test_what_was_kept_is_there_after_a_new_start(tmp_path: Path) -> None:
    first = open_database(tmp_path)
    first.levers.keep(lever_test())
    first.levers.mark(baseline())
    first.close()
    again = open_database(tmp_path)
    assert again.levers.of_circuit("m1", "front") == (lever_test(),)
    assert again.levers.baselines("m1", "front") == (baseline(),)
    again.close()
