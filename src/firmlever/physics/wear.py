# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Fluid that follows pistons as pads and discs wear, and comes back when they go home.

A piston stands out as far as its pad and its side of the disc have gone. What stands behind
it came from the reservoir. Seals roll the piston back by the same little each time, so the
retraction cancels between two looks at rest.
"""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive


def piston_area_m2(bore_m: Numeric) -> Numeric:
    """Return the area of a piston from its diameter.

    Parameters
    ----------
    bore_m : numeric
        Diameter of the piston [m].

    Returns
    -------
    numeric
        Area [m2], of the shape given.

    Range
    -----
    Pistons of 8 to 60 mm; the clearance in the bore is left out (below 0.7 %).

    Raises
    ------
    OutOfRangeError
        When the diameter is not above zero.

    Source
    ------
    definition, area of a circle.

    Examples
    --------
    >>> f"{piston_area_m2(0.032):.4e}"
    '8.0425e-04'
    """
    require_positive(bore_m=bore_m)
    return np.pi / 4.0 * bore_m**2


def opposed_drawn_m3(
    area_m2: Numeric, near_worn_m: Numeric, far_worn_m: Numeric, disc_worn_m: Numeric
) -> Numeric:
    """Return what an opposed caliper has drawn from the reservoir through wear.

    Each side's pistons, half of the area, follow their own pad and one face of the disc:
    ``A / 2 (near + far + disc)``. A pad that became thicker counts below zero: its pistons
    went home and gave fluid back.

    Parameters
    ----------
    area_m2 : numeric
        Area of all its pistons, both sides together [m2].
    near_worn_m : numeric
        Wear of the pad on one side [m].
    far_worn_m : numeric
        Wear of the pad on the other side [m].
    disc_worn_m : numeric
        Thickness the disc has lost, both faces together [m].

    Returns
    -------
    numeric
        Volume drawn, below zero where fluid came back [m3], of the broadcast shape.

    Range
    -----
    Both sides of equal piston area; pads worn evenly over their face; pistons at rest.

    Raises
    ------
    OutOfRangeError
        When the area is below zero.

    Source
    ------
    derived, volume swept by a piston; fmvss-122 for the travels (from-memory).

    Examples
    --------
    >>> f"{opposed_drawn_m3(2.84e-3, 0.001, 0.001, 0.0):.3e}"
    '2.840e-06'
    """
    require_not_negative(area_m2=area_m2)
    return area_m2 / 2.0 * (near_worn_m + far_worn_m + disc_worn_m)


def floating_drawn_m3(
    area_m2: Numeric, near_worn_m: Numeric, far_worn_m: Numeric, disc_worn_m: Numeric
) -> Numeric:
    """Return what a floating caliper has drawn from the reservoir through wear.

    Its pistons stand on one side only and take up the wear of both pads and of the whole
    disc, as the body slides over: ``A (near + far + disc)``.

    Parameters
    ----------
    area_m2 : numeric
        Area of all its pistons [m2].
    near_worn_m : numeric
        Wear of the pad under the pistons [m].
    far_worn_m : numeric
        Wear of the pad in the body [m].
    disc_worn_m : numeric
        Thickness the disc has lost, both faces together [m].

    Returns
    -------
    numeric
        Volume drawn, below zero where fluid came back [m3], of the broadcast shape.

    Range
    -----
    Sliding pins free; pads worn evenly over their face; pistons at rest.

    Raises
    ------
    OutOfRangeError
        When the area is below zero.

    Source
    ------
    derived, volume swept by a piston; fmvss-122 for the travels (from-memory).

    Examples
    --------
    >>> f"{floating_drawn_m3(1.145e-3, 0.003, 0.003, 0.0005):.3e}"
    '7.443e-06'
    """
    require_not_negative(area_m2=area_m2)
    return area_m2 * (near_worn_m + far_worn_m + disc_worn_m)


def clutch_returned_m3(area_m2: Numeric, pushed_home_m: Numeric) -> Numeric:
    """Return what a clutch's slave cylinder has given back as the plates wore.

    Worn plates let the pressure plate come closer and the fingers of its spring, or the
    pushrod, push the slave piston home: the level rises.

    Parameters
    ----------
    area_m2 : numeric
        Area of the slave piston [m2].
    pushed_home_m : numeric
        How far the piston has been pushed home [m].

    Returns
    -------
    numeric
        Volume given back to the reservoir [m3], of the broadcast shape.

    Range
    -----
    Clutches without a setting screw, or whose screw was left alone.

    Raises
    ------
    OutOfRangeError
        When the area is below zero.

    Source
    ------
    derived, volume swept by a piston; from-memory, that the level rises.

    Examples
    --------
    >>> f"{clutch_returned_m3(1.146e-3, 0.0005):.2e}"
    '5.73e-07'
    """
    require_not_negative(area_m2=area_m2)
    return area_m2 * pushed_home_m


def level_area_m2(full_m3: Numeric, low_m3: Numeric, marks_apart_m: Numeric) -> Numeric:
    """Return how much fluid one metre of level holds between the marks of a reservoir.

    Multiply by an error of the ruler to have it as a volume.

    Parameters
    ----------
    full_m3 : numeric
        Content at MAX [m3].
    low_m3 : numeric
        Content at MIN [m3].
    marks_apart_m : numeric
        Distance between the two marks [m].

    Returns
    -------
    numeric
        Area of the level, content for each metre of height [m2], of the broadcast shape.

    Range
    -----
    Walls upright between the marks; on a tapered pot it is the mean.

    Raises
    ------
    OutOfRangeError
        When the marks are not apart.

    Source
    ------
    definition, of a mean area.

    Examples
    --------
    >>> f"{level_area_m2(38e-6, 16e-6, 0.015):.3e}"
    '1.467e-03'
    """
    require_positive(marks_apart_m=marks_apart_m)
    return (full_m3 - low_m3) / marks_apart_m


_AREA = Limit("area_m2", 0.5e-4, 60e-4, "m2")
_PAD = Limit("near_worn_m", -15e-3, 15e-3, "m")

MODELS = (
    Model(
        "area of a piston",
        piston_area_m2,
        (Limit("bore_m", 8e-3, 60e-3, "m"),),
        ("definition",),
    ),
    Model(
        "wear of an opposed caliper",
        opposed_drawn_m3,
        (_AREA, _PAD),
        ("fmvss-122", "derived", "from-memory"),
    ),
    Model(
        "wear of a floating caliper",
        floating_drawn_m3,
        (_AREA, _PAD),
        ("fmvss-122", "derived", "from-memory"),
    ),
    Model(
        "clutch that gives fluid back",
        clutch_returned_m3,
        (_AREA, Limit("pushed_home_m", 0.0, 10e-3, "m")),
        ("derived", "from-memory"),
    ),
    Model(
        "area of the level",
        level_area_m2,
        (Limit("marks_apart_m", 2e-3, 60e-3, "m"),),
        ("definition",),
    ),
)
