# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How the old fluid of one part leaves while clean fluid is pushed through it.

All laws share one language. ``theta`` is the pushed volume over the volume of
the part. ``left`` is the share of the part's first content still inside; it
starts at one with slope minus one, since at first only old fluid leaves. The
share of new fluid at the outlet is ``new = 1 + d left / d theta``. Below zero,
before pushing began, ``left`` is continued as ``1 - theta``, so that a
difference of two values of ``left`` is always the old volume that passed.
"""

import numpy as np

from firmlever.errors import OutOfRangeError
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric

_LAMINAR_ONSET = 0.5
"""The axis moves at twice the mean speed, so new fluid arrives after half a volume."""


def laminar_left(theta: Numeric) -> Numeric:
    """Return the share of its old fluid still in a line, by the convective laminar law.

    Each ring of the parabolic profile carries its own fluid to the end and
    nothing is exchanged between rings: ``1 - theta`` up to half a volume,
    ``1 / (4 theta)`` beyond.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the line [-].

    Returns
    -------
    numeric
        Share of the first content still inside [-], of the shape of ``theta``.

    Range
    -----
    Laminar flow in a round bore, ``kappa`` (see ``radial_diffusion_number``)
    up to 3e-4. At 0.001 reaching 95 % takes about 6 % more than this says.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    levenspiel-1999, p. 344, for the ages; integrated here.

    Examples
    --------
    One volume of the line leaves a quarter of the old fluid behind:

    >>> float(laminar_left(1.0))
    0.25
    >>> laminar_left(np.array([0.25, 0.5, 2.5, 25.0])).tolist()
    [0.75, 0.5, 0.1, 0.01]
    """
    left: Numeric = np.where(
        theta < _LAMINAR_ONSET, 1.0 - theta, 0.25 / np.maximum(theta, _LAMINAR_ONSET)
    )[()]
    return left


def laminar_new(theta: Numeric) -> Numeric:
    """Return the share of new fluid at the end of a line, by the convective laminar law.

    Nothing up to half a volume, then ``1 - 1 / (4 theta**2)``.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the line [-].

    Returns
    -------
    numeric
        Share of new fluid in what leaves [-], of the shape of ``theta``.

    Range
    -----
    As ``laminar_left``.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    levenspiel-1999, p. 344.

    Examples
    --------
    >>> laminar_new(np.array([0.5, 1.0, 2.0, 5.0])).tolist()
    [0.0, 0.75, 0.9375, 0.99]
    """
    new: Numeric = (1.0 - 0.25 / np.maximum(theta, _LAMINAR_ONSET) ** 2)[()]
    return new


def stirred_left(theta: Numeric) -> Numeric:
    """Return the share of its old fluid still in a well stirred chamber, ``exp(-theta)``.

    What leaves has the composition of what is inside, so the same number is the
    share of old fluid at the outlet.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the chamber [-].

    Returns
    -------
    numeric
        Share of the first content still inside [-], of the shape of ``theta``.

    Range
    -----
    A chamber whose content is mixed faster than it is replaced. Corners the
    stream does not reach belong to an unswept share, not to this law.

    Raises
    ------
    Nothing; NaN passes through.

    Source
    ------
    levenspiel-1999, ideal mixed flow.

    Examples
    --------
    >>> round(float(stirred_left(2.302585)), 6)
    0.1
    """
    left: Numeric = np.where(theta < 0.0, 1.0 - theta, np.exp(-np.maximum(theta, 0.0)))[()]
    return left


def tanks_in_series_left(theta: Numeric, tanks: Numeric) -> Numeric:
    """Return the share of its old fluid still in a part that acts as stirred tanks in a row.

    The parcels' ages follow a gamma distribution with mean one; what is left is
    the mean of how far they are beyond ``theta``.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the part [-].
    tanks : numeric
        Number of equal tanks, at least one; need not be whole [-].

    Returns
    -------
    numeric
        Share of the first content still inside [-], of the broadcast shape.

    Range
    -----
    One tank is the stirred chamber; many tanks approach plug flow.

    Raises
    ------
    OutOfRangeError
        When a number of tanks is below one.

    Source
    ------
    levenspiel-1999, tanks-in-series model; integrated here.

    Examples
    --------
    >>> round(float(tanks_in_series_left(1.0, 3)), 5)
    0.22404
    """
    from scipy.special import gammaincc

    _require_tanks(tanks)
    ahead = np.maximum(theta, 0.0)
    late = gammaincc(tanks + 1.0, tanks * ahead) - ahead * gammaincc(tanks, tanks * ahead)
    left: Numeric = np.where(theta < 0.0, 1.0 - theta, late)[()]
    return left


def tanks_in_series_new(theta: Numeric, tanks: Numeric) -> Numeric:
    """Return the share of new fluid at the outlet of stirred tanks in a row.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the part [-].
    tanks : numeric
        Number of equal tanks, at least one; need not be whole [-].

    Returns
    -------
    numeric
        Share of new fluid in what leaves [-], of the broadcast shape.

    Range
    -----
    As ``tanks_in_series_left``.

    Raises
    ------
    OutOfRangeError
        When a number of tanks is below one.

    Source
    ------
    levenspiel-1999, tanks-in-series model.

    Examples
    --------
    >>> round(float(tanks_in_series_new(1.0, 3)), 5)
    0.57681
    """
    from scipy.special import gammainc

    _require_tanks(tanks)
    new: Numeric = gammainc(tanks, tanks * np.maximum(theta, 0.0))
    return new


def _require_tanks(tanks: Numeric) -> None:
    if np.any(tanks < 1.0):
        raise OutOfRangeError("tanks", "one or more")


MODELS = (
    Model(
        "laminar line, share left",
        laminar_left,
        (Limit("kappa", 0.0, 3e-4, "-"), Limit("Re", 0.0, 2000.0, "-")),
        ("levenspiel-1999",),
    ),
    Model(
        "laminar line, new at the outlet",
        laminar_new,
        (Limit("kappa", 0.0, 3e-4, "-"), Limit("Re", 0.0, 2000.0, "-")),
        ("levenspiel-1999",),
    ),
    Model(
        "stirred chamber, share left",
        stirred_left,
        (Limit("theta", 0.0, np.inf, "-"),),
        ("levenspiel-1999",),
    ),
    Model(
        "stirred tanks in series, share left",
        tanks_in_series_left,
        (Limit("tanks", 1.0, np.inf, "-"),),
        ("levenspiel-1999",),
    ),
    Model(
        "stirred tanks in series, new at the outlet",
        tanks_in_series_new,
        (Limit("tanks", 1.0, np.inf, "-"),),
        ("levenspiel-1999",),
    ),
)
