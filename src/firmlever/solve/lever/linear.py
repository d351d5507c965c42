# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Unknowns that enter linearly, given readings: in closed form, and kept above zero where need be.

For each draw of what bends a curve, the linear unknowns are jointly normal. Those that cannot be
below nothing are drawn one after the other from what is left of their normal spread above zero,
and the draw is weighted by how much that was.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Term:
    """A number that enters linearly: its mean and spread before any reading.

    ``positive`` cuts its normal spread at zero.
    """

    name: str
    mean: float
    spread: float
    positive: bool = True


@dataclass(frozen=True, slots=True)
class Linear:
    """The linear unknowns given each draw: normal, before the cut at zero."""

    mean: Array
    covariance: Array
    log_evidence: Array


def given(design: Array, read: Array, spread: Array, terms: tuple[Term, ...]) -> Linear:
    """Return the terms given readings; ``design`` is draws, readings, terms."""
    before = np.array([term.mean for term in terms])
    wide = np.array([term.spread for term in terms])
    scaled = design * wide / spread[:, None]
    off = read / spread - scaled @ (before / wide)
    precision = np.einsum("kjp,kjq->kpq", scaled, scaled) + np.eye(len(wide))
    covariance = np.linalg.inv(precision)
    pull = np.einsum("kjp,kj->kp", scaled, off)
    shift = np.einsum("kpq,kq->kp", covariance, pull)
    misfit = np.sum(off**2, axis=1) - np.einsum("kp,kp->k", pull, shift)
    log_evidence = -0.5 * (misfit + np.linalg.slogdet(precision)[1])
    return Linear(before + shift * wide, covariance * np.outer(wide, wide), log_evidence)


def drawn(
    linear: Linear, terms: tuple[Term, ...], each: int, seed: int
) -> tuple[dict[str, Array], Array]:
    """Draw every term so many times for each draw; the log of what was left above zero of each."""
    from scipy.special import log_ndtr, ndtri, ndtri_exp

    order = sorted(range(len(terms)), key=lambda index: not terms[index].positive)
    covariance = linear.covariance[:, order][:, :, order]
    root = np.linalg.cholesky(covariance)
    mean = linear.mean[:, order]
    u = np.random.default_rng(seed).random((len(mean), each, len(terms)))
    log_mass = np.zeros(u.shape[:2])
    normal = np.empty_like(u)
    for place, index in enumerate(order):
        if terms[index].positive:
            ahead = np.einsum("kej,kj->ke", normal[:, :, :place], root[:, place, :place])
            at, scale = mean[:, None, place] + ahead, root[:, None, place, place]
            # drawn from the upper side, where a normal number keeps its digits far out
            log_left = log_ndtr(at / scale)
            normal[:, :, place] = -ndtri_exp(log_left + np.log(u[:, :, place]))
            log_mass += log_left
        else:
            normal[:, :, place] = ndtri(u[:, :, place])
    found = mean[:, None, :] + np.einsum("kpj,kej->kep", root, normal)
    values = {terms[index].name: found[:, :, place].ravel() for place, index in enumerate(order)}
    return values, log_mass


def log_mean(logs: Array) -> Array:
    """Return the log of the mean along the last axis."""
    top = logs.max(axis=1)
    mean: Array = top + np.log(np.mean(np.exp(logs - top[:, None]), axis=1))
    return mean
