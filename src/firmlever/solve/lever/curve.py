# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How the travel of a lever is made up, as columns that its unknowns multiply."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.lever import Moment, ReadingSet, SetKind
from firmlever.physics.stiffness import (
    HOSE_REFERENCE_PA,
    air_taken_up_m3,
    clearance_taken_up_m3,
    fluid_shrinkage_m3,
    hose_swelling_m3,
    pads_and_caliper_give_m3,
)
from firmlever.solve.lever.linear import Term
from firmlever.solve.lever.prior import LeverPrior

Array = NDArray[np.float64]

LAWS = (
    air_taken_up_m3,
    clearance_taken_up_m3,
    hose_swelling_m3,
    pads_and_caliper_give_m3,
    fluid_shrinkage_m3,
)

# what a pumped lever still finds of the clearance (judgement)
_LEFT_WHEN_PUMPED = 0.05
# seals and links hold a set back by so many newtons, one way or the other (judgement)
_STICTION_N = 0.7
_SCALE_ERROR = 0.03
# reading a ruler against a lever: so much of its step beside the rounding (judgement)
_PARALLAX = 0.25
_LEAST_PRESSURE_PA = 1.0
_BENDS = 3


@dataclass(frozen=True, slots=True)
class Observed:
    """All readings in one row, with the number of the set that each belongs to."""

    force_n: Array
    travel_m: Array
    spread_m: Array
    slope_m_n: Array
    set_of: NDArray[np.intp]
    sets: tuple[ReadingSet, ...]

    @property
    def has_after(self) -> bool:
        """Whether some were taken after the work."""
        return any(one.moment is Moment.AFTER for one in self.sets)

    def of(self, *kinds: SetKind) -> Array:
        """Return one for the readings of these kinds of set, else zero."""
        return np.array([float(self.sets[index].kind in kinds) for index in self.set_of])

    def at(self, moment: Moment) -> Array:
        """Return one for the readings of a moment, else zero."""
        return np.array([float(self.sets[index].moment is moment) for index in self.set_of])


def observed(sets: Sequence[ReadingSet], ruler_m: float) -> Observed:
    """Return readings as arrays, each with its spread.

    A scale that is off by a few per cent moves a reading along the curve, so the spread is
    wide where the curve is steep.
    """
    force = np.concatenate([np.array(one.force_n) for one in sets])
    travel = np.concatenate([np.array(one.travel_mm) * 1e-3 for one in sets])
    climb = np.concatenate([_climb(one) for one in sets])
    spread = np.hypot(reading_spread_m(ruler_m), _SCALE_ERROR * climb)
    set_of = np.repeat(np.arange(len(sets)), [len(one.force_n) for one in sets])
    return Observed(force, travel, spread, climb / force, set_of, tuple(sets))


def reading_spread_m(ruler_m: float) -> float:
    """Return how far off a reading of a ruler with such steps may be (one standard deviation)."""
    return ruler_m * float(np.sqrt(1 / 12 + _PARALLAX**2))


def _climb(one: ReadingSet) -> Array:
    """Return how much the travel grows for each e-fold of force, on a smooth curve.

    Steps of the ruler must not decide which readings count for much.
    """
    log_force = np.log(one.force_n)
    degree = min(_BENDS, len(log_force) - 2)
    curve = np.polynomial.Polynomial.fit(log_force, np.array(one.travel_mm) * 1e-3, degree)
    slopes: Array = np.maximum(curve.deriv()(log_force), 0.0)
    return slopes


def terms(prior: LeverPrior, seen: Observed) -> tuple[Term, ...]:
    """Return the linear unknowns in the order of the columns.

    Air after the work stands beside air before it; each pumped set has its packed
    volume; each set its stiction.
    """
    by_name = {term.name: term for term in prior.terms}
    clearance = by_name["clearance"]
    made = list(prior.terms)
    if seen.has_after:
        made.append(Term("air after", 0.0, by_name["air"].spread))
    made += [
        Term(f"packed {index}", clearance.mean, 2.0 * (clearance.mean + clearance.spread), False)
        for index, one in enumerate(seen.sets)
        if one.kind is SetKind.PUMPED
    ]
    if any(one.kind is SetKind.PUMPED for one in seen.sets):
        left = _LEFT_WHEN_PUMPED * clearance.mean
        spread = _LEFT_WHEN_PUMPED * (clearance.mean + clearance.spread)
        made.append(Term("left when pumped", left, spread, False))
    made += [Term(f"stiction {index}", 0.0, _STICTION_N, False) for index in range(len(seen.sets))]
    return tuple(made)


def columns(
    prior: LeverPrior, shapes: Mapping[str, Array], seen: Observed, names: Sequence[str]
) -> Array:
    """Return what each linear unknown adds to the travel: draws, readings, unknowns."""
    gain = shapes["gain"][:, None]
    force = seen.force_n[None, :] - shapes["before_n"][:, None]
    pressure = np.maximum(shapes["efficiency"][:, None] * gain * force, _LEAST_PRESSURE_PA)
    shrunk = air_taken_up_m3(1.0, pressure, prior.ambient_pa, shapes["polytropic"][:, None])
    closed = clearance_taken_up_m3(1.0, pressure, shapes["take_up_pa"][:, None])
    fixed: dict[str, Array] = {
        "rest": np.ones_like(pressure),
        "clearance": gain * closed * seen.of(SetKind.FIRST),
        "air": gain * shrunk * (seen.at(Moment.BEFORE) if seen.has_after else 1.0),
        "air after": gain * shrunk * seen.at(Moment.AFTER),
        "hoses": gain * hose_swelling_m3(1.0, pressure, 1.0) / HOSE_REFERENCE_PA,
        "pads": gain * pads_and_caliper_give_m3(1.0, 1.0, pressure),
        "flex": np.broadcast_to(seen.force_n, pressure.shape),
        "fluid": gain * fluid_shrinkage_m3(1.0, pressure, 1.0),
        "left when pumped": gain * closed * seen.of(SetKind.PUMPED),
    }
    made = []
    for name in names:
        what, _, number = name.partition(" ")
        if what == "packed":
            made.append(-gain * np.ones_like(pressure) * (seen.set_of == int(number)))
        elif what == "stiction":
            own = seen.slope_m_n * (seen.set_of == int(number))
            made.append(np.broadcast_to(own, pressure.shape))
        else:
            made.append(fixed[name])
    return np.stack(made, axis=-1)
