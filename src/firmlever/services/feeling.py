# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Judge a lever: from a described machine and readings to air, clearance and travel."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from firmlever.domain.cautions import cautions_at_the_lever
from firmlever.domain.circuit import Bike, Circuit, Family
from firmlever.domain.lever import Hold, LeverTest, Readings, ReadingSet
from firmlever.domain.tables import priors_by_key
from firmlever.errors import ImpossibleOptionError
from firmlever.ports import Tables
from firmlever.services.wishes import check_within
from firmlever.solve.lever.feel import Pull, feel
from firmlever.solve.lever.words import AIR_FOUND_ML

_RULER_MM = (0.01, 5.0)
_ALTITUDE_M = (-400.0, 6000.0)


@dataclass(frozen=True, slots=True)
class LeverRequest:
    """Readings, the day, the step of the ruler, and how high up the bench stands."""

    on: date
    sets: Sequence[ReadingSet]
    ruler_mm: float = 1.0
    altitude_m: float = 0.0
    holds: Sequence[Hold] = ()


def judge_lever(bike: Bike, circuit: Circuit, asked: LeverRequest, tables: Tables) -> LeverTest:
    """Work out what readings at a lever say.

    Raises
    ------
    ImpossibleOptionError
        When ruler or altitude cannot be, or the circuit is a clutch.
    """
    check_within("--ruler", asked.ruler_mm, _RULER_MM, "mm")
    check_within("--altitude", asked.altitude_m, _ALTITUDE_M, "m")
    if circuit.family is Family.CLUTCH:
        raise ImpossibleOptionError(
            "--circuit", circuit.name, "a clutch lever feels its spring; the test is for brakes"
        )
    read = Readings(tuple(asked.sets), tuple(asked.holds))
    priors = priors_by_key(tables.priors())
    pull = Pull(bike, circuit, asked.on, read, asked.ruler_mm, asked.altitude_m, priors)
    return feel(pull, cautions_at_the_lever())


def needs_attention(test: LeverTest) -> bool:
    """Say whether it sinks, or has air in it for sure as it was last read."""
    air_ml = test.air_after_ml or test.air_ml
    return air_ml.p05 > AIR_FOUND_ML or any(held.sinks for held in test.holds)
