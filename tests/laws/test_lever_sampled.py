# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The posterior of a lever test against a long run of another tool (independent: emcee).

The travel is written out here once more, and nothing is worked out in closed form: emcee walks
through every unknown. ``--deep`` compares 20 brakes, a usual run two.
"""

import time
from collections.abc import Callable

import emcee
import numpy as np
import pytest
from numpy.typing import NDArray

from counts import either
from firmlever.domain.lever import SetKind
from firmlever.solve.lever.curve import Observed, observed, terms
from firmlever.solve.lever.posterior import posterior
from laws.lever_bench import AMBIENT_PA, draw_brake, runs, skerry_front

Array = NDArray[np.float64]
CASES = either(2, 20)
WALKERS, STEPS, BURN_IN = 64, 8_000, 3_000
KINDS = ((SetKind.FIRST,), (SetKind.FIRST, SetKind.PUMPED), (SetKind.WEDGED,) * 3)
COMPARED = ("air", "clearance")


def log_posterior(seen: Observed) -> tuple[tuple[str, ...], Callable[[Array], Array]]:
    """The names of all unknowns, and the log of their density for rows of scaled values."""
    prior = skerry_front()
    unknowns = terms(prior, seen)
    names = (*(one.name for one in prior.shapes), *(one.name for one in unknowns))
    mean = np.array([one.mean for one in unknowns])
    spread = np.array([one.spread for one in unknowns])
    positive = np.array([one.positive for one in unknowns])
    pumped = np.array([float(seen.sets[index].kind is SetKind.PUMPED) for index in seen.set_of])
    first = np.array([float(seen.sets[index].kind is SetKind.FIRST) for index in seen.set_of])
    count = len(prior.shapes)

    def density(rows: Array) -> Array:
        bends = {one.name: one.value(rows[:, i])[:, None] for i, one in enumerate(prior.shapes)}
        linear = mean + spread * rows[:, count:]
        value = {one.name: linear[:, i, None] for i, one in enumerate(unknowns)}
        bar = bends["efficiency"] * bends["gain"] * (seen.force_n - bends["before_n"])
        bar = np.maximum(bar, 1.0)
        closing = 1.0 - np.exp(-bar / bends["take_up_pa"])
        squeezed = (AMBIENT_PA / (AMBIENT_PA + bar)) ** (1.0 / bends["polytropic"])
        left = value["clearance"] * first + value.get("left when pumped", 0.0) * pumped
        volume = (
            left * closing
            + value["air"] * (1.0 - squeezed)
            + value["hoses"] * (bar / 6.894757e6) ** 0.65
            + value["pads"] * (bar / 5e6) ** 0.6
            + value["fluid"] * bar
        )
        for name, packed in value.items():
            if name.startswith("packed "):
                volume = volume - packed * (seen.set_of == int(name.split()[1]))
        stuck = sum(
            held * seen.slope_m_n * (seen.set_of == int(name.split()[1]))
            for name, held in value.items()
            if name.startswith("stiction ")
        )
        travel = value["rest"] + bends["gain"] * volume + value["flex"] * seen.force_n + stuck
        misfit = ((seen.travel_m - travel) / seen.spread_m) ** 2
        log = -0.5 * (misfit.sum(axis=1) + (rows**2).sum(axis=1))
        below = ((linear < 0.0) & positive).any(axis=1)
        return np.where(below, -np.inf, log)

    return names, density


def sampled(seen: Observed, seed: int) -> tuple[dict[str, Array], float]:
    """Long chains of every unknown, in prior spreads or standard normals, and their time."""
    names, density = log_posterior(seen)
    rng = np.random.default_rng(seed)
    start = 0.1 * rng.standard_normal((WALKERS, len(names)))
    start[:, names.index("air")] = rng.uniform(0.1, 0.9, WALKERS)
    # no snooker step: that of emcee 3.1.6 draws even a plain normal cloud of 16 numbers 8 %
    # too narrow; a stretch now and then frees a walker that started too far off
    moves = [(emcee.moves.DEMove(), 0.8), (emcee.moves.StretchMove(), 0.2)]
    began = time.process_time()
    walk = emcee.EnsembleSampler(WALKERS, len(names), density, moves=moves, vectorize=True)
    walk.random_state = np.random.RandomState(seed).get_state()
    walk.run_mcmc(start, STEPS)
    spent = time.process_time() - began
    chain = walk.get_chain(discard=BURN_IN, flat=True)
    return {name: chain[:, index] for index, name in enumerate(names)}, spent


@pytest.mark.parametrize("case", range(CASES))
def test_the_posterior_is_that_of_a_long_random_walk(case: int) -> None:
    rng = np.random.default_rng(100 + case)
    brake = draw_brake(skerry_front(), rng)
    seen = observed(runs(brake, KINDS[(case + 1) % 3], rng), 1e-3)
    walked, slow_s = sampled(seen, case)
    began = time.process_time()
    known = posterior(skerry_front(), seen)
    fast_s = time.process_time() - began
    scale = {one.name: (one.mean, one.spread) for one in terms(skerry_front(), seen)}
    for name in COMPARED:
        mean, spread = scale[name]
        other = mean + spread * walked[name]
        ours = known.values[name]
        sd = float(np.std(other))
        assert abs(known.mean(ours) - float(np.mean(other))) < 0.1 * sd, name
        band = known.band(ours)
        low, high = np.quantile(other, (0.05, 0.95))
        assert band.p95 - band.p05 == pytest.approx(high - low, rel=0.15), name
    assert slow_s > 50.0 * fast_s
