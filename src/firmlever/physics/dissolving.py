# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Bubbles that dissolve while the control is held."""

from firmlever.errors import OutOfRangeError
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive


def dissolving_time_s(
    radius_m: Numeric, diffusion_m2_s: Numeric, solubility: Numeric, saturation: Numeric
) -> Numeric:
    """Return how long a bubble takes to dissolve in fluid at rest.

    ``R**2 / (2 D L (1 - f))``; surface tension, which hurries the very end, is left out.

    Parameters
    ----------
    radius_m : numeric
        Radius at the pressure that is held [m].
    diffusion_m2_s : numeric
        How fast the gas spreads in the fluid [m2/s].
    solubility : numeric
        Gas that the fluid takes up, in its volumes at that pressure for one of fluid [-].
    saturation : numeric
        Gas already dissolved, as a share of what it takes up at that pressure; below 1.
        For fluid saturated in the open air it is the air's pressure over the held one [-].

    Returns
    -------
    numeric
        Time until it is gone [s], of the broadcast shape.

    Range
    -----
    A lone round bubble in much fluid. A pocket that fills its bore has less surface and
    takes longer: for it this is a lower bound.

    Raises
    ------
    OutOfRangeError
        When radius, diffusion or solubility is not above zero, or the saturation is
        below zero or not below one.

    Source
    ------
    epstein-plesset-1950, formula from memory, high confidence.

    Examples
    --------
    >>> held = 0.001 * 0.1 ** (1 / 3)  # 1 mm in the open air, now at ten times the pressure
    >>> f"{dissolving_time_s(held, 1e-10, 0.05, 0.1) / 3600:.1f} h"
    '6.6 h'
    """
    require_positive(radius_m=radius_m, diffusion_m2_s=diffusion_m2_s, solubility=solubility)
    require_not_negative(saturation=saturation)
    missing = 1.0 - saturation
    try:
        require_positive(missing=missing)
    except OutOfRangeError:
        raise OutOfRangeError("saturation", "below one") from None
    return radius_m**2 / (2.0 * diffusion_m2_s * solubility * missing)


MODELS = (
    Model(
        "bubble dissolving under pressure",
        dissolving_time_s,
        (Limit("saturation", 0.0, 1.0, "-"),),
        ("epstein-plesset-1950",),
    ),
)
