# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Long bubbles that climb: upright, in a slope, level, and what flow takes them down.

Two correlations of the climb differ by up to a half in bores as narrow as these. Both are
kept; where a draw stands between them is part of what is not known.
"""

import numpy as np

from firmlever.physics.drive import GRAVITY_M_S2
from firmlever.physics.long_bubbles import bond_number, creeping_climb_m_s
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

_STOPS_AT_EOTVOS = 3.37
# a passage that lies level lets its bubble go above this Eötvös number
_LEVEL, _LEVEL_GRIP, _LEVEL_POWER = 0.54, 1.76, 0.56
# how much faster than the mean flow downwards a bubble is pressed: the careful end
_PRESSED_DOWN = 0.9


def _thickness(bore_m: Numeric, density_kg_m3: Numeric, viscosity_pa_s: Numeric) -> Numeric:
    """Return the viscosity number, rho sqrt(g D**3) / mu."""
    return density_kg_m3 * np.sqrt(GRAVITY_M_S2 * bore_m**3) / viscosity_pa_s


def _logistic(x: Numeric, top: Numeric, middle: Numeric, power: Numeric, bend: Numeric) -> Numeric:
    # log(1 + exp(steep)) without running away, as the outer curve does below its range
    steep = power * np.log(x / middle)
    return top * np.exp(-bend * (np.maximum(steep, 0.0) + np.log1p(np.exp(-np.abs(steep)))))


def wallis_climb_m_s(
    bore_m: Numeric,
    density_kg_m3: Numeric,
    viscosity_pa_s: Numeric,
    surface_tension_n_m: Numeric,
) -> Numeric:
    """Return how fast a long bubble climbs upright, by the older of two correlations.

    ``U / sqrt(g D) = 0.345 (1 - exp(-N_f / 34.5)) (1 - exp((3.37 - Eo) / m))``, with m by
    the viscosity number N_f; nought up to Eo 3.37.

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
    Viscosity number 1 to 1e5, Eo 3.37 to 1000.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    wallis-1969, second-hand through an open program.

    Examples
    --------
    >>> f"{1e3 * wallis_climb_m_s(0.006, 1050.0, 0.018, 0.033):.1f} mm/s"
    '31.9 mm/s'
    """
    require_positive(viscosity_pa_s=viscosity_pa_s)
    eotvos = 4.0 * bond_number(bore_m, density_kg_m3, surface_tension_n_m)
    thin = _thickness(bore_m, density_kg_m3, viscosity_pa_s)
    # 25 in thick fluid, 10 in thin, and a power of the viscosity number between
    m = np.where(thin > 250.0, 10.0, np.where(thin < 18.0, 25.0, 69.0 * thin**-0.35))
    grip = 1.0 - np.exp(np.minimum(_STOPS_AT_EOTVOS - eotvos, 0.0) / m)
    froude = 0.345 * (1.0 - np.exp(-0.01 * thin / 0.345)) * grip
    return froude * np.sqrt(GRAVITY_M_S2 * bore_m)


def viana_climb_m_s(
    bore_m: Numeric,
    density_kg_m3: Numeric,
    viscosity_pa_s: Numeric,
    surface_tension_n_m: Numeric,
) -> Numeric:
    """Return how fast a long bubble climbs upright, by the correlation over 262 tests.

    The universal form: three logistic curves of the Eötvös number inside one of the
    viscosity number.

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
    1 to 3900 mPa s, Eo above 3.37. It does not come to nought at the limit by itself.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    viana-2003, second-hand through an open program.

    Examples
    --------
    >>> f"{1e3 * viana_climb_m_s(0.006, 1050.0, 0.018, 0.033):.1f} mm/s"
    '32.5 mm/s'
    """
    require_positive(viscosity_pa_s=viscosity_pa_s)
    eotvos = 4.0 * bond_number(bore_m, density_kg_m3, surface_tension_n_m)
    thin = _thickness(bore_m, density_kg_m3, viscosity_pa_s)
    top = _logistic(eotvos, 0.34, 14.793, -3.06, 0.58)
    middle = _logistic(eotvos, 31.08, 29.868, -1.96, -0.49)
    power = _logistic(eotvos, -1.45, 24.867, -9.93, -0.094)
    froude = _logistic(thin, top, middle, power, -1.0295 / power)
    return froude * np.sqrt(GRAVITY_M_S2 * bore_m)


def climb_m_s(
    bore_m: Numeric,
    density_kg_m3: Numeric,
    viscosity_pa_s: Numeric,
    surface_tension_n_m: Numeric,
    between: Numeric = 0.5,
) -> Numeric:
    """Return how fast a long bubble climbs in upright fluid at rest, from held to free.

    The slower of the creeping law and of a mean of both correlations; nought where the
    bore holds its bubble, and without a jump from there on.

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
    between : numeric
        Where the climb stands between the two correlations, 0 to 1 [-].

    Returns
    -------
    numeric
        Speed of climb [m/s], of the broadcast shape.

    Range
    -----
    Any bore of a brake; between Bond numbers of 1.04 and about 1.5 no law was tested.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    bretherton-1961, viana-2003 and wallis-1969; derived, for how they are joined.

    Examples
    --------
    >>> [f"{1e3 * climb_m_s(bore, 1050.0, 0.018, 0.033):.2f}" for bore in (0.0032, 0.004, 0.008)]
    ['0.00', '0.90', '69.78']
    """
    require_not_negative(between=between)
    fluid = (density_kg_m3, viscosity_pa_s, surface_tension_n_m)
    free = (1.0 - between) * viana_climb_m_s(bore_m, *fluid) + between * wallis_climb_m_s(
        bore_m, *fluid
    )
    return np.minimum(creeping_climb_m_s(bore_m, *fluid), free)


def level_drift_m_s(
    bore_m: Numeric, density_kg_m3: Numeric, surface_tension_n_m: Numeric
) -> Numeric:
    """Return how fast a bubble runs along a level passage that is open at its end.

    ``U / sqrt(g D) = 0.54 - 1.76 Eo**-0.56``, nought below Eo 8.25: there a level passage
    keeps its bubble.

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
        Speed of the bubble's nose [m/s], of the broadcast shape.

    Range
    -----
    Thin fluids; thicker ones are slower. The limit itself is what matters here.

    Raises
    ------
    OutOfRangeError
        When an argument is not above zero.

    Source
    ------
    weber-1981, formula from memory, high confidence.

    Examples
    --------
    >>> [f"{1e3 * level_drift_m_s(bore, 1050.0, 0.033):.0f}" for bore in (0.005, 0.008)]
    ['0', '59']
    """
    eotvos = 4.0 * bond_number(bore_m, density_kg_m3, surface_tension_n_m)
    froude = np.maximum(_LEVEL - _LEVEL_GRIP * eotvos**-_LEVEL_POWER, 0.0)
    return froude * np.sqrt(GRAVITY_M_S2 * bore_m)


def slanted_climb_m_s(climb_m_s: Numeric, level_m_s: Numeric, rise_share: Numeric) -> Numeric:
    """Return how fast a long bubble climbs in a slope.

    ``level cos + climb sin`` of the angle from level: fastest about a third of the way up.

    Parameters
    ----------
    climb_m_s : numeric
        Its speed upright [m/s].
    level_m_s : numeric
        Its speed in a level passage [m/s].
    rise_share : numeric
        Rise over length, the sine of the angle, 0 to 1 [-].

    Returns
    -------
    numeric
        Speed along the slope [m/s], of the broadcast shape.

    Range
    -----
    Measured in wide pipes and thin fluids.

    Raises
    ------
    OutOfRangeError
        When an argument is below zero.

    Source
    ------
    bendiksen-1984, second-hand; derived, for its use with narrow bores.

    Examples
    --------
    >>> f"{slanted_climb_m_s(0.35, 0.54, 0.5):.3f}"
    '0.643'
    """
    require_not_negative(climb_m_s=climb_m_s, level_m_s=level_m_s, rise_share=rise_share)
    across = np.sqrt(np.maximum(1.0 - rise_share**2, 0.0))
    return level_m_s * across + climb_m_s * rise_share


def sweep_down_m_s(climb_m_s: Numeric) -> Numeric:
    """Return the mean flow that just holds a climbing bubble down in a passage.

    ``U / 0.9``: flow downwards presses a bubble with no more than its mean speed.

    Parameters
    ----------
    climb_m_s : numeric
        Speed of its climb in fluid at rest [m/s].

    Returns
    -------
    numeric
        Mean speed of flow [m/s]; faster flow takes the bubble down.

    Range
    -----
    The careful end of 0.9 to 1.

    Raises
    ------
    OutOfRangeError
        When the speed is below zero.

    Source
    ------
    from-memory, medium confidence.

    Examples
    --------
    >>> f"{1e3 * sweep_down_m_s(0.070):.0f} mm/s"
    '78 mm/s'
    """
    require_not_negative(climb_m_s=climb_m_s)
    return climb_m_s / _PRESSED_DOWN


MODELS = (
    Model(
        "climb of a long bubble, older correlation",
        wallis_climb_m_s,
        (Limit("Eo", 3.37, 1000.0, "-"),),
        ("wallis-1969",),
    ),
    Model(
        "climb of a long bubble, over 262 tests",
        viana_climb_m_s,
        (Limit("Eo", 3.37, 1000.0, "-"),),
        ("viana-2003",),
    ),
    Model(
        "climb of a long bubble, from held to free",
        climb_m_s,
        (Limit("bore_m", 0.0005, 0.03, "m"),),
        ("bretherton-1961", "viana-2003", "wallis-1969", "derived"),
    ),
    Model(
        "bubble in a level passage",
        level_drift_m_s,
        (Limit("Eo", 8.25, 1000.0, "-"),),
        ("weber-1981",),
    ),
    Model(
        "climb in a slope",
        slanted_climb_m_s,
        (Limit("rise_share", 0.0, 1.0, "-"),),
        ("bendiksen-1984", "derived"),
    ),
    Model(
        "flow that takes a bubble down",
        sweep_down_m_s,
        (Limit("climb_m_s", 0.0, 0.5, "m/s"),),
        ("from-memory",),
    ),
)
