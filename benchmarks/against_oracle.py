# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A draw of the solver against the slow, literal flush that the tests check it by."""

import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from benchmarks.cases import MEASURED, Array, case_of, draws
from benchmarks.figure import Figure
from benchmarks.timing import timed
from firmlever.solve.flush import DRAWS
from firmlever.solve.simulate import Outcome
from firmlever.solve.transport import Mixing

# the oracle is part of the tests, which are no installed package
sys.path.append(str(Path(__file__).resolve().parent.parent / "tests"))

from oracle.stream_tubes import (
    RESERVOIR,
    Element,
    OracleResult,
    Reservoir,
    Target,
    flush,
)

_ML = 1e6


def measure(
    count: int = DRAWS, walked: int = 1, repeats: int = 5, parcel_ml: float | None = None
) -> list[Figure]:
    """Time a draw of each, and how far the two are apart."""
    case = case_of(MEASURED)
    few, many = draws(max(walked, 8)), draws(count)
    outcome = case.flush(few, diffusion=False)
    order, target, chosen = case.order(), case.target(), range(walked)
    found: list[OracleResult] = []

    def walk() -> None:
        found[:] = [_oracle(outcome, draw, order, target, parcel_ml) for draw in chosen]

    ours_s = timed(lambda: case.flush(many, diffusion=False), repeats).cpu_s / count
    theirs_s = timed(walk, 1).cpu_s / walked
    # the reservoir apart: at the end it is filled to where the level belongs, here to MAX
    left = [one.total_old_ml - one.left_old_ml[RESERVOIR] for one in found]
    pot = outcome.network.pot.part.id
    ours = np.sum([old for owner, old in outcome.left_m3.items() if owner != pot], axis=0)
    through = [sum(one.volumes_ml) for one in found]
    return [
        Figure("solver, a draw", ours_s * 1e6, "µs"),
        Figure("oracle, a draw", theirs_s * 1e6, "µs"),
        Figure("solver faster by", theirs_s / ours_s, "times", "oracle", at_least=50.0),
        Figure("old fluid left, apart", _apart(left, ours * _ML), "%", "oracle"),
        Figure("through, apart", _apart(through, outcome.through_m3 * _ML), "%", "oracle"),
    ]


def _apart(theirs: Sequence[float], ours: Array) -> float:
    """Return by how many per cent the two differ in the furthest draw."""
    return float(100.0 * np.abs(ours[: len(theirs)] / np.array(theirs) - 1.0).max())


def _oracle(
    outcome: Outcome, draw: int, order: Sequence[str], target: float, parcel_ml: float | None
) -> OracleResult:
    network = outcome.network
    feeder = {
        index: path[place - 1] if place else None
        for path in network.outlets.values()
        for place, index in enumerate(path)
    }
    still_ml = {owner: float(still[draw]) * _ML for owner, still in network.still_m3.items()}
    elements = [
        Element(
            name=f"{index}",
            kind="tube" if place.pocket.mixing is Mixing.TUBE else "stirred",
            volume_ml=float(place.pocket.volume[draw]) * _ML,
            parent=None if feeder[index] is None else f"{feeder[index]}",
            unswept_ml=still_ml.pop(place.owner, 0.0),
        )
        for index, place in enumerate(network.places)
    ]
    pot = network.pot
    reservoir = Reservoir(
        *(float(part[draw]) * _ML for part in (pot.full_m3, pot.low_m3, pot.left_old_m3))
    )
    steps = [(f"{network.outlets[screw][-1]}", Target(target)) for screw in order]
    return flush(elements, reservoir, steps, parcel_ml=parcel_ml)
