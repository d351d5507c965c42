# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How long the hands and the clock need."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firmlever.solve.bands import SAME_COUNT
from firmlever.solve.hydraulics import Pace
from firmlever.solve.inputs import Inputs
from firmlever.solve.supply import Supply

Array = NDArray[np.float64]


def seconds_of_turns(
    volumes_m3: Sequence[Array], paces: Sequence[Pace], supply: Supply, inputs: Inputs
) -> tuple[Array, ...]:
    """Return the time of each screw: fitting the tube, moving the fluid, topping up (s)."""
    fitting = inputs.prior("work", "work", "per_screw_s")
    topping = inputs.prior("work", "work", "topup_s")
    refills = refills_of_turns(volumes_m3, supply)
    return tuple(
        fitting + _moving(volume, pace) + count * topping
        for volume, pace, count in zip(volumes_m3, paces, refills, strict=True)
    )


def seconds_in_all(turns: Sequence[Array], inputs: Inputs) -> Array:
    """Return the time of the whole job, preparation included (s)."""
    return sum(turns, inputs.prior("work", "work", "prepare_s"))


def refills_of_turns(volumes_m3: Sequence[Array], supply: Supply) -> tuple[Array, ...]:
    """Return how often the reservoir is topped up during each turn."""
    before = np.zeros_like(volumes_m3[0])
    counts = []
    for volume in volumes_m3:
        counts.append(supply.refills(before + volume) - supply.refills(before))
        before = before + volume
    return tuple(counts)


def _moving(volume: Array, pace: Pace) -> Array:
    if pace.stroke_m3 is None or pace.stroke_s is None:
        return volume / pace.flow_m3_s
    return np.ceil(volume / pace.stroke_m3 - SAME_COUNT) * pace.stroke_s
