# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lever tests against brakes whose air is known: does the band hold, and is it narrow?

The limits are those the project set itself. ``--deep`` draws 500 brakes for each; a usual
run draws 20 and allows for the luck of so few (three standard errors of a share).
"""

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from counts import either
from firmlever.domain.lever import Moment, SetKind
from firmlever.domain.quantity import Band
from firmlever.solve.lever.curve import observed
from firmlever.solve.lever.posterior import Posterior, posterior
from laws.lever_bench import Brake, draw_brake, read, runs, skerry_front

ML = 1e6
BRAKES = either(20, 500)
LUCK = 3.0 * (0.9 * 0.1 / BRAKES) ** 0.5
FIRST_AND_PUMPED = (SetKind.FIRST, SetKind.PUMPED)
WEDGED = (SetKind.WEDGED,) * 3


def known_from(
    brake: Brake, kinds: Sequence[SetKind], rng: np.random.Generator, ruler: float
) -> Posterior:
    return posterior(skerry_front(), observed(runs(brake, kinds, rng, ruler), ruler * 1e-3))


@cache
def bands(
    kinds: tuple[SetKind, ...], ruler_mm: float, air_ml: float | None
) -> list[tuple[float, Band]]:
    """True air and its band for each brake, in ml."""
    rng = np.random.default_rng(20)
    found = []
    for _ in range(BRAKES):
        brake = draw_brake(skerry_front(), rng, air_ml)
        known = known_from(brake, kinds, rng, ruler_mm)
        found.append((brake.terms["air"] * ML, known.band(known.values["air"] * ML)))
    return found


@pytest.mark.parametrize("kinds", [(SetKind.FIRST,), FIRST_AND_PUMPED, WEDGED], ids=str)
def test_nine_bands_of_ten_hold_the_air(kinds: tuple[SetKind, ...]) -> None:
    held = [
        band.p05 <= true <= band.p95 if true > 0.05 else true <= band.p95
        for true, band in bands(kinds, 1.0, None)
    ]
    assert 0.85 - LUCK <= np.mean(held) <= 0.95 + LUCK


@pytest.mark.parametrize(
    ("kinds", "ruler_mm", "most_ml"),
    [(FIRST_AND_PUMPED, 1.0, 0.40), (WEDGED, 1.0, 0.25), (WEDGED, 0.2, 0.20)],
    ids=str,
)
def test_the_band_of_a_third_of_a_millilitre_is_narrow(
    kinds: tuple[SetKind, ...], ruler_mm: float, most_ml: float
) -> None:
    widths = [band.p95 - band.p05 for _, band in bands(kinds, ruler_mm, 0.3)]
    assert np.median(widths) <= most_ml


def test_clearance_alone_is_not_called_air() -> None:
    called = [band.p05 > 0.10 for _, band in bands(FIRST_AND_PUMPED, 1.0, 0.0)]
    assert np.mean(called) <= 0.05


def test_one_slow_pull_cannot_tell_air_from_clearance() -> None:
    rng = np.random.default_rng(4)
    brake = draw_brake(skerry_front(), rng, 0.5)
    alone = known_from(brake, (SetKind.FIRST,), rng, 1.0)
    pair = known_from(brake, FIRST_AND_PUMPED, rng, 1.0)
    tie = [
        known.together(known.values["air"], known.values["clearance"]) for known in (alone, pair)
    ]
    assert tie[0] < -0.6
    assert tie[0] < tie[1]


def test_a_difference_is_sharper_than_either_end() -> None:
    rng = np.random.default_rng(5)
    spreads, errors, held = [], [], []
    for _ in range(BRAKES):
        brake = draw_brake(skerry_front(), rng, 0.4)
        after = 0.4e-6 * rng.uniform(0.0, 0.6)
        sets = (
            *runs(brake, WEDGED, rng),
            *(read(brake, kind, rng, air_m3=after, moment=Moment.AFTER) for kind in WEDGED),
        )
        known = posterior(skerry_front(), observed(sets, 1e-3))
        left = (known.values["air"] - known.values["air after"]) * ML
        spreads.append(np.sqrt(known.mean((left - known.mean(left)) ** 2)))
        true = 0.4 - after * ML
        errors.append(known.mean(left) - true)
        band = known.band(left)
        held.append(band.p05 <= true <= band.p95)
    assert np.median(spreads) <= 0.05
    assert np.std(errors) <= 0.05
    assert np.mean(held) >= 0.85 - LUCK


def test_more_readings_never_make_the_brake_much_less_known() -> None:
    rng = np.random.default_rng(6)
    brake = draw_brake(skerry_front(), rng, 0.3)
    sets = runs(brake, (SetKind.FIRST, *WEDGED), rng)
    widths = []
    for count in range(1, len(sets) + 1):
        known = posterior(skerry_front(), observed(sets[:count], 1e-3))
        band = known.band(known.values["air"] * ML)
        widths.append(band.p95 - band.p05)
    assert all(later < 1.15 * before for before, later in pairwise(widths))
    assert widths[-1] < 0.5 * widths[0]
