# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whose bubbles they are: against every world they could come from, and shared examples.

Regression: tests/data/tube.json holds what the rule gives; the app's own tests read it too.
"""

import json
from itertools import product
from pathlib import Path

import pytest

from firmlever.domain.bench.tube import FROM_OUTSIDE, verdict

ROOT = Path(__file__).resolve().parent.parent.parent
VECTORS = json.loads((ROOT / "tests" / "data" / "tube.json").read_text(encoding="utf-8"))
TRIED = list(product((False, True), repeat=3))
# whether the threads leak when shut, froth is about, air is in the circuit
WORLDS = list(product((False, True), repeat=3))


def seen(world: tuple[bool, ...], tried: tuple[bool, ...]) -> tuple[bool | None, ...]:
    """What the three tests show in a world, None where one is not made."""
    leaks, froth, air = world
    shows = (leaks, froth or air, air)
    return tuple(show if done else None for show, done in zip(shows, tried, strict=True))


@pytest.mark.parametrize("tried", TRIED)
@pytest.mark.parametrize("world", WORLDS)
def test_no_verdict_is_wrong_in_any_world(world: tuple[bool, ...], tried: tuple[bool, ...]) -> None:
    leaks, froth, air = world
    code = verdict(*seen(world, tried))
    if code == "from the circuit":
        assert air
    if code == "froth from pumping":
        assert froth
        assert not air
    if code == "from the circuit or froth":
        assert air or froth
    if code == "past threads and from the circuit":
        assert leaks
        assert air or froth
    if code == "past threads or tube joint":
        assert leaks
    if code == "drawn by suction":
        assert not air
        assert not froth
    if code in FROM_OUTSIDE and tried[1]:
        assert not air, "air in the circuit was seen by gravity and excused"


@pytest.mark.parametrize("world", WORLDS)
def test_all_three_tests_always_give_a_verdict(world: tuple[bool, ...]) -> None:
    assert verdict(*seen(world, (True, True, True))) != "cannot tell"


@pytest.mark.parametrize("vector", VECTORS["verdicts"], ids=lambda one: str(one["answers"]))
def test_shared_example(vector: dict[str, object]) -> None:
    answers = vector["answers"]
    assert isinstance(answers, dict)
    assert verdict(**answers) == vector["verdict"]


def test_the_shared_examples_are_all_there_are() -> None:
    assert len({str(one["answers"]) for one in VECTORS["verdicts"]}) == 27
