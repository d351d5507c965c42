# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The laminar line when fluid has time to diffuse across the bore.

Diffusion carries old fluid off the slow wall layer, so a line comes clean with
less; it also holds the first new fluid back. How far it goes is one number,
``kappa``. The answer has no closed form; it is kept as a table of ages, made by
``tools/make_laminar_table.py``, and read here.

Between two ages of the table the share of old fluid at the outlet is taken as
``a + b / theta**2`` (exactly plug flow and exactly no diffusion are of that form).
Any mixture of tabulated rows is again a falling, convex law with the right volume.
"""

import math
from collections.abc import Callable
from functools import cache
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from firmlever.physics.laminar_diffusion_table import CELLS, KAPPAS, SHARES, UNITS
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative
from firmlever.physics.washout import laminar_left, laminar_new

_Array = NDArray[np.float64]
_Kind = TypeVar("_Kind", np.float64, np.intp)


def laminar_diffusive_left(theta: Numeric, kappa: Numeric) -> Numeric:
    """Return the share of its old fluid still in a line, with diffusion across the bore.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the line [-].
    kappa : numeric
        Radial diffusion number, from `radial_diffusion_number` [-]; broadcasts.

    Returns
    -------
    numeric
        Share of the first content still inside [-], of the broadcast shape.

    Range
    -----
    ``kappa`` from 0, which is `laminar_left`, to 10; within 5e-4 of the direct
    solution at any ``theta``. Above 10 the front sharpens towards plug flow with the root of
    ``kappa``. Diffusion along the line is left out: it matters only when the speed
    times the radius is below some ten times the diffusivity.

    Raises
    ------
    OutOfRangeError
        When ``kappa`` is below zero.

    Source
    ------
    derived: direct solution, `tools/make_laminar_table.py`; its moments agree with
    Taylor (1953) and Aris (1956).

    Examples
    --------
    >>> f"{laminar_diffusive_left(2.0, 0.0):.4f}"
    '0.1250'
    >>> f"{laminar_diffusive_left(2.0, 0.01):.4f}"
    '0.0887'
    """
    return _by_blocks(_left, theta, kappa)


def laminar_diffusive_new(theta: Numeric, kappa: Numeric) -> Numeric:
    """Return the share of new fluid at the end of a line, with diffusion across the bore.

    It is one plus the slope of `laminar_diffusive_left`, exactly.

    Parameters
    ----------
    theta : numeric
        Pushed volume over volume of the line [-].
    kappa : numeric
        Radial diffusion number, from `radial_diffusion_number` [-]; broadcasts.

    Returns
    -------
    numeric
        Share of new fluid in what leaves [-], of the broadcast shape.

    Range
    -----
    As `laminar_diffusive_left`; within 3e-3 of the direct solution.

    Raises
    ------
    OutOfRangeError
        When ``kappa`` is below zero.

    Source
    ------
    derived: direct solution, `tools/make_laminar_table.py`.

    Examples
    --------
    >>> f"{laminar_diffusive_new(1.0, 0.1):.3f}"
    '0.607'
    """
    return _by_blocks(_new, theta, kappa)


_ROW = CELLS + 1
_ONSET = 0.5
_BEFORE_ONSET = _ONSET * CELLS / (CELLS + 1.0)
_ENDLESS = 1e12
_BLOCK = 16384


class _Laws(NamedTuple):
    """Coefficients of ``left = c - a theta + b v`` in each cell of each row, flat.

    ``v = 1 / (2 theta)`` is the speed of the ring arriving at ``theta`` over that of
    the axis. Cells are equal steps of ``v`` from one down to zero; before them in each
    row stands the cell of ``theta`` below one half, where nothing new has arrived.
    """

    c: _Array
    a: _Array
    b: _Array


def _by_blocks(
    law: Callable[[_Array, NDArray[np.intp], _Array, _Array], _Array],
    theta: Numeric,
    kappa: Numeric,
) -> Numeric:
    """Apply a law piece by piece along the first axis, so that it works in the cache."""
    require_not_negative(kappa=kappa)
    theta = np.minimum(theta, _ENDLESS)
    row, share, wall = _row_and_share(kappa)
    shape = np.broadcast_shapes(np.shape(theta), np.shape(kappa))
    if not shape:
        return law(theta, row, share, wall)[()]
    theta, row = _aligned(theta, shape), _aligned(row, shape)
    share, wall = _aligned(share, shape), _aligned(wall, shape)
    result = np.empty(shape)
    step = max(1, _BLOCK // max(1, math.prod(shape[1:])))
    for start in range(0, shape[0], step):
        block = slice(start, start + step)
        result[block] = law(theta[block], row[block], share[block], wall[block])
    return result


def _aligned(values: NDArray[_Kind], shape: tuple[int, ...]) -> NDArray[_Kind]:
    """Give an array all dimensions and the full first one, repeating nothing in memory."""
    filled = np.reshape(values, (1,) * (len(shape) - np.ndim(values)) + np.shape(values))
    return np.broadcast_to(filled, shape[:1] + filled.shape[1:])


def _left(theta: _Array, row: NDArray[np.intp], share: _Array, wall: _Array) -> _Array:
    scaled = wall * theta
    speed, cell = _speed_and_cell(scaled, row)
    here, onward = _laws()
    left = _read(here.c, cell) - _read(here.a, cell) * scaled + _read(here.b, cell) * speed
    change = _read(onward.c, cell) - _read(onward.a, cell) * scaled + _read(onward.b, cell) * speed
    return _unless_early(wall * (left + share * change), laminar_left, theta, scaled, wall)


def _new(theta: _Array, row: NDArray[np.intp], share: _Array, wall: _Array) -> _Array:
    scaled = wall * theta
    speed, cell = _speed_and_cell(scaled, row)
    here, onward = _laws()
    steep = 2.0 * speed**2
    old = _read(here.a, cell) + _read(here.b, cell) * steep
    change = _read(onward.a, cell) + _read(onward.b, cell) * steep
    new = np.where(np.isnan(theta), theta, 1.0 - wall**2 * (old + share * change))
    return _unless_early(new, laminar_new, theta, scaled, wall)


def _read(column: _Array, cell: NDArray[np.intp]) -> _Array:
    # every cell exists by construction; "clip" leaves out the costly check for that
    return column.take(cell, mode="clip")


def _unless_early(
    late: _Array,
    convective: Callable[[Numeric], Numeric],
    theta: _Array,
    scaled: _Array,
    wall: _Array,
) -> _Array:
    """Below the first row, put the convective law where the wall layer is not yet met."""
    early = (wall < 1.0) & (scaled < _ONSET)
    return np.where(early, convective(theta), late) if np.any(early) else late


def _speed_and_cell(theta: _Array, row: NDArray[np.intp]) -> tuple[_Array, NDArray[np.intp]]:
    speed = 0.5 / np.fmax(theta, _BEFORE_ONSET)
    return speed, row * _ROW + ((1.0 + CELLS) - CELLS * speed).astype(np.intp)


def _row_and_share(kappa: Numeric) -> tuple[NDArray[np.intp], _Array, _Array]:
    """The row at or below ``kappa``, how far towards the next one, and the wall's scale.

    Below the first row only the layer at the wall feels diffusion. There the profile is
    straight, so ages stretch with the cube root of ``kappa`` and nothing else changes:
    the first row serves for all, with ``theta`` times that scale.
    """
    first, last = KAPPAS[0], KAPPAS[-1]
    ladder = len(KAPPAS) - 1.0
    steps = ladder * np.log(np.fmin(np.fmax(kappa, first), last) / first) / np.log(last / first)
    whole = np.minimum(np.floor(steps), ladder)
    to_plug = 1.0 - np.sqrt(last / np.maximum(kappa, last))
    share = np.where(kappa > last, to_plug, steps - whole)
    wall = np.cbrt(np.minimum(kappa / first, 1.0))
    return whole.astype(np.intp), np.where(np.isnan(kappa), np.nan, share), wall


@cache
def _laws() -> tuple[_Laws, _Laws]:
    """The rows of the table, and the step from each to the next.

    The step after the last row leads to plug flow.
    """
    speed = 1.0 - np.arange(CELLS + 1) / CELLS
    slow_part = speed[:-1] ** 2 - speed[1:] ** 2
    shares = _with_mean_one(np.array(SHARES) / UNITS, speed)
    still_to_come = np.cumsum(shares[:, ::-1], axis=1)[:, ::-1]
    b = 0.5 * shares / slow_part
    a = np.hstack((still_to_come[:, 1:], np.zeros((len(shares), 1)))) - 2.0 * b * speed[1:] ** 2
    node = speed[1:-1]
    kink = (a[:, :-1] - a[:, 1:]) * 0.5 / node - (b[:, :-1] - b[:, 1:]) * node
    c = np.hstack((np.cumsum(kink[:, ::-1], axis=1)[:, ::-1], np.zeros((len(shares), 1))))
    plug = (speed[:-1] > 0.5).astype(float)
    rows = (_rows(1.0, c, plug), _rows(1.0, a, plug), _rows(0.0, b, 0.0 * plug))
    here = _Laws(*(row[:-1].ravel() for row in rows))
    return here, _Laws(*(np.diff(row, axis=0).ravel() for row in rows))


def _rows(before_onset: float, tabulated: _Array, last: _Array) -> _Array:
    cells = np.vstack((tabulated, last))
    return np.hstack((np.full((len(cells), 1), before_onset), cells))


def _with_mean_one(shares: _Array, speed: _Array) -> _Array:
    """Take the table's rounding out of the mean age, by a tilt far below its accuracy.

    A line holds exactly its volume, so its mean age is exactly one.
    """
    age = 1.0 / (speed[:-1] + speed[1:])
    mean = shares @ age
    variance = shares @ age**2 - mean**2
    tilt = (1.0 - mean) / variance
    tilted: _Array = shares * (1.0 + tilt[:, None] * (age - mean[:, None]))
    return tilted


_LIMITS = (Limit("kappa", 0.0, 10.0, "-"), Limit("Re", 0.0, 2000.0, "-"))

MODELS = (
    Model("laminar line with diffusion, left", laminar_diffusive_left, _LIMITS, ("derived",)),
    Model("laminar line with diffusion, outlet", laminar_diffusive_new, _LIMITS, ("derived",)),
)
