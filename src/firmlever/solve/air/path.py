# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The way of a bubble, leg by leg, and what drives it: plain arrays, one value a draw."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A leg in the direction of the flow; ``rise_m`` is how much higher it ends."""

    bore_m: Array
    length_m: Array
    rise_m: Array


@dataclass(frozen=True, slots=True)
class Medium:
    """What the bubble is in."""

    density_kg_m3: Array
    viscosity_pa_s: Array
    surface_tension_n_m: Array


@dataclass(frozen=True, slots=True)
class Drive:
    """How the fluid moves: for ``push_s`` at ``flow_m3_s``, then ``rest_s`` at rest.

    One push is a stroke. Where nothing is stroked, ``rest_s`` is nought and a push is a
    second.
    """

    flow_m3_s: Array
    push_s: Array
    rest_s: Array
