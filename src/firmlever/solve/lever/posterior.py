# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the readings leave possible, as weighted draws of every unknown.

What bends the curve is drawn near where the readings put it (importance draws in rounds);
what enters linearly follows in closed form for each draw.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.quantity import Band
from firmlever.solve.draws import lattice
from firmlever.solve.lever.curve import Observed, columns, terms
from firmlever.solve.lever.linear import drawn, given, log_mean
from firmlever.solve.lever.prior import LeverPrior

Array = NDArray[np.float64]

_WIDER = 1.15
_FLOOR = 0.1
_LEAST_EVEN = 60.0
_SEED = 11
_QUANTILES = (0.05, 0.5, 0.95)


@dataclass(frozen=True, slots=True)
class Effort:
    """Draws in each round, and how often the linear unknowns are drawn for each of them."""

    rounds: tuple[int, ...]
    each: int


FULL = Effort((256, 512, 512, 1024), 16)
ROUGH = Effort((256, 256, 512), 8)
"""Enough for how wide a band would be, not for where it lies."""


@dataclass(frozen=True, slots=True)
class Posterior:
    """Weighted draws: shapes and linear unknowns by name; the weights sum to one."""

    values: Mapping[str, Array]
    weights: Array

    def band(self, draws: Array) -> Band:
        """Return the 5, 50 and 95 % points of something worked out from the draws."""
        order = np.argsort(draws)
        reached = np.cumsum(self.weights[order]) - self.weights[order] / 2.0
        low, middle, high = np.interp(_QUANTILES, reached, draws[order])
        return Band(float(low), float(middle), float(high))

    def mean(self, draws: Array) -> float:
        """Return the mean."""
        return float(self.weights @ draws)

    def together(self, one: Array, other: Array) -> float:
        """Return the correlation of two numbers."""
        a, b = one - self.mean(one), other - self.mean(other)
        return self.mean(a * b) / float(np.sqrt(self.mean(a**2) * self.mean(b**2)))

    @property
    def even(self) -> float:
        """How many equally weighted draws this is worth."""
        return 1.0 / float(np.sum(self.weights**2))


def posterior(prior: LeverPrior, seen: Observed, effort: Effort = FULL) -> Posterior:
    """Return what the readings leave possible."""
    unknowns = terms(prior, seen)
    names = [term.name for term in unknowns]
    count = len(prior.shapes)
    middle, spread = np.zeros(count), np.eye(count)
    for number, draws in enumerate(effort.rounds):
        z, log_weight = _imagined(middle, spread, draws, number)
        design = columns(prior, _shapes(prior, z), seen, names)
        linear = given(design, seen.travel_m, seen.spread_m, unknowns)
        values, log_mass = drawn(linear, unknowns, effort.each, _SEED + number)
        log_weight = log_weight + linear.log_evidence + log_mean(log_mass)
        if number + 1 < len(effort.rounds):
            middle, spread = _moments(z, log_weight)
    each = (log_weight - log_mean(log_mass))[:, None] + log_mass
    weights = np.exp(each - each.max()).ravel()
    shapes = _shapes(prior, np.repeat(z, effort.each, axis=0))
    return Posterior({**shapes, **values}, weights / weights.sum())


def _imagined(middle: Array, spread: Array, count: int, number: int) -> tuple[Array, Array]:
    """Draw around a place; the log of what the prior says over what was drawn from."""
    from scipy.special import ndtri

    normal = ndtri(lattice(count, len(middle), _SEED + number))
    root = np.linalg.cholesky(spread)
    z = middle + normal @ root.T
    log_drawn = -0.5 * np.sum(normal**2, axis=1) - np.sum(np.log(np.diag(root)))
    return z, -0.5 * np.sum(z**2, axis=1) - log_drawn


def _shapes(prior: LeverPrior, z: Array) -> dict[str, Array]:
    return {shape.name: shape.value(z[:, index]) for index, shape in enumerate(prior.shapes)}


def _moments(z: Array, log_weight: Array) -> tuple[Array, Array]:
    """Return middle and spread of the draws, softened while too few of them count."""
    heat = 1.0
    weights = _weights(log_weight)
    while 1.0 / np.sum(weights**2) < _LEAST_EVEN:
        heat *= 0.7
        weights = _weights(heat * log_weight)
    middle = weights @ z
    off = z - middle
    spread = np.einsum("k,ki,kj->ij", weights, off, off)
    return middle, _WIDER**2 * spread + _FLOOR**2 * np.eye(len(middle))


def _weights(logs: Array) -> Array:
    weights = np.exp(logs - logs.max())
    scaled: Array = weights / weights.sum()
    return scaled
