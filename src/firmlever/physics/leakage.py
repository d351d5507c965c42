# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Fluid past a seal or along a scratch, and how fast a held lever sinks for it."""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive


def annulus_leak_m3_s(
    bore_m: Numeric,
    gap_m: Numeric,
    length_m: Numeric,
    pressure_pa: Numeric,
    viscosity_pa_s: Numeric,
    eccentricity: Numeric = 0.0,
) -> Numeric:
    """Return the laminar flow through the gap round a piston.

    ``pi D h**3 dp (1 + 1.5 e**2) / (12 mu L)``.

    Parameters
    ----------
    bore_m : numeric
        Diameter of the bore [m].
    gap_m : numeric
        Radial gap with the piston central [m].
    length_m : numeric
        Length of the gap along the bore [m].
    pressure_pa : numeric
        Pressure across it, zero or above [Pa].
    viscosity_pa_s : numeric
        Dynamic viscosity [Pa s].
    eccentricity : numeric
        Offset of the piston over the gap, 0 central to 1 touching [-].

    Returns
    -------
    numeric
        Flow [m3/s], of the broadcast shape.

    Range
    -----
    Gap far below bore and length; laminar.

    Raises
    ------
    OutOfRangeError
        When bore, length or viscosity is not above zero, or another argument below zero.

    Source
    ------
    merritt-1967.

    Examples
    --------
    >>> f"{annulus_leak_m3_s(0.014, 5e-6, 2e-3, 2e6, 0.018) * 1e6:.5f} ml/s"
    '0.02545 ml/s'
    """
    require_positive(bore_m=bore_m, length_m=length_m, viscosity_pa_s=viscosity_pa_s)
    require_not_negative(gap_m=gap_m, pressure_pa=pressure_pa, eccentricity=eccentricity)
    wide = 1.0 + 1.5 * eccentricity**2
    return np.pi * bore_m * gap_m**3 * pressure_pa * wide / (12.0 * viscosity_pa_s * length_m)


def scratch_leak_m3_s(
    width_m: Numeric, length_m: Numeric, pressure_pa: Numeric, viscosity_pa_s: Numeric
) -> Numeric:
    """Return the laminar flow along a round scratch under a seal.

    ``pi d**4 dp / (128 mu L)``.

    Parameters
    ----------
    width_m : numeric
        Diameter of the round passage that the scratch leaves [m].
    length_m : numeric
        Length of the seal along it [m].
    pressure_pa : numeric
        Pressure across it, zero or above [Pa].
    viscosity_pa_s : numeric
        Dynamic viscosity [Pa s].

    Returns
    -------
    numeric
        Flow [m3/s], of the broadcast shape.

    Range
    -----
    Laminar; a scratch far longer than wide.

    Raises
    ------
    OutOfRangeError
        When length or viscosity is not above zero, or another argument below zero.

    Source
    ------
    hagen-poiseuille.

    Examples
    --------
    >>> f"{scratch_leak_m3_s(50e-6, 2e-3, 2e6, 0.018) * 1e6:.5f} ml/s"
    '0.00852 ml/s'
    """
    require_positive(length_m=length_m, viscosity_pa_s=viscosity_pa_s)
    require_not_negative(width_m=width_m, pressure_pa=pressure_pa)
    return np.pi * width_m**4 * pressure_pa / (128.0 * viscosity_pa_s * length_m)


def piston_sink_m_s(leak_m3_s: Numeric, master_bore_m: Numeric) -> Numeric:
    """Return how fast the master piston creeps forward to feed a leak.

    Parameters
    ----------
    leak_m3_s : numeric
        Flow that leaves the pressure side [m3/s].
    master_bore_m : numeric
        Bore of the master cylinder [m].

    Returns
    -------
    numeric
        Speed of the piston [m/s], of the broadcast shape.

    Range
    -----
    Constant force, everything else at rest.

    Raises
    ------
    OutOfRangeError
        When the bore is not above zero.

    Source
    ------
    definition, volume over area.

    Examples
    --------
    >>> f"{piston_sink_m_s(0.02545e-6, 0.014) * 60e3:.2f} mm a minute"
    '9.92 mm a minute'
    """
    require_positive(master_bore_m=master_bore_m)
    return 4.0 * leak_m3_s / (np.pi * master_bore_m**2)


MODELS = (
    Model(
        "leak round a piston",
        annulus_leak_m3_s,
        (Limit("gap_m", 0.0, 50e-6, "m"), Limit("eccentricity", 0.0, 1.0, "-")),
        ("merritt-1967",),
    ),
    Model(
        "leak along a scratch",
        scratch_leak_m3_s,
        (Limit("width_m", 0.0, 200e-6, "m"),),
        ("hagen-poiseuille",),
    ),
    Model(
        "sinking of the master piston",
        piston_sink_m_s,
        (Limit("master_bore_m", 6e-3, 30e-3, "m"),),
        ("definition",),
    ),
)
