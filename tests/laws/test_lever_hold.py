# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Held levers whose fate is known: a sink is found, creep and cooling are not taken for one.

The limits are those the project set itself: a false alarm in at most 5 of 100, a sink of 2 mm
a minute found in at least 95. ``--deep`` holds 500 levers of each fate; a usual run 40, which
may miss by three standard errors of a share.
"""

import numpy as np
import pytest

from counts import either
from firmlever.domain.lever import Held, Pace
from firmlever.solve.lever.hold import held
from laws.hold_bench import Fate, hold
from laws.lever_bench import skerry_front

LEVERS = either(40, 500)
LUCK = 3.0 * (0.05 * 0.95 / LEVERS) ** 0.5


def read(fate: Fate, *, count: int = 2, ruler_mm: float = 1.0) -> list[Held]:
    rng = np.random.default_rng(7)
    return [
        held(
            skerry_front(),
            [hold(fate, rng, ruler_mm=ruler_mm) for _ in range(count)],
            ruler_mm * 1e-3,
        )[0]
        for _ in range(LEVERS)
    ]


@pytest.mark.parametrize("fate", [Fate.RELAXING, Fate.COOLING])
@pytest.mark.parametrize(("count", "ruler_mm"), [(1, 1.0), (2, 1.0), (2, 0.5)])
def test_creep_and_cooling_are_no_sink(fate: Fate, count: int, ruler_mm: float) -> None:
    alarms = [one.sinks for one in read(fate, count=count, ruler_mm=ruler_mm)]
    assert np.mean(alarms) <= 0.05 + LUCK


@pytest.mark.parametrize(("count", "ruler_mm"), [(2, 1.0), (1, 0.5)])
def test_a_sink_of_two_millimetres_a_minute_is_found(count: int, ruler_mm: float) -> None:
    found = [one.sinks for one in read(Fate.LEAKING, count=count, ruler_mm=ruler_mm)]
    assert np.mean(found) >= 0.95 - LUCK


def test_nine_bands_of_ten_hold_the_sink() -> None:
    within = [
        one.sink_mm_min.p05 <= 2.0 <= one.sink_mm_min.p95 for one in read(Fate.LEAKING, count=2)
    ]
    assert np.mean(within) >= 0.9 - LUCK


def test_a_longer_look_knows_more() -> None:
    rng = np.random.default_rng(8)
    long = tuple(float(second) for second in range(0, 181, 5))
    holds = [hold(Fate.LEAKING, rng), hold(Fate.LEAKING, rng, seconds=long)]
    short, other = (held(skerry_front(), [one], 1e-3)[0].sink_mm_min for one in holds)
    assert other.p95 - other.p05 < 0.7 * (short.p95 - short.p05)


def test_slow_and_quick_pulls_are_told_apart() -> None:
    rng = np.random.default_rng(9)
    slow = hold(Fate.LEAKING, rng, sink_mm_min=4.0)
    calm = hold(Fate.RELAXING, rng)
    fast = type(calm)(Pace.FAST, calm.force_n, calm.seconds, calm.travel_mm)
    assert [(one.pace, one.sinks) for one in held(skerry_front(), [fast, slow], 1e-3)] == [
        (Pace.SLOW, True),
        (Pace.FAST, False),
    ]
    assert held(skerry_front(), [], 1e-3) == ()
