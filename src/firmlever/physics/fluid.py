# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How thick and how heavy the fluid is at a temperature.

Brake fluid halves its viscosity between 20 and 40 degC, and every flow time follows.
"""

from typing import NamedTuple

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

REFERENCE_T_K = 293.15
_MM2_S = 1e-6
_WALTHER_SHIFT = 0.7


class WaltherLine(NamedTuple):
    """A fluid's straight line on the viscosity chart, in the chart's mm2/s and K."""

    a: Numeric
    b: Numeric


def walther_coefficients(
    cold_t_k: Numeric,
    cold_viscosity_m2_s: Numeric,
    hot_t_k: Numeric,
    hot_viscosity_m2_s: Numeric,
) -> WaltherLine:
    """Fit a fluid's viscosity line through two known points.

    The chart straightens viscosity to ``lg lg(v + 0.7) = a - b lg T`` with ``v`` in
    mm2/s; two points fix it. The line returns both points exactly.

    Parameters
    ----------
    cold_t_k, hot_t_k : numeric
        Two temperatures, different from each other [K].
    cold_viscosity_m2_s, hot_viscosity_m2_s : numeric
        Kinematic viscosity at each [m2/s].

    Returns
    -------
    WaltherLine
        Intercept ``a`` and slope ``b`` [-], of the broadcast shape.

    Range
    -----
    Viscosity above 0.3 mm2/s, where the double logarithm exists; shown for 2 mm2/s and
    more. The standard adds small terms below that, which are left out here.

    Raises
    ------
    OutOfRangeError
        When a temperature is not above zero, a viscosity not above 0.3 mm2/s, or the
        cold point not colder than the hot one.

    Source
    ------
    astm-d341, the chart's equation without its terms for thin liquids.

    Examples
    --------
    >>> line = walther_coefficients(233.15, 1200e-6, 373.15, 2.5e-6)
    >>> f"{line.a:.3f} {line.b:.3f}"
    '9.589 3.844'
    """
    require_positive(
        cold_t_k=cold_t_k,
        hot_t_k=hot_t_k,
        cold_viscosity_over_0_3_mm2_s=cold_viscosity_m2_s - 0.3 * _MM2_S,
        hot_viscosity_over_0_3_mm2_s=hot_viscosity_m2_s - 0.3 * _MM2_S,
        hot_less_cold_t_k=hot_t_k - cold_t_k,
    )
    cold_x, hot_x = np.log10(cold_t_k), np.log10(hot_t_k)
    cold_y = np.log10(np.log10(cold_viscosity_m2_s / _MM2_S + _WALTHER_SHIFT))
    hot_y = np.log10(np.log10(hot_viscosity_m2_s / _MM2_S + _WALTHER_SHIFT))
    b = (cold_y - hot_y) / (hot_x - cold_x)
    return WaltherLine(a=cold_y + b * cold_x, b=b)


def kinematic_viscosity_m2_s(t_k: Numeric, a: Numeric, b: Numeric) -> Numeric:
    """Return the kinematic viscosity at a temperature.

    ``v = 10**10**(a - b lg T) - 0.7`` in mm2/s.

    Parameters
    ----------
    t_k : numeric
        Temperature [K].
    a, b : numeric
        The fluid's line, from `walther_coefficients` [-].

    Returns
    -------
    numeric
        Kinematic viscosity [m2/s], of the broadcast shape.

    Range
    -----
    -40 to 150 degC, between or near the two points that fixed the line. A fluid that
    is not Newtonian in the cold, or waxes, leaves the line.

    Raises
    ------
    OutOfRangeError
        When a temperature is not above zero.

    Source
    ------
    astm-d341, the chart's equation without its terms for thin liquids.

    Examples
    --------
    >>> line = walther_coefficients(233.15, 1200e-6, 373.15, 2.5e-6)
    >>> f"{kinematic_viscosity_m2_s(293.15, *line):.3g}"
    '1.82e-05'
    """
    require_positive(t_k=t_k)
    return (10.0 ** (10.0 ** (a - b * np.log10(t_k))) - _WALTHER_SHIFT) * _MM2_S


def dynamic_viscosity_pa_s(kinematic_viscosity_m2_s: Numeric, density_kg_m3: Numeric) -> Numeric:
    """Turn kinematic viscosity into dynamic.

    ``mu = v rho``.

    Parameters
    ----------
    kinematic_viscosity_m2_s : numeric
        Kinematic viscosity [m2/s].
    density_kg_m3 : numeric
        Density at the same temperature [kg/m3].

    Returns
    -------
    numeric
        Dynamic viscosity [Pa s], of the broadcast shape.

    Range
    -----
    Any Newtonian liquid.

    Raises
    ------
    OutOfRangeError
        When either is not above zero.

    Source
    ------
    definition, of kinematic viscosity.

    Examples
    --------
    >>> f"{dynamic_viscosity_pa_s(17.0e-6, 1050.0):.5f}"
    '0.01785'
    """
    require_positive(kinematic_viscosity_m2_s=kinematic_viscosity_m2_s, density_kg_m3=density_kg_m3)
    return kinematic_viscosity_m2_s * density_kg_m3


def density_kg_m3(t_k: Numeric, density_20_kg_m3: Numeric, expansion_1_k: Numeric) -> Numeric:
    """Return the density at a temperature.

    The volume grows evenly from 20 degC: ``rho = rho20 / (1 + alpha (T - 293.15))``,
    so that density times `expansion_volume_m3`'s new volume is the same mass.

    Parameters
    ----------
    t_k : numeric
        Temperature [K].
    density_20_kg_m3 : numeric
        Density at 20 degC [kg/m3].
    expansion_1_k : numeric
        Volume expansion per kelvin, at 20 degC [1/K].

    Returns
    -------
    numeric
        Density [kg/m3], of the broadcast shape.

    Range
    -----
    -40 to 150 degC; a 3 mm2/s silicone keeps to it within 0.2 % from 0 to 60 degC.

    Raises
    ------
    OutOfRangeError
        When temperature or density is not above zero, or the expansion is below zero.

    Source
    ------
    definition, of the coefficient, held constant.

    Examples
    --------
    >>> f"{density_kg_m3(353.15, 1050.0, 0.85e-3):.1f}"
    '999.0'
    """
    require_positive(t_k=t_k, density_20_kg_m3=density_20_kg_m3)
    require_not_negative(expansion_1_k=expansion_1_k)
    return density_20_kg_m3 / (1.0 + expansion_1_k * (t_k - REFERENCE_T_K))


def expansion_volume_m3(volume_m3: Numeric, rise_k: Numeric, expansion_1_k: Numeric) -> Numeric:
    """Return the volume that warming adds.

    ``dV = V alpha dT``; negative when the fluid cools.

    Parameters
    ----------
    volume_m3 : numeric
        Volume at 20 degC [m3].
    rise_k : numeric
        Temperature above 20 degC [K].
    expansion_1_k : numeric
        Volume expansion per kelvin, at 20 degC [1/K].

    Returns
    -------
    numeric
        Added volume [m3], of the broadcast shape.

    Range
    -----
    -60 to 130 K from 20 degC.

    Raises
    ------
    OutOfRangeError
        When volume or expansion is below zero.

    Source
    ------
    definition, of the coefficient, held constant.

    Examples
    --------
    >>> f"{expansion_volume_m3(60e-6, 10.0, 0.9e-3):.2e}"
    '5.40e-07'
    """
    require_not_negative(volume_m3=volume_m3, expansion_1_k=expansion_1_k)
    return volume_m3 * expansion_1_k * rise_k


_T_LIMIT = Limit("t_k", 233.15, 423.15, "K")

MODELS = (
    Model(
        "viscosity line through two points",
        walther_coefficients,
        (
            Limit("cold_t_k", 233.15, 373.15, "K"),
            Limit("hot_t_k", 273.15, 423.15, "K"),
            Limit("cold_viscosity_m2_s", 2e-6, 2e-3, "m2/s"),
            Limit("hot_viscosity_m2_s", 1e-6, 2e-3, "m2/s"),
        ),
        ("astm-d341",),
    ),
    Model("viscosity at a temperature", kinematic_viscosity_m2_s, (_T_LIMIT,), ("astm-d341",)),
    Model(
        "dynamic from kinematic viscosity",
        dynamic_viscosity_pa_s,
        (
            Limit("kinematic_viscosity_m2_s", 1e-6, 2e-3, "m2/s"),
            Limit("density_kg_m3", 800.0, 1200.0, "kg/m3"),
        ),
        ("definition",),
    ),
    Model(
        "density at a temperature",
        density_kg_m3,
        (_T_LIMIT, Limit("expansion_1_k", 0.5e-3, 1.1e-3, "1/K")),
        ("definition",),
    ),
    Model(
        "volume added by warming",
        expansion_volume_m3,
        (Limit("rise_k", -60.0, 130.0, "K"), Limit("expansion_1_k", 0.5e-3, 1.1e-3, "1/K")),
        ("definition",),
    ),
)
