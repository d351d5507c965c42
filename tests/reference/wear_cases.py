# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Fluid drawn by wear: displacements of three reservoirs by hand, and pushed-back pistons.

New linings worn out are 3 mm on each pad and 0.25 mm on each face of the disc.
"""

import math

from firmlever.physics.numeric import Numeric
from firmlever.physics.wear import (
    clutch_returned_m3,
    floating_drawn_m3,
    level_area_m2,
    opposed_drawn_m3,
    piston_area_m2,
)
from reference.cases import Case, Kind

MM, ML = 1e-3, 1e-6
PAD_M, DISC_M = 3.0 * MM, 0.5 * MM
_BY_HAND = "travel of fmvss-122, areas by hand: pad 3 mm, disc 0.25 mm a face"


def reservoir_floating_m3(first_m: float, second_m: float) -> Numeric:
    """A floating caliper with two pistons, new to worn out."""
    area = piston_area_m2(first_m) + piston_area_m2(second_m)
    return floating_drawn_m3(area, PAD_M, PAD_M, DISC_M)


def reservoir_single_m3(bore_m: float) -> Numeric:
    """A floating caliper with one piston, new to worn out."""
    return floating_drawn_m3(piston_area_m2(bore_m), PAD_M, PAD_M, DISC_M)


def reservoir_two_opposed_m3(large_m: float, small_m: float) -> Numeric:
    """Two opposed four-piston calipers on two discs, new to worn out."""
    area = 2.0 * (piston_area_m2(large_m) + piston_area_m2(small_m))
    return 2.0 * opposed_drawn_m3(area, PAD_M, PAD_M, DISC_M)


_RESERVOIRS = (
    Case(
        reservoir_single_m3,
        {"bore_m": 38.2 * MM},
        7.45 * ML,
        Kind.DERIVED,
        "derived",
        _BY_HAND,
        abs=0.005 * ML,
    ),
    Case(
        reservoir_floating_m3,
        {"first_m": 27.0 * MM, "second_m": 27.0 * MM},
        7.45 * ML,
        Kind.DERIVED,
        "derived",
        _BY_HAND,
        abs=0.01 * ML,
    ),
    Case(
        reservoir_two_opposed_m3,
        {"large_m": 32.0 * MM, "small_m": 28.0 * MM},
        18.5 * ML,
        Kind.DERIVED,
        "derived",
        _BY_HAND,
        abs=0.05 * ML,
    ),
)

_SINGLE = (
    Case(
        piston_area_m2,
        {"bore_m": 0.0382},
        math.pi * 0.0191**2,
        Kind.DERIVED,
        "definition",
        "by the radius",
        rel=1e-12,
    ),
    Case(
        opposed_drawn_m3,
        {"area_m2": 2e-3, "near_worn_m": 1e-3, "far_worn_m": 0.5e-3, "disc_worn_m": 0.1e-3},
        1.6 * ML,
        Kind.DERIVED,
        "derived",
        "10 cm2 a side: 1.05 mm and 0.55 mm",
        rel=1e-12,
    ),
    Case(
        floating_drawn_m3,
        {"area_m2": 1e-3, "near_worn_m": 1e-3, "far_worn_m": 0.5e-3, "disc_worn_m": 0.1e-3},
        1.6 * ML,
        Kind.DERIVED,
        "derived",
        "10 cm2 by 1.6 mm",
        rel=1e-12,
    ),
    Case(
        floating_drawn_m3,
        {"area_m2": 1e-3, "near_worn_m": -3e-3, "far_worn_m": -2e-3, "disc_worn_m": 0.0},
        -5.0 * ML,
        Kind.DERIVED,
        "derived",
        "new pads: 10 cm2 pushed home by 5 mm",
        rel=1e-12,
    ),
    Case(
        clutch_returned_m3,
        {"area_m2": 1e-3, "pushed_home_m": 0.5e-3},
        0.5 * ML,
        Kind.DERIVED,
        "derived",
        "10 cm2 by 0.5 mm",
        rel=1e-12,
    ),
    Case(
        level_area_m2,
        {"full_m3": 38e-6, "low_m3": 16e-6, "marks_apart_m": 11e-3},
        2e-3,
        Kind.DERIVED,
        "definition",
        "22 ml over 11 mm",
        rel=1e-12,
    ),
)

CASES = (*_SINGLE, *_RESERVOIRS)
