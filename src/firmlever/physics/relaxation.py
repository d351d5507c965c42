# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a lever goes on moving under a steady force without losing any fluid.

Hoses, seals and pads creep: fast at first, slower and slower. What settles comes to rest after
a while. A leak does neither: it goes on at one rate.
"""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive


def creep_m(rate_m: Numeric, time_s: Numeric, onset_s: Numeric) -> Numeric:
    """Return how far a thing has crept that slows down for ever.

    ``c ln(1 + t / t0)``.

    Parameters
    ----------
    rate_m : numeric
        Creep for each e-fold of time, zero or above [m].
    time_s : numeric
        Time under the force, zero or above [s].
    onset_s : numeric
        Time from which the creep slows down [s].

    Returns
    -------
    numeric
        Way [m], of the broadcast shape.

    Range
    -----
    Rubber and friction material, from a second to some hours.

    Raises
    ------
    OutOfRangeError
        When rate or time is below zero, or the onset not above zero.

    Source
    ------
    derived: the logarithmic law of creep, as rubber and friction material follow it.

    Examples
    --------
    >>> f"{creep_m(0.3e-3, 60.0, 2.0) * 1e3:.2f} mm"
    '1.03 mm'
    """
    require_not_negative(rate_m=rate_m, time_s=time_s)
    require_positive(onset_s=onset_s)
    return rate_m * np.log1p(time_s / onset_s)


def settling_m(reach_m: Numeric, time_s: Numeric, constant_s: Numeric) -> Numeric:
    """Return how far a thing has settled that comes to rest.

    ``a (1 - exp(-t / tau))``.

    Parameters
    ----------
    reach_m : numeric
        How far it settles in the end, zero or above [m].
    time_s : numeric
        Time under the force, zero or above [s].
    constant_s : numeric
        Time by which 63 % of it is done [s].

    Returns
    -------
    numeric
        Way [m], of the broadcast shape.

    Range
    -----
    One time constant; a real seal has several.

    Raises
    ------
    OutOfRangeError
        When reach or time is below zero, or the constant not above zero.

    Source
    ------
    definition, of a first-order approach to rest.

    Examples
    --------
    >>> f"{settling_m(1e-3, 10.0, 10.0) * 1e3:.3f} mm"
    '0.632 mm'
    """
    require_not_negative(reach_m=reach_m, time_s=time_s)
    require_positive(constant_s=constant_s)
    return reach_m * -np.expm1(-time_s / constant_s)


MODELS = (
    Model("creep", creep_m, (Limit("time_s", 0.0, 1e4, "s"),), ("derived",)),
    Model("settling", settling_m, (Limit("constant_s", 1.0, 1e3, "s"),), ("definition",)),
)
