# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Bubbles that fill a bore: held by it, creeping past the limit, carried by the flow.

Below a Bond number of 0.842 a long bubble does not rise in fluid at rest. The walls are
taken as wet and clean; the grip of a dry or dirty wall would only hold it better.
"""

import numpy as np

from firmlever.physics.drive import GRAVITY_M_S2
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

HELD_BELOW_BOND = 0.842

# the two terms of the creeping law, and how often the root is bettered: each round at
# least halves what is left where the law is flattest
_SMALL_TERM, _LARGE_TERM = 1.25, 2.24
_ROUNDS = 60
# the film law: slope at slow flow, and what bends it
_FILM, _BEND = 1.34, 3.35
# both caps of a bubble together, in the same power of the capillary number
_CAPS = 4.52


def bond_number(bore_m: Numeric, density_kg_m3: Numeric, surface_tension_n_m: Numeric) -> Numeric:
    """Return the weight of the fluid against its surface tension, by the radius of a bore.

    ``Bo = rho g R**2 / sigma``; the Eötvös number of the bore, by its diameter, is four
    times as much.

    Parameters
    ----------
    bore_m : numeric
        Bore [m].
    density_kg_m3 : numeric
        Density of the fluid [kg/m3].
    surface_tension_n_m : numeric
        Surface tension of the fluid [N/m].

    Returns
    -------
    numeric
        Bond number [-], of the broadcast shape.

    Range
    -----
    Bores of 0.2 to 50 mm, for a gas that weighs nothing beside the fluid.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    definition.

    Examples
    --------
    >>> f"{bond_number(0.0032, 1050.0, 0.033):.3f}"
    '0.799'
    """
    require_positive(
        bore_m=bore_m, density_kg_m3=density_kg_m3, surface_tension_n_m=surface_tension_n_m
    )
    return density_kg_m3 * GRAVITY_M_S2 * (bore_m / 2.0) ** 2 / surface_tension_n_m


def hold_bore_m(density_kg_m3: Numeric, surface_tension_n_m: Numeric) -> Numeric:
    """Return the bore below which a long bubble stays put in upright fluid at rest.

    ``2 sqrt(0.842 sigma / (rho g))``.

    Parameters
    ----------
    density_kg_m3 : numeric
        Density of the fluid [kg/m3].
    surface_tension_n_m : numeric
        Surface tension of the fluid [N/m].

    Returns
    -------
    numeric
        Limiting bore [m], of the broadcast shape.

    Range
    -----
    A round upright bore with a wet, clean wall and nothing that shakes it; slope and
    shaking lower the limit by an amount nobody has published.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    bretherton-1961.

    Examples
    --------
    >>> f"{1e3 * hold_bore_m(1050.0, 0.033):.2f} mm"
    '3.29 mm'
    """
    require_positive(density_kg_m3=density_kg_m3, surface_tension_n_m=surface_tension_n_m)
    return 2.0 * np.sqrt(HELD_BELOW_BOND * surface_tension_n_m / (density_kg_m3 * GRAVITY_M_S2))


def creeping_climb_m_s(
    bore_m: Numeric,
    density_kg_m3: Numeric,
    viscosity_pa_s: Numeric,
    surface_tension_n_m: Numeric,
) -> Numeric:
    """Return how fast a long bubble climbs just above the limit at which it is held.

    The root of ``Bo - 0.842 = 1.25 Ca**(2/9) + 2.24 Ca**(1/3)`` with
    ``Ca = mu U / sigma``; nought at and below the limit.

    Parameters
    ----------
    bore_m : numeric
        Bore [m].
    density_kg_m3 : numeric
        Density of the fluid [kg/m3].
    viscosity_pa_s : numeric
        Dynamic viscosity of the fluid [Pa s].
    surface_tension_n_m : numeric
        Surface tension of the fluid [N/m].

    Returns
    -------
    numeric
        Speed of climb in upright fluid at rest [m/s], of the broadcast shape.

    Range
    -----
    Bond number 0.842 to 1.04, within 10 per cent; beyond, it climbs too fast.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    bretherton-1961.

    Examples
    --------
    >>> f"{1e6 * creeping_climb_m_s(0.0036, 1050.0, 0.018, 0.033):.1f} um/s"
    '33.0 um/s'
    """
    require_positive(viscosity_pa_s=viscosity_pa_s)
    bond = bond_number(bore_m, density_kg_m3, surface_tension_n_m)
    excess = np.maximum(bond - HELD_BELOW_BOND, 0.0)
    # the root in the ninth root of Ca, from above, where the cubic bends upwards
    root = np.cbrt(excess / _LARGE_TERM)
    for _ in range(_ROUNDS):
        steep = (3.0 * _LARGE_TERM * root + 2.0 * _SMALL_TERM) * root
        over = (_LARGE_TERM * root + _SMALL_TERM) * root**2 - excess
        root = root - over / np.where(steep > 0.0, steep, 1.0)
    return root**9 * surface_tension_n_m / viscosity_pa_s


def film_share(capillary: Numeric) -> Numeric:
    """Return the film that a passing bubble leaves on the wall, as a share of the radius.

    ``h / R = 1.34 Ca**(2/3) / (1 + 3.35 Ca**(2/3))``.

    Parameters
    ----------
    capillary : numeric
        Capillary number of the bubble, ``mu U_b / sigma`` [-].

    Returns
    -------
    numeric
        Thickness of the film over the radius [-].

    Range
    -----
    Capillary number up to 2, Reynolds number up to about 100, a bore that holds its bubble.

    Raises
    ------
    OutOfRangeError
        When the number is below zero.

    Source
    ------
    aussillous-2000.

    Examples
    --------
    >>> f"{film_share(0.01):.6f}"
    '0.053827'
    """
    require_not_negative(capillary=capillary)
    power = np.cbrt(capillary) ** 2
    return _FILM * power / (1.0 + _BEND * power)


def carried_speed_m_s(
    flow_speed_m_s: Numeric, viscosity_pa_s: Numeric, surface_tension_n_m: Numeric
) -> Numeric:
    """Return how fast a bubble that fills the bore is carried along.

    ``U_b = U / (1 - h/R)**2``: the film stays behind, so the bubble goes a little faster
    than the fluid, by the film at its own speed.

    Parameters
    ----------
    flow_speed_m_s : numeric
        Mean speed of the fluid in the bore [m/s].
    viscosity_pa_s : numeric
        Dynamic viscosity of the fluid [Pa s].
    surface_tension_n_m : numeric
        Surface tension of the fluid [N/m].

    Returns
    -------
    numeric
        Speed of the bubble [m/s], of the broadcast shape.

    Range
    -----
    Capillary number up to 2; the bubble is held where the fluid rests.

    Raises
    ------
    OutOfRangeError
        When the speed is below zero, or another argument not above it.

    Source
    ------
    aussillous-2000; derived, by conservation of volume.

    Examples
    --------
    >>> f"{carried_speed_m_s(0.1, 0.018, 0.033):.4f} m/s"
    '0.1383 m/s'
    """
    require_not_negative(flow_speed_m_s=flow_speed_m_s)
    require_positive(viscosity_pa_s=viscosity_pa_s, surface_tension_n_m=surface_tension_n_m)
    speed = flow_speed_m_s
    for _ in range(_ROUNDS):
        film = film_share(viscosity_pa_s * speed / surface_tension_n_m)
        speed = flow_speed_m_s / (1.0 - film) ** 2
    return speed


def bubble_drop_pa(
    speed_m_s: Numeric, bore_m: Numeric, viscosity_pa_s: Numeric, surface_tension_n_m: Numeric
) -> Numeric:
    """Return the pressure that it takes to push one long bubble along.

    ``4.52 (3 Ca)**(2/3) sigma / R``: front and rear cap together.

    Parameters
    ----------
    speed_m_s : numeric
        Speed of the bubble [m/s].
    bore_m : numeric
        Bore [m].
    viscosity_pa_s : numeric
        Dynamic viscosity of the fluid [Pa s].
    surface_tension_n_m : numeric
        Surface tension of the fluid [N/m].

    Returns
    -------
    numeric
        Drop of pressure over the bubble, beyond that of the fluid it replaces [Pa].

    Range
    -----
    Capillary number below 0.005 within 10 per cent; above, an upper bound.

    Raises
    ------
    OutOfRangeError
        When the speed is below zero, or another argument not above it.

    Source
    ------
    bretherton-1961, second-hand for the two caps together.

    Examples
    --------
    >>> f"{bubble_drop_pa(0.01, 0.0032, 0.018, 0.033):.1f} Pa"
    '6.0 Pa'
    """
    require_not_negative(speed_m_s=speed_m_s)
    require_positive(
        bore_m=bore_m, viscosity_pa_s=viscosity_pa_s, surface_tension_n_m=surface_tension_n_m
    )
    capillary = viscosity_pa_s * speed_m_s / surface_tension_n_m
    return _CAPS * np.cbrt(3.0 * capillary) ** 2 * surface_tension_n_m / (bore_m / 2.0)


MODELS = (
    Model(
        "Bond number of a bore",
        bond_number,
        (Limit("bore_m", 0.0002, 0.05, "m"),),
        ("definition",),
    ),
    Model(
        "bore that holds its bubble",
        hold_bore_m,
        (Limit("surface_tension_n_m", 0.015, 0.08, "N/m"),),
        ("bretherton-1961",),
    ),
    Model(
        "creeping climb of a long bubble",
        creeping_climb_m_s,
        (Limit("Bo", 0.842, 1.04, "-"),),
        ("bretherton-1961",),
    ),
    Model(
        "film behind a long bubble",
        film_share,
        (Limit("Ca", 0.0, 2.0, "-"),),
        ("aussillous-2000",),
    ),
    Model(
        "long bubble carried by the flow",
        carried_speed_m_s,
        (Limit("Ca", 0.0, 2.0, "-"),),
        ("aussillous-2000", "derived"),
    ),
    Model(
        "pressure to move a long bubble",
        bubble_drop_pa,
        (Limit("Ca", 0.0, 0.005, "-"),),
        ("bretherton-1961",),
    ),
)
