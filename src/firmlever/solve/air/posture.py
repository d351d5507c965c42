# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How far each part moves up when the machine is turned, leaned or a part is lifted.

Bars turn about a steering head that leans back, so the end that goes forward rises. What
is not on the bars is taken to be in the middle plane: leaning lowers it by its height
alone.
"""

import math

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.air_map import Posture
from firmlever.domain.circuit import Circuit, Control, Family, Part, PartKind
from firmlever.solve.inputs import Inputs
from firmlever.units import to_si

Array = NDArray[np.float64]

_ON_THE_BARS = (PartKind.RESERVOIR, PartKind.MASTER)


def raised_m(
    circuit: Circuit, part: Part, height_m: Array, posture: Posture, inputs: Inputs
) -> Array:
    """Return how much higher a part ends up in a posture than upright, bars straight."""
    lifted = to_si(posture.lifted_mm.get(part.id, 0.0), "mm")
    raised = np.full_like(height_m, lifted)
    side = side_of(circuit)
    lean = math.radians(posture.lean_deg)
    if side and part.kind in _ON_THE_BARS and (posture.bars_deg or lean):
        reach = inputs.prior("air", "air", "bar_reach_mm")
        rake = inputs.prior("air", "air", "rake_share")
        raised += side * reach * math.sin(math.radians(posture.bars_deg)) * rake
        raised += side * reach * math.sin(lean)
    if lean:
        raised += height_m * (math.cos(lean) - 1.0)
    return raised


def side_of(circuit: Circuit) -> int:
    """Return 1 where the control is at the right end of the bars, -1 at the left, else 0."""
    match circuit.control:
        case Control.LEVER:
            return -1 if circuit.family is Family.REAR else 1
        case Control.CLUTCH_LEVER | Control.THUMB_LEVER:
            return -1
        case Control.PEDAL:
            return 0
