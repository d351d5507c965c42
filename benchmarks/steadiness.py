# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How far the ends of a plan's bands move when only the seed changes."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from benchmarks.cases import CLASS_ONLY, MEASURED, case_of
from benchmarks.figure import Figure
from firmlever.domain.plan import FlushPlan
from firmlever.domain.quantity import Band

_WITHIN = 0.015
_HOLD = 0.95
_FIRST_OF_OTHERS = 1001
_NAMES = tuple(
    f"{what} {end}" for what in ("old fluid left", "through") for end in ("p05", "p50", "p95")
)

Array = NDArray[np.float64]


def measure(seeds: int = 20, others: int = 40) -> list[Figure]:
    """Compare seeds 1 and up with the mean over as many other seeds."""
    measured = _of(MEASURED, "measured", seeds, others)
    return [*_limited(measured, seeds), *_of(CLASS_ONLY, "class only", seeds, others)]


def _limited(figures: list[Figure], seeds: int) -> list[Figure]:
    first = figures[0]
    wanted = _HOLD * seeds
    return [
        Figure(first.name, first.value, first.unit, first.against, at_least=wanted),
        *figures[1:],
    ]


def _of(file: str, label: str, seeds: int, others: int) -> list[Figure]:
    case = case_of(file)
    reference = _ends(case.plan(_FIRST_OF_OTHERS + seed) for seed in range(others)).mean(axis=0)
    off = np.abs(_ends(case.plan(seed) for seed in range(1, seeds + 1)) / reference - 1.0)
    against = f"the mean of {others} other seeds"
    all_within = int(np.count_nonzero(np.all(off <= _WITHIN, axis=1)))
    return [
        Figure(f"{label}: seeds with all six within 1.5 %", all_within, f"of {seeds}", against),
        *(
            Figure(f"{label}: {name}, furthest seed", 100.0 * worst, "%", against)
            for name, worst in zip(_NAMES, off.max(axis=0), strict=True)
        ),
    ]


def _ends(plans: Iterable[FlushPlan]) -> Array:
    return np.array([[*_three(one.left_old.whole), *_three(one.through_ml)] for one in plans])


def _three(band: Band) -> tuple[float, float, float]:
    return band.p05, band.p50, band.p95
