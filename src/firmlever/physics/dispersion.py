# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How far diffusion gets while fluid passes a line, and the plume it makes when it wins.

Radius and diffusivity give a time in which the bore evens out. Fluid that passes
much faster keeps its parabolic front; fluid that passes much slower moves as a plug
that spreads along the line.
"""

from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

CONVECTIVE_BELOW_KAPPA = 3e-4
DISPERSED_ABOVE_KAPPA = 1.0


class Regime(IntEnum):
    """Which law describes the front in a line."""

    CONVECTIVE = 0
    TABULATED = 1
    DISPERSED = 2


def radial_diffusion_number(
    diffusivity_m2_s: Numeric, residence_s: Numeric, bore_radius_m: Numeric
) -> Numeric:
    """Return ``kappa``: the time in the line over the time to diffuse across the bore.

    ``kappa = D t / a**2``.

    Parameters
    ----------
    diffusivity_m2_s : numeric
        Diffusivity of one fluid in the other [m2/s].
    residence_s : numeric
        Volume of the line over the flow, rests included [s].
    bore_radius_m : numeric
        Radius of the bore [m].

    Returns
    -------
    numeric
        Radial diffusion number [-], of the broadcast shape.

    Range
    -----
    Any. The diffusivity of brake fluids in each other is not published; 1e-10 m2/s
    within 3e-11 to 5e-10 is derived from their viscosity.

    Raises
    ------
    OutOfRangeError
        When the diffusivity or the time is below zero or the radius not above zero.

    Source
    ------
    taylor-1953 compares the same two times.

    Examples
    --------
    >>> f"{radial_diffusion_number(1e-10, 9.65, 1.6e-3):.2g}"
    '0.00038'
    """
    require_not_negative(diffusivity_m2_s=diffusivity_m2_s, residence_s=residence_s)
    require_positive(bore_radius_m=bore_radius_m)
    return diffusivity_m2_s * residence_s / bore_radius_m**2


def laminar_regime(kappa: Numeric) -> NDArray[np.int_]:
    """Return which law describes the front in a line.

    Parameters
    ----------
    kappa : numeric
        Radial diffusion number [-].

    Returns
    -------
    array of int
        `Regime` codes [-], of the shape of ``kappa``; NaN counts as dispersed.

    Range
    -----
    The limits are 3e-4, where the convective law needs 2 % more to reach 95 %, and 1,
    where the spread of a plug is within 7 % of the direct solution.

    Raises
    ------
    OutOfRangeError
        When ``kappa`` is below zero.

    Source
    ------
    derived: compared with `laminar_diffusive_new`.

    Examples
    --------
    >>> laminar_regime(np.array([1e-4, 1e-2, 3.0])).tolist()
    [0, 1, 2]
    """
    require_not_negative(kappa=kappa)
    return np.searchsorted((CONVECTIVE_BELOW_KAPPA, DISPERSED_ABOVE_KAPPA), kappa)


def taylor_aris_dispersion_m2_s(
    diffusivity_m2_s: Numeric, mean_speed_m_s: Numeric, bore_radius_m: Numeric
) -> Numeric:
    """Return how quickly a plug spreads along a line once the bore is evened out.

    ``D (1 + Pe**2 / 48)`` with ``Pe`` from the radius.

    Parameters
    ----------
    diffusivity_m2_s : numeric
        Diffusivity of one fluid in the other [m2/s].
    mean_speed_m_s : numeric
        Mean speed in the bore [m/s].
    bore_radius_m : numeric
        Radius of the bore [m].

    Returns
    -------
    numeric
        Effective diffusivity along the line [m2/s], of the broadcast shape.

    Range
    -----
    ``kappa`` of one and more.

    Raises
    ------
    OutOfRangeError
        When the diffusivity is not above zero or the radius below zero.

    Source
    ------
    taylor-1953, aris-1956 (form from memory, high confidence).

    Examples
    --------
    >>> f"{taylor_aris_dispersion_m2_s(1.87e-9, 0.05e-3, 0.5e-3):.4g}"
    '8.833e-09'
    """
    require_positive(diffusivity_m2_s=diffusivity_m2_s)
    require_not_negative(bore_radius_m=bore_radius_m)
    peclet = mean_speed_m_s * bore_radius_m / diffusivity_m2_s
    return diffusivity_m2_s * (1.0 + peclet**2 / 48.0)


def ogata_banks_new(
    distance_m: Numeric, time_s: Numeric, mean_speed_m_s: Numeric, dispersion_m2_s: Numeric
) -> Numeric:
    """Return the share of new fluid in a long line whose inlet is held at new fluid.

    Parameters
    ----------
    distance_m : numeric
        Distance from the inlet [m].
    time_s : numeric
        Time since the new fluid came to the inlet [s].
    mean_speed_m_s : numeric
        Mean speed in the bore [m/s].
    dispersion_m2_s : numeric
        Effective diffusivity along the line [m2/s].

    Returns
    -------
    numeric
        Share of new fluid at that place [-], of the broadcast shape.

    Range
    -----
    A line that goes on beyond the place; ``kappa`` of one and more.

    Raises
    ------
    OutOfRangeError
        When a time or the dispersion is not above zero, or the distance below zero.

    Source
    ------
    ogata-1961.

    Examples
    --------
    >>> f"{ogata_banks_new(1.0, 1.0, 1.0, 0.1):.6f}"
    '0.585289'
    """
    from scipy.special import erfc, erfcx

    behind, ahead = _fronts(distance_m, time_s, mean_speed_m_s, dispersion_m2_s)
    new: Numeric = 0.5 * (erfc(behind) + np.exp(-(behind**2)) * erfcx(ahead))
    return new


def flux_inlet_new(
    distance_m: Numeric, time_s: Numeric, mean_speed_m_s: Numeric, dispersion_m2_s: Numeric
) -> Numeric:
    """Return the share of new fluid in a long line that is fed with new fluid.

    What diffuses back against the inlet is part of the balance, so the line fills
    with exactly what is pushed.

    Parameters
    ----------
    distance_m : numeric
        Distance from the inlet [m].
    time_s : numeric
        Time since the new fluid came to the inlet [s].
    mean_speed_m_s : numeric
        Mean speed in the bore [m/s].
    dispersion_m2_s : numeric
        Effective diffusivity along the line [m2/s].

    Returns
    -------
    numeric
        Share of new fluid at that place [-], of the broadcast shape.

    Range
    -----
    A line that goes on beyond the place; ``kappa`` of one and more.

    Raises
    ------
    OutOfRangeError
        When a time or the dispersion is not above zero, or the distance below zero.

    Source
    ------
    vangenuchten-1982 (form from memory, high confidence).

    Examples
    --------
    >>> f"{flux_inlet_new(1.0, 1.0, 1.0, 0.1):.6f}"
    '0.493058'
    """
    from scipy.special import erfc, erfcx

    behind, ahead = _fronts(distance_m, time_s, mean_speed_m_s, dispersion_m2_s)
    pushed = mean_speed_m_s**2 * time_s / dispersion_m2_s
    mirrored = 1.0 + mean_speed_m_s * distance_m / dispersion_m2_s + pushed
    bell = np.exp(-(behind**2))
    new: Numeric = 0.5 * erfc(behind) + bell * (
        np.sqrt(pushed / np.pi) - 0.5 * mirrored * erfcx(ahead)
    )
    return new


def _fronts(
    distance_m: Numeric, time_s: Numeric, mean_speed_m_s: Numeric, dispersion_m2_s: Numeric
) -> tuple[Numeric, Numeric]:
    """The place measured from the front and from its mirror image, in widths."""
    require_positive(time_s=time_s, dispersion_m2_s=dispersion_m2_s)
    require_not_negative(distance_m=distance_m)
    width_m = 2.0 * np.sqrt(dispersion_m2_s * time_s)
    front_m = mean_speed_m_s * time_s
    return (distance_m - front_m) / width_m, (distance_m + front_m) / width_m


_DISPERSED = Limit("kappa", DISPERSED_ABOVE_KAPPA, 1e6, "-")

MODELS = (
    Model(
        "radial diffusion number",
        radial_diffusion_number,
        (Limit("diffusivity_m2_s", 3e-11, 5e-10, "m2/s"),),
        ("taylor-1953",),
    ),
    Model("regime of a line", laminar_regime, (Limit("kappa", 0.0, 1e6, "-"),), ("derived",)),
    Model(
        "Taylor-Aris dispersion",
        taylor_aris_dispersion_m2_s,
        (_DISPERSED,),
        ("taylor-1953", "aris-1956"),
    ),
    Model("Ogata-Banks front", ogata_banks_new, (_DISPERSED,), ("ogata-1961",)),
    Model("front fed by flux", flux_inlet_new, (_DISPERSED,), ("vangenuchten-1982",)),
)
