# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The balance of the reservoir at each look, in all draws at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit
from firmlever.domain.level import LevelLook, LevelMeasure, Stand
from firmlever.physics.fluid import expansion_volume_m3
from firmlever.physics.wear import level_area_m2
from firmlever.solve.draws import from_uniform
from firmlever.solve.inputs import Inputs
from firmlever.solve.level.slips import Slips
from firmlever.solve.level.wear import Worn, drawn_m3, worn_of
from firmlever.solve.network import Network, Pot
from firmlever.units import to_si

Array = NDArray[np.float64]

LEVELS, TOPPED, WARMTH = "level", "topped up", "temperature"
# nine in ten keep to this (judgement): a bottle's mark, and the fluid against the air around
_TOPPED_SHARE, _WARMTH_K = 0.1, 3.0


@dataclass(frozen=True, slots=True)
class Story:
    """What happened by each look since the first, one row a draw (m3).

    ``level_m3`` is the content of the reservoir, ``gone_m3`` what nothing explains: the
    fluid that must have left for the levels to be what they were seen to be.
    """

    level_m3: Array
    topped_m3: Array
    drawn_m3: Array
    warmth_m3: Array
    worn: Mapping[str, Worn]

    @property
    def gone_m3(self) -> Array:
        """Return what is gone beyond wear and warmth."""
        fell = self.level_m3[:, :1] - self.level_m3
        return fell + self.topped_m3 - self.drawn_m3 + self.warmth_m3


@dataclass(frozen=True, slots=True)
class Eye:
    """How finely a person read (mm); ``marks_mm`` None is not measured."""

    ruler_mm: float
    gauge_mm: float
    marks_mm: float | None


def story_of(
    circuit: Circuit,
    looks: Sequence[LevelLook],
    network: Network,
    expansion_1_k: float,
    inputs: Inputs,
    slips: Slips,
    eye: Eye,
) -> Story:
    """Work out the balance at each look."""
    worn = worn_of(circuit, looks, inputs, slips, eye.gauge_mm)
    return Story(
        _levels(looks, network.pot, inputs, slips, eye),
        _topped(looks, slips),
        drawn_m3(circuit, looks, worn, inputs),
        _warmth(looks, _content(network), expansion_1_k, inputs, slips),
        worn,
    )


def _levels(looks: Sequence[LevelLook], pot: Pot, inputs: Inputs, slips: Slips, eye: Eye) -> Array:
    if eye.marks_mm is None:
        marks = inputs.prior(pot.part.id, pot.part.kind, "marks_apart_mm")
    else:
        marks = np.full(inputs.count, to_si(eye.marks_mm, "mm"))
    area = np.asarray(level_area_m2(pot.full_m3, pot.low_m3, marks))
    error = area * to_si(eye.ruler_mm, "mm")
    tilt = np.zeros(inputs.count)
    if any(look.stand is Stand.SIDE for look in looks):
        lost = inputs.prior("work", "work", "side_stand_loss_share")
        # which way the window shows it is not known
        tilt = (pot.full_m3 - pot.low_m3) * lost * (2.0 * slips.uniform(LEVELS) - 1.0)
    return np.column_stack(
        [
            _seen(look, pot, area)
            + error * slips.normal(LEVELS)
            + (tilt if look.stand is Stand.SIDE else 0.0)
            for look in looks
        ]
    )


def _seen(look: LevelLook, pot: Pot, area_m2: Array) -> Array:
    match look.measure:
        case LevelMeasure.CONTENT:
            return np.full_like(area_m2, to_si(look.level, "ml"))
        case LevelMeasure.SHARE:
            return pot.low_m3 + look.level * (pot.full_m3 - pot.low_m3)
        case LevelMeasure.BELOW_MAX:
            return pot.full_m3 - area_m2 * to_si(look.level, "mm")


def _topped(looks: Sequence[LevelLook], slips: Slips) -> Array:
    poured = []
    for look in looks:
        ml = to_si(look.topped_up_ml, "ml")
        slip = _TOPPED_SHARE * slips.normal(TOPPED) if ml else np.zeros(len(slips.points))
        poured.append(ml * (1.0 + slip))
    poured[0] = np.zeros(len(slips.points))
    return np.cumsum(np.column_stack(poured), axis=1)


def _warmth(
    looks: Sequence[LevelLook],
    content_m3: Array,
    expansion_1_k: float,
    inputs: Inputs,
    slips: Slips,
) -> Array:
    usual = inputs.row("work", "workshop_degc")
    columns = []
    for look in looks:
        if look.degc is None:
            u, bounds = slips.uniform(WARMTH), (-40.0, 60.0)
            columns.append(from_uniform(usual.low, usual.high, u, bounds, can_be_log=False))
        else:
            columns.append(look.degc + _WARMTH_K * slips.normal(WARMTH))
    degrees = np.column_stack(columns)
    rise: Array = degrees - degrees[:, :1]
    return np.asarray(expansion_volume_m3(content_m3[:, None], rise, expansion_1_k))


def _content(network: Network) -> Array:
    """Return the fluid in the whole circuit, the reservoir about half way."""
    parts = [place.pocket.volume for place in network.places]
    pot = (network.pot.full_m3 + network.pot.low_m3) / 2.0
    total: Array = np.sum([pot, *parts, *network.still_m3.values()], axis=0)
    return total
