# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a closed circuit swallows as pressure rises: air, fluid, hoses, pads and calipers.

Pressures are gauge pressures. Every volume is what the master piston has to push in to
reach that pressure, counted from none; the derivative of their sum is the springiness
that a hand feels.
"""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

HOSE_REFERENCE_PA = 6.894757e6
"""1000 psi, at which hoses are rated (fmvss-106)."""

HOSE_EXPONENT = 0.65
"""How a rubber hose stiffens: swelling goes with pressure to this power; 0.6 to 0.8 (derived)."""

PADS_REFERENCE_PA = 5e6
"""The pressure at which the give of pads and calipers is quoted."""

PADS_EXPONENT = 0.6
"""How pads stiffen: their give goes with pressure to this power (from memory)."""


def air_taken_up_m3(
    free_volume_m3: Numeric, pressure_pa: Numeric, ambient_pa: Numeric, polytropic: Numeric
) -> Numeric:
    """Return by how much trapped air has shrunk.

    ``v0 (1 - (pa / (pa + p))**(1/n))``.

    Parameters
    ----------
    free_volume_m3 : numeric
        Volume of the air at the pressure around [m3].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    ambient_pa : numeric
        Absolute pressure around [Pa].
    polytropic : numeric
        Exponent: 1 for a slow squeeze, 1.4 for one too fast to lose heat [-].

    Returns
    -------
    numeric
        Volume [m3], of the broadcast shape.

    Range
    -----
    Air as a perfect gas, none of it dissolving during the squeeze.

    Raises
    ------
    OutOfRangeError
        When volume or pressure is below zero, or the ambient pressure or exponent not above.

    Source
    ------
    definition, of the polytropic change of a perfect gas.

    Examples
    --------
    >>> f"{air_taken_up_m3(1e-6, 1e6, 101325.0, 1.0) * 1e6:.4f} ml of 1 ml at 1 MPa"
    '0.9080 ml of 1 ml at 1 MPa'
    """
    require_not_negative(free_volume_m3=free_volume_m3, pressure_pa=pressure_pa)
    require_positive(ambient_pa=ambient_pa, polytropic=polytropic)
    return free_volume_m3 * (1.0 - (ambient_pa / (ambient_pa + pressure_pa)) ** (1.0 / polytropic))


def fluid_shrinkage_m3(
    volume_m3: Numeric, pressure_pa: Numeric, bulk_modulus_pa: Numeric
) -> Numeric:
    """Return by how much fluid without air has shrunk: ``V p / K``.

    Parameters
    ----------
    volume_m3 : numeric
        Its volume [m3].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    bulk_modulus_pa : numeric
        Bulk modulus of the fluid [Pa].

    Returns
    -------
    numeric
        Volume [m3], of the broadcast shape.

    Range
    -----
    Pressures well below the bulk modulus.

    Raises
    ------
    OutOfRangeError
        When volume or pressure is below zero, or the modulus not above zero.

    Source
    ------
    definition, of the bulk modulus.

    Examples
    --------
    >>> f"{fluid_shrinkage_m3(60e-6, 1e6, 1.8e9) * 1e6:.4f}"
    '0.0333'
    """
    require_not_negative(volume_m3=volume_m3, pressure_pa=pressure_pa)
    require_positive(bulk_modulus_pa=bulk_modulus_pa)
    return volume_m3 * pressure_pa / bulk_modulus_pa


def hose_swelling_m3(
    length_m: Numeric,
    pressure_pa: Numeric,
    rated_m3_m_pa: Numeric,
    exponent: Numeric = HOSE_EXPONENT,
) -> Numeric:
    """Return by how much a hose has swollen.

    ``L s p1 (p / p1)**b``, where ``s`` is the swelling a metre and pascal at the rating
    pressure ``p1`` of 1000 psi. A hose stiffens: at a lower pressure it swells by more for
    each pascal than its rating says.

    Parameters
    ----------
    length_m : numeric
        Length of the hose [m].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    rated_m3_m_pa : numeric
        Swelling at the rating pressure, for each metre and pascal [m3/(m Pa)].
    exponent : numeric
        ``b`` [-].

    Returns
    -------
    numeric
        Volume [m3], of the broadcast shape.

    Range
    -----
    Rubber, 0.5 to 20 MPa; below, the power law makes it softer than anybody measured.

    Raises
    ------
    OutOfRangeError
        When length, pressure or rating is below zero, or the exponent not above zero.

    Source
    ------
    fmvss-106, table of expansion at three pressures; the power law is fitted to it (derived).

    Examples
    --------
    >>> f"{hose_swelling_m3(1.6, 3e6, 60e-15) * 1e9:.0f} mm3"
    '385 mm3'
    """
    require_not_negative(length_m=length_m, pressure_pa=pressure_pa, rated_m3_m_pa=rated_m3_m_pa)
    require_positive(exponent=exponent)
    ratio = pressure_pa / HOSE_REFERENCE_PA
    return length_m * rated_m3_m_pa * HOSE_REFERENCE_PA * ratio**exponent


def pads_and_caliper_give_m3(
    area_m2: Numeric,
    give_m: Numeric,
    pressure_pa: Numeric,
    exponent: Numeric = PADS_EXPONENT,
) -> Numeric:
    """Return what pads being squeezed and calipers spreading take up.

    ``A c (p / 5 MPa)**b``.

    Parameters
    ----------
    area_m2 : numeric
        Area of the pistons that move for it [m2].
    give_m : numeric
        How far they move at 5 MPa [m].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    exponent : numeric
        ``b`` [-].

    Returns
    -------
    numeric
        Volume [m3], of the broadcast shape.

    Range
    -----
    0.2 to 6 MPa.

    Raises
    ------
    OutOfRangeError
        When area, give or pressure is below zero, or the exponent not above zero.

    Source
    ------
    from-memory; day-2014 for the form.

    Examples
    --------
    >>> f"{pads_and_caliper_give_m3(5.68e-3, 0.05e-3, 3e6) * 1e9:.0f} mm3"
    '209 mm3'
    """
    require_not_negative(area_m2=area_m2, give_m=give_m, pressure_pa=pressure_pa)
    require_positive(exponent=exponent)
    return area_m2 * give_m * (pressure_pa / PADS_REFERENCE_PA) ** exponent


def clearance_taken_up_m3(
    clearance_m3: Numeric, pressure_pa: Numeric, scale_pa: Numeric
) -> Numeric:
    """Return how much of the clearance before the pads bite has been closed.

    ``x0 (1 - exp(-p / ps))``.

    Parameters
    ----------
    clearance_m3 : numeric
        Piston area times the gap to close [m3].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    scale_pa : numeric
        Pressure by which 63 % of it is closed [Pa].

    Returns
    -------
    numeric
        Volume [m3], of the broadcast shape.

    Range
    -----
    Pistons that slide; a stuck one has no such law.

    Raises
    ------
    OutOfRangeError
        When clearance or pressure is below zero, or the scale not above zero.

    Source
    ------
    judgement: a smooth form of the nearly flat take-up below 0.2 to 0.5 MPa that is
    published for cars (us-9656653).

    Examples
    --------
    >>> f"{clearance_taken_up_m3(0.568e-6, 0.2e6, 0.1e6) * 1e6:.3f}"
    '0.491'
    """
    require_not_negative(clearance_m3=clearance_m3, pressure_pa=pressure_pa)
    require_positive(scale_pa=scale_pa)
    return clearance_m3 * -np.expm1(-pressure_pa / scale_pa)


def mixture_modulus_pa(
    fluid_modulus_pa: Numeric,
    air_share: Numeric,
    pressure_pa: Numeric,
    ambient_pa: Numeric,
    polytropic: Numeric,
) -> Numeric:
    """Return the tangent bulk modulus of fluid with air in it.

    Parameters
    ----------
    fluid_modulus_pa : numeric
        Bulk modulus of the fluid alone [Pa].
    air_share : numeric
        Volume of the air over that of the fluid, at the pressure around [-].
    pressure_pa : numeric
        Gauge pressure, zero or above [Pa].
    ambient_pa : numeric
        Absolute pressure around [Pa].
    polytropic : numeric
        Exponent of the air [-].

    Returns
    -------
    numeric
        Bulk modulus [Pa], of the broadcast shape.

    Range
    -----
    Air share up to a tenth; none of it dissolves.

    Raises
    ------
    OutOfRangeError
        When share or pressure is below zero, or a modulus, pressure or exponent not above.

    Source
    ------
    mathworks-blocks, Hydraulic Fluid.

    Examples
    --------
    >>> f"{mixture_modulus_pa(1.8e9, 0.01, 1e6, 101325.0, 1.0) / 1e6:.1f} MPa"
    '719.6 MPa'
    """
    require_not_negative(air_share=air_share, pressure_pa=pressure_pa)
    require_positive(
        fluid_modulus_pa=fluid_modulus_pa, ambient_pa=ambient_pa, polytropic=polytropic
    )
    absolute = ambient_pa + pressure_pa
    gas = air_share * (ambient_pa / absolute) ** (1.0 / polytropic)
    slope = gas * fluid_modulus_pa / (polytropic * absolute)
    return fluid_modulus_pa * (1.0 + gas) / (1.0 + slope)


def lumped_modulus_pa(
    fluid_modulus_pa: Numeric,
    air_share: Numeric,
    air_modulus_pa: Numeric,
    bore_over_wall: Numeric,
    wall_modulus_pa: Numeric,
) -> Numeric:
    """Return the effective bulk modulus of fluid, air and an elastic wall in one lump.

    ``1/Be = 1/Bl + s/Bg + (D/t)/E``, with the air's share at the pressure it is under.

    Parameters
    ----------
    fluid_modulus_pa : numeric
        Bulk modulus of the fluid [Pa].
    air_share : numeric
        Volume of the air over the whole, at the working pressure [-].
    air_modulus_pa : numeric
        Bulk modulus of the air: its absolute pressure times the exponent [Pa].
    bore_over_wall : numeric
        Diameter over wall thickness of the pipe [-].
    wall_modulus_pa : numeric
        Young's modulus of the wall [Pa].

    Returns
    -------
    numeric
        Bulk modulus [Pa], of the broadcast shape.

    Range
    -----
    Small changes around one working pressure; thin walls.

    Raises
    ------
    OutOfRangeError
        When a share or ratio is below zero, or a modulus not above zero.

    Source
    ------
    handbook-9781482269895.

    Examples
    --------
    >>> psi = 6894.757
    >>> f"{lumped_modulus_pa(250e3 * psi, 0.01, 500 * psi, 10.0, 30e6 * psi) / psi:.0f} psi"
    '41096 psi'
    """
    require_not_negative(air_share=air_share, bore_over_wall=bore_over_wall)
    require_positive(
        fluid_modulus_pa=fluid_modulus_pa,
        air_modulus_pa=air_modulus_pa,
        wall_modulus_pa=wall_modulus_pa,
    )
    give = 1.0 / fluid_modulus_pa + air_share / air_modulus_pa + bore_over_wall / wall_modulus_pa
    return 1.0 / give


_PRESSURE = Limit("pressure_pa", 0.0, 20e6, "Pa")

MODELS = (
    Model(
        "air taken up",
        air_taken_up_m3,
        (_PRESSURE, Limit("polytropic", 1.0, 1.4, "-")),
        ("definition",),
    ),
    Model(
        "shrinkage of fluid",
        fluid_shrinkage_m3,
        (_PRESSURE, Limit("bulk_modulus_pa", 0.3e9, 2.5e9, "Pa")),
        ("definition",),
    ),
    Model(
        "swelling of a hose",
        hose_swelling_m3,
        (Limit("pressure_pa", 0.5e6, 20e6, "Pa"), Limit("exponent", 0.55, 0.85, "-")),
        ("fmvss-106", "derived"),
    ),
    Model(
        "give of pads and calipers",
        pads_and_caliper_give_m3,
        (Limit("pressure_pa", 0.2e6, 6e6, "Pa"),),
        ("from-memory", "day-2014"),
    ),
    Model(
        "clearance taken up",
        clearance_taken_up_m3,
        (Limit("scale_pa", 0.03e6, 0.3e6, "Pa"),),
        ("judgement", "us-9656653"),
    ),
    Model(
        "bulk modulus of fluid with air",
        mixture_modulus_pa,
        (_PRESSURE, Limit("air_share", 0.0, 0.1, "-")),
        ("mathworks-blocks",),
    ),
    Model(
        "bulk modulus in one lump",
        lumped_modulus_pa,
        (Limit("air_share", 0.0, 0.05, "-"),),
        ("handbook-9781482269895",),
    ),
)
