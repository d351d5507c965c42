# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whose bubbles they are: against every world they could come from, and shared examples.

Regression: tests/data/tube.json holds what the rule gives; the app's own tests read it too.
"""

import json
from itertools import product
from pathlib import Path
from typing import get_args

import pytest

from firmlever.domain.bench.tube import FROM_OUTSIDE, REST_S, VERDICTS, VerdictCode, verdict
from firmlever.physics.bubbles import bubble_growth, dirty_bubble_rise_m_s, gas_released

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


def test_every_code_has_its_words_and_says_what_it_leaves_open() -> None:
    assert [one.code for one in VERDICTS] == list(get_args(VerdictCode))
    assert all(one.means and one.advice and one.open for one in VERDICTS)


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


def test_the_rest_lets_froth_rise_but_is_no_proof_in_the_cold() -> None:
    """Bubbles of 0.11 mm through 0.3 m at the slow bound; thick cold fluid takes longer."""
    height_m, diameter_m = 0.3, 1.1e-4
    assert height_m / dirty_bubble_rise_m_s(diameter_m, 1050.0, 0.018) < REST_S
    assert height_m / dirty_bubble_rise_m_s(diameter_m, 1050.0, 0.050) > REST_S


def test_a_hand_pump_draws_bubbles_out_of_sound_fluid() -> None:
    """A drop in the tube at 0.3 bar of suction holds a fiftieth of its size in gas."""
    freed = gas_released(0.05, 71325.0, 101325.0) * bubble_growth(71325.0, 101325.0)
    assert freed == pytest.approx(0.021, abs=5e-4)


def test_the_shared_examples_are_all_there_are() -> None:
    assert len({str(one["answers"]) for one in VECTORS["verdicts"]}) == 27
