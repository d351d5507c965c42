# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Small bubbles: how fast they rise, and how much gas suction draws out of the fluid.

Nobody knows whether the skin of a bubble is clean, so two speeds bound its rise. Gas
leaves the fluid by Henry's law; as that also needs time and somewhere to start, the
amounts are upper bounds.
"""

import numpy as np

from firmlever.physics.drive import GRAVITY_M_S2
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

# each round at least halves what is left of the error
_ROUNDS = 60


def clean_bubble_rise_m_s(
    diameter_m: Numeric, density_kg_m3: Numeric, viscosity_pa_s: Numeric
) -> Numeric:
    """Return how fast a small bubble with a freely moving skin rises: the fast bound.

    ``rho g d**2 / (12 mu)``; the gas is taken to weigh nothing.

    Parameters
    ----------
    diameter_m : numeric
        Diameter of the bubble [m].
    density_kg_m3 : numeric
        Density of the fluid [kg/m3].
    viscosity_pa_s : numeric
        Dynamic viscosity of the fluid [Pa s].

    Returns
    -------
    numeric
        Speed of rise in fluid at rest [m/s], of the broadcast shape.

    Range
    -----
    Reynolds number below 1, far from walls: in brake fluid at 20 degC up to about
    0.7 mm.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    ervik-2017, both bounds of small bubbles.

    Examples
    --------
    >>> f"{1e3 * clean_bubble_rise_m_s(0.0003, 1050.0, 0.018):.2f} mm/s"
    '4.29 mm/s'
    """
    require_positive(
        diameter_m=diameter_m, density_kg_m3=density_kg_m3, viscosity_pa_s=viscosity_pa_s
    )
    return density_kg_m3 * GRAVITY_M_S2 * diameter_m**2 / (12.0 * viscosity_pa_s)


def dirty_bubble_rise_m_s(
    diameter_m: Numeric, density_kg_m3: Numeric, viscosity_pa_s: Numeric
) -> Numeric:
    """Return how fast a small bubble with a stiff skin rises: the slow bound.

    ``rho g d**2 / (18 mu)`` over ``1 + 0.15 Re**0.687``, with Re at the speed returned.

    Parameters
    ----------
    diameter_m : numeric
        Diameter of the bubble [m].
    density_kg_m3 : numeric
        Density of the fluid [kg/m3].
    viscosity_pa_s : numeric
        Dynamic viscosity of the fluid [Pa s].

    Returns
    -------
    numeric
        Speed of rise in fluid at rest [m/s], of the broadcast shape.

    Range
    -----
    Reynolds number below 800 and a round bubble, far from walls: in brake fluid at
    20 degC up to about 1 mm.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    ervik-2017 for the speed without inertia; from-memory, high confidence, for the drag
    factor.

    Examples
    --------
    >>> f"{1e3 * dirty_bubble_rise_m_s(0.0003, 1050.0, 0.018):.2f} mm/s"
    '2.81 mm/s'
    """
    creeping = clean_bubble_rise_m_s(diameter_m, density_kg_m3, viscosity_pa_s) * 12.0 / 18.0
    speed = creeping
    for _ in range(_ROUNDS):
        reynolds = density_kg_m3 * speed * diameter_m / viscosity_pa_s
        # the mean of logarithms, so that it does not swing
        speed = np.sqrt(speed * creeping / (1.0 + 0.15 * reynolds**0.687))
    return speed


def gas_released(dissolved: Numeric, pressure_pa: Numeric, atmosphere_pa: Numeric) -> Numeric:
    """Return how much gas a saturated fluid can let go at a lower pressure.

    ``dissolved (1 - p / p_a)``, none at or above the pressure it was saturated at.

    Parameters
    ----------
    dissolved : numeric
        Gas in the saturated fluid, in its volumes at atmospheric pressure for one of
        fluid [-].
    pressure_pa : numeric
        Absolute pressure on the fluid now [Pa].
    atmosphere_pa : numeric
        Pressure of the air it was saturated at, absolute [Pa].

    Returns
    -------
    numeric
        Gas set free, in volumes at atmospheric pressure for one of fluid [-], of the
        broadcast shape; an upper bound.

    Range
    -----
    10 to 100 kPa, temperature unchanged, no vapour of fluid or water.

    Raises
    ------
    OutOfRangeError
        When a pressure is not above zero, or the gas is below zero.

    Source
    ------
    derived, from Henry's law.

    Examples
    --------
    >>> f"{100 * gas_released(0.05, 51325.0, 101325.0):.2f} %"
    '2.47 %'
    """
    require_not_negative(dissolved=dissolved)
    require_positive(pressure_pa=pressure_pa, atmosphere_pa=atmosphere_pa)
    return dissolved * (1.0 - np.minimum(pressure_pa / atmosphere_pa, 1.0))


def bubble_growth(pressure_pa: Numeric, atmosphere_pa: Numeric) -> Numeric:
    """Return how many times its volume gas takes up under suction.

    ``p_a / p``: what is a bubble of one volume in the open air.

    Parameters
    ----------
    pressure_pa : numeric
        Absolute pressure on it now [Pa].
    atmosphere_pa : numeric
        Pressure of the air around, absolute [Pa].

    Returns
    -------
    numeric
        Volume over that at atmospheric pressure [-], of the broadcast shape.

    Range
    -----
    10 to 100 kPa, slow enough for an even temperature; surface tension left out, good
    above 0.05 mm.

    Raises
    ------
    OutOfRangeError
        When a pressure is not above zero.

    Source
    ------
    definition, of an ideal gas at one temperature.

    Examples
    --------
    >>> f"{bubble_growth(51325.0, 101325.0):.2f}"
    '1.97'
    """
    require_positive(pressure_pa=pressure_pa, atmosphere_pa=atmosphere_pa)
    return atmosphere_pa / pressure_pa


MODELS = (
    Model(
        "rise of a clean bubble",
        clean_bubble_rise_m_s,
        (Limit("Re", 0.0, 1.0, "-"),),
        ("ervik-2017",),
    ),
    Model(
        "rise of a dirty bubble",
        dirty_bubble_rise_m_s,
        (Limit("Re", 0.0, 800.0, "-"),),
        ("ervik-2017", "from-memory"),
    ),
    Model(
        "gas released under suction",
        gas_released,
        (Limit("pressure_pa", 1e4, 1e5, "Pa"),),
        ("derived",),
    ),
    Model(
        "growth of a bubble under suction",
        bubble_growth,
        (Limit("pressure_pa", 1e4, 1e5, "Pa"),),
        ("definition",),
    ),
)
