# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A lever held at one force: what creeps and settles, and what sinks steadily."""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.lever import Held, Hold, Pace
from firmlever.physics.fluid import expansion_volume_m3
from firmlever.physics.relaxation import creep_m, settling_m
from firmlever.solve.draws import lattice
from firmlever.solve.lever.curve import reading_spread_m
from firmlever.solve.lever.linear import Term, drawn, given
from firmlever.solve.lever.posterior import Posterior
from firmlever.solve.lever.prior import LeverPrior
from firmlever.units import from_si

Array = NDArray[np.float64]

HELD_LAWS = (creep_m, settling_m)

SINKS_MM_MIN = 0.25
"""A lever is called sinking when even the low end of its steady rate is above this (judgement)."""

EXPANSION_1_K = 0.9e-3
"""Volume expansion of brake fluid (from memory)."""

# how fast fluid may warm or cool in a brake that stood for half an hour (judgement)
_DRIFT_K_S = 0.25 / 60.0
# spreads before any reading: sink, creep for each e-fold, what settles, where it starts (judgement)
_SINK_M_S = 6e-3 / 60.0
_CREEP_M = 0.3e-3
_SETTLING_M = 0.8e-3
_START_M = 50e-3
# a hand holds its force to a few per cent: so much at the lever (judgement)
_WOBBLE_M = 0.15e-3
_ONSET_S = (0.5, 5.0)
_CONSTANT_S = (4.0, 25.0)
_DRAWS, _EACH, _SEED = 512, 16, 23


def held(prior: LeverPrior, holds: Sequence[Hold], ruler_m: float) -> tuple[Held, ...]:
    """Return what the holds say, slow ones first."""
    paces = [pace for pace in Pace if any(one.pace is pace for one in holds)]
    return tuple(
        _of_pace(prior, pace, [one for one in holds if one.pace is pace], ruler_m) for pace in paces
    )


def lever_m_k(prior: LeverPrior) -> float:
    """Return how far a held lever goes in for each kelvin that all the fluid cools."""
    return prior.gain_1_m2 * float(expansion_volume_m3(prior.fluid_m3, 1.0, EXPANSION_1_K))


def _of_pace(prior: LeverPrior, pace: Pace, holds: Sequence[Hold], ruler_m: float) -> Held:
    known = _posterior(prior, holds, ruler_m)
    sink = from_si(known.values["sink"], "mm") * 60.0
    lost = from_si(known.values["sink"] / prior.gain_1_m2, "ml") * 60.0
    seconds = max(one.seconds[-1] - one.seconds[0] for one in holds)
    settled = creep_m(known.values["creep 0"], seconds, known.values["onset_s"]) + settling_m(
        known.values["settling 0"], seconds, known.values["constant_s"]
    )
    rate = known.band(sink)
    return Held(
        pace=pace,
        at_n=float(np.mean([one.force_n for one in holds])),
        seconds=seconds,
        sink_mm_min=rate,
        sink_ml_min=known.band(lost),
        settled_mm=known.band(from_si(np.asarray(settled), "mm")),
        sinks=rate.p05 > SINKS_MM_MIN,
    )


def _posterior(prior: LeverPrior, holds: Sequence[Hold], ruler_m: float) -> Posterior:
    time_s = np.concatenate([np.array(one.seconds) - one.seconds[0] for one in holds])
    travel_m = np.concatenate([np.array(one.travel_mm) * 1e-3 for one in holds])
    hold_of = np.repeat(np.arange(len(holds)), [len(one.seconds) for one in holds])
    spread_m = np.full(len(time_s), np.hypot(reading_spread_m(ruler_m), _WOBBLE_M))
    terms = _terms(prior, len(holds), travel_m)
    bends = _bends()
    linear = given(_design(bends, time_s, hold_of, terms), travel_m, spread_m, terms)
    values, log_mass = drawn(linear, terms, _EACH, _SEED)
    each = linear.log_evidence[:, None] + log_mass
    weights = np.exp(each - each.max()).ravel()
    bent = {name: np.repeat(value[:, 0], _EACH) for name, value in bends.items()}
    return Posterior({**bent, **values}, weights / weights.sum())


def _terms(prior: LeverPrior, count: int, travel_m: Array) -> tuple[Term, ...]:
    made = [
        Term("sink", 0.0, _SINK_M_S),
        Term("drift", 0.0, lever_m_k(prior) * _DRIFT_K_S, positive=False),
    ]
    for index in range(count):
        made += [
            Term(f"start {index}", float(np.mean(travel_m)), _START_M, positive=False),
            Term(f"creep {index}", 0.0, _CREEP_M),
            Term(f"settling {index}", 0.0, _SETTLING_M),
        ]
    return tuple(made)


def _bends() -> dict[str, Array]:
    """Draw when creep sets in and how long settling takes, each even in its logarithm."""
    u = lattice(_DRAWS, 2, _SEED)
    return {
        "onset_s": _between(u[:, :1], *_ONSET_S),
        "constant_s": _between(u[:, 1:], *_CONSTANT_S),
    }


def _between(u: Array, low: float, high: float) -> Array:
    spread: Array = low * (high / low) ** u
    return spread


def _design(
    bends: Mapping[str, Array], time_s: Array, hold_of: NDArray[np.intp], terms: tuple[Term, ...]
) -> Array:
    shape = (len(bends["onset_s"]), len(time_s))
    of_time = {
        "sink": time_s,
        "drift": time_s,
        "start": np.ones_like(time_s),
        "creep": creep_m(1.0, time_s, bends["onset_s"]),
        "settling": settling_m(1.0, time_s, bends["constant_s"]),
    }
    made = []
    for term in terms:
        what, _, number = term.name.partition(" ")
        own = (hold_of == int(number)) if number else np.ones(len(time_s))
        made.append(np.broadcast_to(of_time[what] * own, shape))
    return np.stack(made, axis=-1)
