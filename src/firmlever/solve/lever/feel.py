# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A lever test: readings in, what they say and what they cannot tell out."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.lever import LeverTest, Readings, SetKind
from firmlever.domain.quantity import Band
from firmlever.domain.tables import Prior
from firmlever.physics import relaxation, stiffness
from firmlever.physics.drive import atmosphere_pa
from firmlever.solve.assumed import assumed_of
from firmlever.solve.draws import lattice
from firmlever.solve.inputs import Inputs
from firmlever.solve.lever.budget import travel_budget, travel_parts_m
from firmlever.solve.lever.curve import LAWS, observed
from firmlever.solve.lever.hold import HELD_LAWS, held, lever_m_k
from firmlever.solve.lever.next_set import next_sets
from firmlever.solve.lever.posterior import Posterior, posterior
from firmlever.solve.lever.prior import lever_prior
from firmlever.solve.lever.words import cannot_tell, says, says_of_holds
from firmlever.units import from_si, to_si

AT_N = 100.0
_DRAWS, _DIMENSIONS, _SEED = 2048, 96, 1


@dataclass(frozen=True, slots=True)
class Pull:
    """Readings at the lever of one circuit, and how they were taken."""

    bike: Bike
    circuit: Circuit
    on: date
    read: Readings
    ruler_mm: float
    altitude_m: float
    priors: Mapping[tuple[str, str], Sequence[Prior]]


def feel(pull: Pull, cautions: tuple[str, ...]) -> LeverTest:
    """Work out what the readings say."""
    points = lattice(_DRAWS, _DIMENSIONS, _SEED)
    inputs = Inputs(points, pull.priors, pull.circuit.family, pull.bike.bike_class)
    prior = lever_prior(pull.circuit, inputs, float(atmosphere_pa(pull.altitude_m)))
    ruler_m = to_si(pull.ruler_mm, "mm")
    known = posterior(prior, observed(pull.read.sets, ruler_m))
    air, clearance = known.values["air"], known.values["clearance"]
    after = known.values.get("air after")
    parts = {
        name: known.mean(draws)
        for name, draws in travel_parts_m(known, AT_N, prior.ambient_pa).items()
    }
    holds = held(prior, pull.read.holds, ruler_m)
    together = known.together(air, clearance)
    parted = any(one.kind is not SetKind.FIRST for one in pull.read.sets)
    last = _ml(known, air if after is None else after)
    left = None if after is None else _ml(known, air - after)
    return LeverTest(
        bike=pull.bike.name,
        circuit=pull.circuit.name,
        on=pull.on,
        air_ml=_ml(known, air),
        air_after_ml=None if after is None else _ml(known, after),
        left_ml=left,
        clearance_ml=_ml(known, clearance),
        air_and_clearance_ml=_ml(known, air + clearance),
        together=together,
        at_n=AT_N,
        budget=travel_budget(known, AT_N, prior.ambient_pa),
        holds=holds,
        says=(*says_of_holds(holds, lever_m_k(prior)), *says(last, left, parts)),
        cannot_tell=cannot_tell(last, together, _ml(known, air + clearance), parted),
        next_sets=next_sets(prior, pull.read.sets, known, ruler_m),
        assumed=assumed_of(inputs.uncertain),
        cautions=cautions,
        sources=_sources(inputs, LAWS + HELD_LAWS if holds else LAWS),
    )


def _ml(known: Posterior, draws_m3: NDArray[np.float64]) -> Band:
    return known.band(from_si(draws_m3, "ml"))


def _sources(inputs: Inputs, laws: Collection[object]) -> tuple[str, ...]:
    keys = {
        word.strip()
        for one in inputs.uncertain
        if one.about.from_prior
        for word in one.about.source.split(";")
    }
    keys.update(
        source
        for model in (*stiffness.MODELS, *relaxation.MODELS)
        if model.function in laws
        for source in model.sources
    )
    return tuple(sorted(keys))
