# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How fast fluid moves through hoses, drillings and the compensating port.

Every passage is written as one pair of coefficients, ``dp = linear q + square q**2``:
the linear part is laminar friction along the bore, the square part is what speeding up
at the inlet and the jet at the outlet cost. Pairs in series add up, and the flow under a
given pressure is then a closed form.

Idealised: steady, fully developed laminar friction in a round bore. In brake lines the
flow settles within some 30 ms and over some millimetres, so both are small errors.
"""

from typing import NamedTuple

import numpy as np

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

LAMINAR_RE_MAX = 2000.0
"""Beyond this Reynolds number laminar friction is no longer sure (published: epanet)."""

ENTRY_AND_EXIT_LOSS = 1.5
"""Velocity heads lost at the two ends of a passage: entrance 0.5 and exit 1.0 (lib-fluids)."""

SHORT_DRILLING_LOSS = 2.28
"""The same for a drilling a few bores long, the growing profile included (merritt-1967)."""


class Loss(NamedTuple):
    """What a passage costs: ``dp = linear q + square q**2``."""

    linear_pa_s_m3: Numeric
    square_pa_s2_m6: Numeric


def laminar_resistance_pa_s_m3(
    viscosity_pa_s: Numeric, length_m: Numeric, bore_m: Numeric
) -> Numeric:
    """Return the pressure a laminar flow needs per unit of flow.

    ``R = 128 mu L / (pi d**4)``.

    Parameters
    ----------
    viscosity_pa_s : numeric
        Dynamic viscosity [Pa s].
    length_m : numeric
        Length of the passage [m].
    bore_m : numeric
        Inner diameter [m].

    Returns
    -------
    numeric
        Resistance [Pa s/m3], of the broadcast shape.

    Range
    -----
    Reynolds number below 2000, round bore.

    Raises
    ------
    OutOfRangeError
        When viscosity or bore is not above zero, or the length is below zero.

    Source
    ------
    hagen-poiseuille.

    Examples
    --------
    >>> f"{laminar_resistance_pa_s_m3(0.018, 1.2, 0.0032):.5g}"
    '8.3929e+09'
    """
    require_positive(viscosity_pa_s=viscosity_pa_s, bore_m=bore_m)
    require_not_negative(length_m=length_m)
    return 128.0 * viscosity_pa_s * length_m / (np.pi * bore_m**4)


def square_loss_pa_s2_m6(density_kg_m3: Numeric, bore_m: Numeric, loss_factor: Numeric) -> Numeric:
    """Return what a number of velocity heads cost per square of flow.

    ``K rho / (2 A**2)`` with ``A = pi d**2 / 4``.

    Parameters
    ----------
    density_kg_m3 : numeric
        Density [kg/m3].
    bore_m : numeric
        Inner diameter at which the speed is taken [m].
    loss_factor : numeric
        Velocity heads lost, ``K`` [-].

    Returns
    -------
    numeric
        Coefficient [Pa s2/m6], of the broadcast shape.

    Range
    -----
    ``K`` is constant only at high Reynolds number; below about 100 it is a fair guess.

    Raises
    ------
    OutOfRangeError
        When density or bore is not above zero, or the factor is below zero.

    Source
    ------
    lib-fluids for the usual factors: entrance 0.57, exit 1.0.

    Examples
    --------
    >>> f"{square_loss_pa_s2_m6(1050.0, 0.0006, 1.5):.4g}"
    '9.851e+15'
    """
    require_positive(density_kg_m3=density_kg_m3, bore_m=bore_m)
    require_not_negative(loss_factor=loss_factor)
    return 8.0 * loss_factor * density_kg_m3 / (np.pi * bore_m**2) ** 2


def passage_loss(
    viscosity_pa_s: Numeric,
    density_kg_m3: Numeric,
    length_m: Numeric,
    bore_m: Numeric,
    loss_factor: Numeric = ENTRY_AND_EXIT_LOSS,
) -> Loss:
    """Return what a hose, pipe, drilling, port or orifice of some length costs.

    Laminar friction along the bore plus ``loss_factor`` velocity heads at its ends.

    Parameters
    ----------
    viscosity_pa_s : numeric
        Dynamic viscosity [Pa s].
    density_kg_m3 : numeric
        Density [kg/m3].
    length_m : numeric
        Length of the passage [m].
    bore_m : numeric
        Inner diameter [m].
    loss_factor : numeric
        Velocity heads lost at the ends [-].

    Returns
    -------
    Loss
        Linear [Pa s/m3] and square [Pa s2/m6] coefficient.

    Range
    -----
    Reynolds number below 2000. For a drilling a few bores long, 2.28 velocity heads keep
    within 5 % of the measured law of `orifice.short_tube_discharge` from Reynolds number
    10 to 1000; the default 1.5 reads up to 30 % low there and hardly counts in a hose.

    Raises
    ------
    OutOfRangeError
        When viscosity, density or bore is not above zero, or length or factor is below zero.

    Source
    ------
    hagen-poiseuille for the linear part; lib-fluids for 1.5, merritt-1967 for 2.28.

    Examples
    --------
    >>> port = passage_loss(0.018, 1050.0, 0.0015, 0.0006)
    >>> f"{port.linear_pa_s_m3:.4g} {port.square_pa_s2_m6:.4g}"
    '8.488e+09 9.851e+15'
    """
    return Loss(
        laminar_resistance_pa_s_m3(viscosity_pa_s, length_m, bore_m),
        square_loss_pa_s2_m6(density_kg_m3, bore_m, loss_factor),
    )


def in_series(*losses: Loss) -> Loss:
    """Return what passages cost one after the other.

    The same flow passes all, so both coefficients add up.

    Parameters
    ----------
    losses : Loss
        One or more passages: linear [Pa s/m3] and square [Pa s2/m6] coefficients.

    Returns
    -------
    Loss
        Linear [Pa s/m3] and square [Pa s2/m6] coefficient of the whole.

    Range
    -----
    No branch between the passages.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    derived: conservation of volume.

    Examples
    --------
    >>> in_series(Loss(1.0, 10.0), Loss(2.0, 20.0))
    Loss(linear_pa_s_m3=3.0, square_pa_s2_m6=30.0)
    """
    first, *others = losses
    linear, square = first
    for loss in others:
        linear = linear + loss.linear_pa_s_m3
        square = square + loss.square_pa_s2_m6
    return Loss(linear, square)


def drop_pa(flow_m3_s: Numeric, loss: Loss) -> Numeric:
    """Return the pressure a flow needs.

    ``dp = linear q + square q |q|``, so a flow the other way gives a negative drop.

    Parameters
    ----------
    flow_m3_s : numeric
        Flow [m3/s].
    loss : Loss
        The passage: linear [Pa s/m3] and square [Pa s2/m6] coefficient.

    Returns
    -------
    numeric
        Pressure drop [Pa], of the broadcast shape.

    Range
    -----
    That of the loss.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    definition, of a loss.

    Examples
    --------
    >>> float(drop_pa(2.0, Loss(3.0, 5.0)))
    26.0
    """
    return flow_m3_s * (loss.linear_pa_s_m3 + loss.square_pa_s2_m6 * np.abs(flow_m3_s))


def flow_m3_s(drive_pa: Numeric, loss: Loss) -> Numeric:
    """Return the flow that a pressure drives.

    The root of ``dp = a q + b q**2`` in the form that keeps its digits as ``b`` goes to
    zero: ``q = 2 dp / (a + sqrt(a**2 + 4 b |dp|))``.

    Parameters
    ----------
    drive_pa : numeric
        Driving pressure, negative for the other way [Pa].
    loss : Loss
        The whole path: linear [Pa s/m3] and square [Pa s2/m6] coefficient.

    Returns
    -------
    numeric
        Flow, of the sign of the drive [m3/s], of the broadcast shape.

    Range
    -----
    That of the loss; look at `beyond_laminar` for every passage of the path.

    Raises
    ------
    OutOfRangeError
        When the linear coefficient is not above zero, or the square one is below zero.

    Source
    ------
    derived: the quadratic formula.

    Examples
    --------
    Half a metre of head through a 1.2 m hose alone:

    >>> hose = passage_loss(0.018, 1050.0, 1.2, 0.0032)
    >>> f"{flow_m3_s(5148.0, hose):.2e}"
    '6.13e-07'
    """
    a, b = loss
    require_positive(linear_pa_s_m3=a)
    require_not_negative(square_pa_s2_m6=b)
    return 2.0 * drive_pa / (a + np.sqrt(a * a + 4.0 * b * np.abs(drive_pa)))


def flow_past_lip_m3_s(drive_pa: Numeric, path: Loss, port: Loss, lip_pa: Numeric) -> Numeric:
    """Return the flow through a path that starts at the master cylinder.

    Fluid enters through the compensating port. The cup's lip lies beside it and folds
    forward at ``lip_pa``: so the drop across the master is the port's, or the lip's
    where the port's would be more. It never opens backwards.

    Parameters
    ----------
    drive_pa : numeric
        Driving pressure over the whole, negative from the screw upwards [Pa].
    path : Loss
        Everything below the master: linear [Pa s/m3] and square [Pa s2/m6] coefficient.
    port : Loss
        The compensating port: linear [Pa s/m3] and square [Pa s2/m6] coefficient.
    lip_pa : numeric
        Pressure at which the lip folds; infinite if it never does [Pa].

    Returns
    -------
    numeric
        Flow [m3/s], of the broadcast shape.

    Range
    -----
    The lip is ideal: shut below ``lip_pa``, wide open at it. 5 to 30 kPa is
    from-memory, medium confidence; no measurement is published.

    Raises
    ------
    OutOfRangeError
        When a linear coefficient of the path is not above zero, or a square one or
        ``lip_pa`` is below zero.

    Source
    ------
    derived: port and lip side by side; from-memory for the lip's pressure.

    Examples
    --------
    Suction of 60 kPa: the lip carries most of the flow.

    >>> hose = passage_loss(0.018, 1050.0, 1.2, 0.0032)
    >>> port = passage_loss(0.018, 1050.0, 0.0015, 0.0006)
    >>> f"{flow_past_lip_m3_s(60e3, hose, port, 15e3):.2e}"
    '5.32e-06'
    >>> f"{flow_past_lip_m3_s(60e3, hose, port, float('inf')):.2e}"
    '1.75e-06'
    """
    require_not_negative(lip_pa=lip_pa)
    through_port = flow_m3_s(drive_pa, in_series(path, port))
    # a lip that never folds would make the excess minus infinity and its flow 0/0
    excess_pa = np.maximum(drive_pa - lip_pa, -np.abs(drive_pa))
    return np.maximum(through_port, flow_m3_s(excess_pa, path))


def reynolds_number(
    flow_m3_s: Numeric, bore_m: Numeric, kinematic_viscosity_m2_s: Numeric
) -> Numeric:
    """Return the Reynolds number of a flow in a round bore.

    ``Re = 4 |q| / (pi d v)``.

    Parameters
    ----------
    flow_m3_s : numeric
        Flow, either way [m3/s].
    bore_m : numeric
        Inner diameter [m].
    kinematic_viscosity_m2_s : numeric
        Kinematic viscosity [m2/s].

    Returns
    -------
    numeric
        Reynolds number [-], of the broadcast shape.

    Range
    -----
    Any flow.

    Raises
    ------
    OutOfRangeError
        When bore or viscosity is not above zero.

    Source
    ------
    definition, with the mean speed.

    Examples
    --------
    >>> f"{reynolds_number(1e-6, 0.0032, 0.018 / 1050):.4f}"
    '23.2101'
    """
    require_positive(bore_m=bore_m, kinematic_viscosity_m2_s=kinematic_viscosity_m2_s)
    return 4.0 * np.abs(flow_m3_s) / (np.pi * bore_m * kinematic_viscosity_m2_s)


def beyond_laminar(reynolds: Numeric) -> Numeric:
    """Flag where the laminar law is asked beyond its range.

    Parameters
    ----------
    reynolds : numeric
        Reynolds number of one passage [-].

    Returns
    -------
    numeric
        1.0 at or above a Reynolds number of 2000, 0.0 below, NaN where unknown [-].

    Range
    -----
    Between 2000 and 4000 a flow may still be laminar; the flag only says it is not sure.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    epanet, which leaves the laminar law at 2000.

    Examples
    --------
    >>> float(beyond_laminar(23.2)), float(beyond_laminar(2600.0))
    (0.0, 1.0)
    """
    return np.heaviside(np.subtract(reynolds, LAMINAR_RE_MAX), 1.0)


_BORE = Limit("bore_m", 0.2e-3, 15e-3, "m")
_VISCOSITY = Limit("viscosity_pa_s", 1e-3, 2.0, "Pa s")
_DENSITY = Limit("density_kg_m3", 800.0, 1200.0, "kg/m3")
_RE = Limit("Re", 0.0, LAMINAR_RE_MAX, "-")

MODELS = (
    Model(
        "laminar resistance of a bore",
        laminar_resistance_pa_s_m3,
        (_RE, _VISCOSITY, _BORE, Limit("length_m", 0.0, 8.0, "m")),
        ("hagen-poiseuille",),
    ),
    Model(
        "velocity heads lost",
        square_loss_pa_s2_m6,
        (Limit("loss_factor", 0.0, 5.0, "-"), _DENSITY, _BORE),
        ("lib-fluids",),
    ),
    Model(
        "passage of some length",
        passage_loss,
        (_RE, _VISCOSITY, _DENSITY, _BORE),
        ("hagen-poiseuille", "lib-fluids", "merritt-1967"),
    ),
    Model("passages in series", in_series, (_RE,), ("derived",)),
    Model("pressure for a flow", drop_pa, (_RE,), ("definition",)),
    Model("flow under a pressure", flow_m3_s, (_RE,), ("derived",)),
    Model(
        "flow past port and lip",
        flow_past_lip_m3_s,
        (_RE, Limit("lip_pa", 5e3, 30e3, "Pa")),
        ("derived", "from-memory"),
    ),
    Model("Reynolds number", reynolds_number, (_BORE,), ("definition",)),
    Model("laminar or not", beyond_laminar, (Limit("reynolds", 0.0, 1e5, "-"),), ("epanet",)),
)
