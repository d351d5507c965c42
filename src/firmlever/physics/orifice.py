# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Short drillings and sharp orifices by their measured discharge coefficients.

A second way to what `flow.passage_loss` says of a short drilling, and the law for an
orifice with no length to speak of, such as one inside an ABS unit.
"""

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

SHARP_DISCHARGE = 0.611
"""Discharge coefficient of a sharp orifice at high Reynolds number (merritt-1967)."""

SHARP_TRANSITION_RE = 9.3
"""Where the laminar coefficient 0.2 sqrt(Re) reaches 0.611 (merritt-1967, from memory)."""


def short_tube_discharge(length_m: Numeric, bore_m: Numeric, reynolds: Numeric) -> Numeric:
    """Return the discharge coefficient of a short drilling.

    With ``x = D Re / L``: ``(1.5 + 13.74 / sqrt(x))**-0.5`` above 50, where the flow is
    still developing, ``(2.28 + 64 / x)**-0.5`` below. The two differ by 1.7 % at 50.

    Parameters
    ----------
    length_m : numeric
        Length of the drilling [m].
    bore_m : numeric
        Its diameter [m].
    reynolds : numeric
        Reynolds number in it [-].

    Returns
    -------
    numeric
        Discharge coefficient [-], of the broadcast shape.

    Range
    -----
    Reynolds number below 2000, sharp inlet.

    Raises
    ------
    OutOfRangeError
        When length, bore or Reynolds number is not above zero.

    Source
    ------
    merritt-1967, section on short tube orifices.

    Examples
    --------
    >>> f"{short_tube_discharge(0.008, 0.0015, 50.0):.4f}"
    '0.3314'
    """
    require_positive(length_m=length_m, bore_m=bore_m, reynolds=reynolds)
    x = bore_m * reynolds / length_m
    loss_factor = np.where(x > 50.0, 1.5 + 13.74 / np.sqrt(x), 2.28 + 64.0 / x)[()]
    return loss_factor**-0.5


def discharge_drop_pa(
    flow_m3_s: Numeric, bore_m: Numeric, density_kg_m3: Numeric, discharge: Numeric
) -> Numeric:
    """Return the pressure a flow needs through a bore with a known discharge coefficient.

    ``dp = rho / 2 (q / (Cd A))**2``.

    Parameters
    ----------
    flow_m3_s : numeric
        Flow, zero or above [m3/s].
    bore_m : numeric
        Diameter [m].
    density_kg_m3 : numeric
        Density [kg/m3].
    discharge : numeric
        Discharge coefficient at this flow [-].

    Returns
    -------
    numeric
        Pressure drop [Pa], of the broadcast shape.

    Range
    -----
    That of the coefficient.

    Raises
    ------
    OutOfRangeError
        When bore, density or coefficient is not above zero, or the flow is below zero.

    Source
    ------
    definition, of the coefficient.

    Examples
    --------
    >>> f"{discharge_drop_pa(1e-6, 0.0015, 1050.0, 0.3307):.0f}"
    '1537'
    """
    require_positive(bore_m=bore_m, density_kg_m3=density_kg_m3, discharge=discharge)
    require_not_negative(flow_m3_s=flow_m3_s)
    speed_m_s = 4.0 * flow_m3_s / (np.pi * bore_m**2)
    return density_kg_m3 / 2.0 * (speed_m_s / discharge) ** 2


def orifice_flow_m3_s(
    drive_pa: Numeric, bore_m: Numeric, density_kg_m3: Numeric, kinematic_viscosity_m2_s: Numeric
) -> Numeric:
    """Return the flow through a sharp orifice, laminar and turbulent in one curve.

    ``q = Cd A sqrt(2 / rho) dp / (dp**2 + pcr**2)**(1/4)``, where ``pcr`` is the
    pressure at which the Reynolds number reaches 9.3.

    Parameters
    ----------
    drive_pa : numeric
        Pressure across the orifice, negative for the other way [Pa].
    bore_m : numeric
        Its diameter [m].
    density_kg_m3 : numeric
        Density [kg/m3].
    kinematic_viscosity_m2_s : numeric
        Kinematic viscosity [m2/s].

    Returns
    -------
    numeric
        Flow, of the sign of the pressure [m3/s], of the broadcast shape.

    Range
    -----
    Length well below the bore, and a chamber wide against the bore on both sides.

    Raises
    ------
    OutOfRangeError
        When bore, density or viscosity is not above zero.

    Source
    ------
    mathworks-blocks, Fixed Orifice, for the blend; merritt-1967 for both coefficients.

    Examples
    --------
    >>> f"{orifice_flow_m3_s(1000.0, 0.0007, 1050.0, 0.018 / 1050):.2e}"
    '3.24e-07'
    """
    require_positive(
        bore_m=bore_m,
        density_kg_m3=density_kg_m3,
        kinematic_viscosity_m2_s=kinematic_viscosity_m2_s,
    )
    critical_speed_m_s = SHARP_TRANSITION_RE * kinematic_viscosity_m2_s / bore_m
    critical_pa = density_kg_m3 / 2.0 * (critical_speed_m_s / SHARP_DISCHARGE) ** 2
    conductance = SHARP_DISCHARGE * np.pi / 4.0 * bore_m**2 * (2.0 / density_kg_m3) ** 0.5
    return conductance * drive_pa / (drive_pa**2 + critical_pa**2) ** 0.25


_BORE = Limit("bore_m", 0.2e-3, 5e-3, "m")
_RE = Limit("Re", 0.0, 2000.0, "-")

MODELS = (
    Model(
        "discharge of a short drilling",
        short_tube_discharge,
        (Limit("reynolds", 0.0, 2000.0, "-"), _BORE, Limit("length_m", 0.5e-3, 20e-3, "m")),
        ("merritt-1967",),
    ),
    Model("pressure by discharge coefficient", discharge_drop_pa, (_BORE,), ("definition",)),
    Model(
        "sharp orifice",
        orifice_flow_m3_s,
        (_RE, _BORE),
        ("mathworks-blocks", "merritt-1967"),
    ),
)
