# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which further set of readings would tell most, found by imagining each."""

from collections.abc import Mapping, Sequence

import numpy as np

from firmlever.domain.lever import Moment, NextSet, ReadingSet, SetKind
from firmlever.solve.lever.curve import columns, observed
from firmlever.solve.lever.posterior import ROUGH, Posterior, posterior
from firmlever.solve.lever.prior import LeverPrior
from firmlever.units import from_si

FORCES_N = (6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0)
"""Forces worth reading: many where air and clearance still differ, few where both are spent."""

_WORDS: Mapping[SetKind, str] = {
    SetKind.FIRST: "one more slow pull after standing for a few minutes",
    SetKind.PUMPED: "a pumped set: three quick pumps, then keep the lever past its first 5 mm",
    SetKind.WEDGED: "a set with the pads wedged against the disc, so that there is no clearance",
}
_WORTH = 0.9


def next_sets(
    prior: LeverPrior, sets: Sequence[ReadingSet], known: Posterior, ruler_m: float
) -> tuple[NextSet, ...]:
    """Return the sets that should narrow the air by a tenth or more, best first."""
    now = _width_ml(known)
    moment = sets[-1].moment
    asked = []
    for kind in SetKind:
        imagined = _imagined(prior, known, kind, moment)
        width = _width_ml(posterior(prior, observed([*sets, imagined], ruler_m), ROUGH))
        if width < _WORTH * now:
            asked.append(NextSet(kind, _WORDS[kind], width))
    return tuple(sorted(asked, key=lambda one: one.air_width_ml))


def _width_ml(known: Posterior) -> float:
    name = "air after" if "air after" in known.values else "air"
    band = known.band(from_si(known.values[name], "ml"))
    return band.p95 - band.p05


def _imagined(prior: LeverPrior, known: Posterior, kind: SetKind, moment: Moment) -> ReadingSet:
    """Return the set that a brake in the middle of what is possible would give."""
    rising = tuple(float(index) for index in range(len(FORCES_N)))
    blank = observed([ReadingSet(kind, FORCES_N, rising, Moment.BEFORE)], 1.0)
    shapes = {
        shape.name: np.array([known.mean(known.values[shape.name])]) for shape in prior.shapes
    }
    names = [term.name for term in prior.terms]
    air = "air after" if moment is Moment.AFTER else "air"
    means = np.array([known.mean(known.values[air if name == "air" else name]) for name in names])
    travel_m = columns(prior, shapes, blank, names)[0] @ means
    climbing = np.maximum.accumulate(from_si(travel_m, "mm"))
    return ReadingSet(kind, FORCES_N, tuple(float(mm) for mm in climbing), moment)
