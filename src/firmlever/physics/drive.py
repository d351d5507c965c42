# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The pressure that moves the fluid, by method and height.

Heights are above the ground, pressures are gauge. The drive is positive from the
reservoir to the open end of the catch tube, and upwards from the screw for a reverse fill.
"""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

GRAVITY_M_S2 = 9.80665
SEA_LEVEL_PA = 101325.0
_LAPSE_1_M = 2.25577e-5
_EXPONENT = 5.25588


def atmosphere_pa(altitude_m: Numeric) -> Numeric:
    """Return the pressure of the standard atmosphere at an altitude.

    ``p = 101325 (1 - 2.25577e-5 h)**5.25588``.

    Parameters
    ----------
    altitude_m : numeric
        Altitude above the sea [m].

    Returns
    -------
    numeric
        Absolute pressure [Pa], of the broadcast shape.

    Range
    -----
    -500 to 11,000 m. Weather moves it by 3 %.

    Raises
    ------
    OutOfRangeError
        When the altitude is 44,330 m or above, where the formula has no air left.

    Source
    ------
    from-memory, high confidence: the international standard atmosphere; checked in the
    tests against lib-fluids.

    Examples
    --------
    >>> f"{atmosphere_pa(2000.0):.0f}"
    '79495'
    """
    share = 1.0 - _LAPSE_1_M * altitude_m
    require_positive(air_left_at_altitude_m=share)
    return SEA_LEVEL_PA * share**_EXPONENT


def gravity_drive_pa(
    density_kg_m3: Numeric, reservoir_height_m: Numeric, outlet_height_m: Numeric
) -> Numeric:
    """Return the drive of a column of fluid.

    ``rho g (reservoir - outlet)``.

    Parameters
    ----------
    density_kg_m3 : numeric
        Density [kg/m3].
    reservoir_height_m : numeric
        Level in the reservoir above the ground [m].
    outlet_height_m : numeric
        Open end of the catch tube, or the level it dips into, above the ground [m].

    Returns
    -------
    numeric
        Drive, negative when the outlet is higher [Pa], of the broadcast shape.

    Range
    -----
    An unbroken column: a bubble that fills the bore takes its own length off the head.

    Raises
    ------
    OutOfRangeError
        When the density is not above zero.

    Source
    ------
    derived: hydrostatics.

    Examples
    --------
    >>> f"{gravity_drive_pa(1050.0, 1.0, 0.5):.1f}"
    '5148.5'
    """
    require_positive(density_kg_m3=density_kg_m3)
    return density_kg_m3 * GRAVITY_M_S2 * (reservoir_height_m - outlet_height_m)


def vacuum_drive_pa(
    suction_pa: Numeric,
    atmosphere_pa: Numeric,
    density_kg_m3: Numeric,
    reservoir_height_m: Numeric,
    outlet_height_m: Numeric,
) -> Numeric:
    """Return the drive of suction at the catch tube, with the head.

    Suction can take off no more than the whole atmosphere.

    Parameters
    ----------
    suction_pa : numeric
        What the gauge shows below the atmosphere, as a positive number [Pa].
    atmosphere_pa : numeric
        Absolute pressure of the air [Pa].
    density_kg_m3 : numeric
        Density [kg/m3].
    reservoir_height_m, outlet_height_m : numeric
        Level in the reservoir and end of the catch tube above the ground [m].

    Returns
    -------
    numeric
        Drive [Pa], of the broadcast shape.

    Range
    -----
    No air drawn past the threads of the screw: that lowers the flow, not the gauge.

    Raises
    ------
    OutOfRangeError
        When the suction is below zero, or atmosphere or density is not above zero.

    Source
    ------
    derived: hydrostatics.

    Examples
    --------
    >>> f"{vacuum_drive_pa(60e3, 101325.0, 1050.0, 1.0, 0.5):.0f}"
    '65148'
    """
    require_not_negative(suction_pa=suction_pa)
    require_positive(atmosphere_pa=atmosphere_pa)
    head_pa = gravity_drive_pa(density_kg_m3, reservoir_height_m, outlet_height_m)
    return np.minimum(suction_pa, atmosphere_pa) + head_pa


def pressure_drive_pa(
    cap_pa: Numeric,
    density_kg_m3: Numeric,
    reservoir_height_m: Numeric,
    outlet_height_m: Numeric,
) -> Numeric:
    """Return the drive of air pressure on the reservoir, with the head.

    Parameters
    ----------
    cap_pa : numeric
        Gauge pressure under the cap [Pa].
    density_kg_m3 : numeric
        Density [kg/m3].
    reservoir_height_m, outlet_height_m : numeric
        Level in the reservoir and end of the catch tube above the ground [m].

    Returns
    -------
    numeric
        Drive [Pa], of the broadcast shape.

    Range
    -----
    Whatever the cap and its seal hold; many leak above 100 kPa (common-practice).

    Raises
    ------
    OutOfRangeError
        When the pressure is below zero or the density is not above zero.

    Source
    ------
    derived: hydrostatics.

    Examples
    --------
    >>> f"{pressure_drive_pa(100e3, 1050.0, 1.0, 0.5):.0f}"
    '105148'
    """
    require_not_negative(cap_pa=cap_pa)
    return cap_pa + gravity_drive_pa(density_kg_m3, reservoir_height_m, outlet_height_m)


def reverse_drive_pa(
    syringe_pa: Numeric,
    density_kg_m3: Numeric,
    reservoir_height_m: Numeric,
    syringe_height_m: Numeric,
) -> Numeric:
    """Return the drive of a syringe at the screw that pushes upwards, less the head.

    Parameters
    ----------
    syringe_pa : numeric
        Gauge pressure in the syringe [Pa].
    density_kg_m3 : numeric
        Density [kg/m3].
    reservoir_height_m, syringe_height_m : numeric
        Level in the reservoir and in the syringe above the ground [m].

    Returns
    -------
    numeric
        Drive from the screw to the reservoir, negative when the head wins [Pa], of the
        broadcast shape.

    Range
    -----
    The lip does not open this way: the compensating port takes the whole flow.

    Raises
    ------
    OutOfRangeError
        When the pressure is below zero or the density is not above zero.

    Source
    ------
    derived: hydrostatics.

    Examples
    --------
    >>> f"{reverse_drive_pa(50e3, 1050.0, 1.0, 0.3):.0f}"
    '42792'
    """
    require_not_negative(syringe_pa=syringe_pa)
    return syringe_pa - gravity_drive_pa(density_kg_m3, reservoir_height_m, syringe_height_m)


_DENSITY = Limit("density_kg_m3", 800.0, 1200.0, "kg/m3")

MODELS = (
    Model(
        "air pressure at an altitude",
        atmosphere_pa,
        (Limit("altitude_m", -500.0, 11000.0, "m"),),
        ("from-memory", "lib-fluids"),
    ),
    Model("drive of gravity", gravity_drive_pa, (_DENSITY,), ("derived",)),
    Model(
        "drive of suction",
        vacuum_drive_pa,
        (_DENSITY, Limit("suction_pa", 0.0, 95e3, "Pa")),
        ("derived",),
    ),
    Model(
        "drive of pressure",
        pressure_drive_pa,
        (_DENSITY, Limit("cap_pa", 0.0, 250e3, "Pa")),
        ("derived",),
    ),
    Model(
        "drive of a syringe from below",
        reverse_drive_pa,
        (_DENSITY, Limit("syringe_pa", 0.0, 300e3, "Pa")),
        ("derived",),
    ),
)
