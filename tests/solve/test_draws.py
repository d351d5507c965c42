# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
import math

import numpy as np
import pytest
from scipy import stats

from firmlever.solve.bands import band, count_down, count_up
from firmlever.solve.draws import from_uniform, lattice
from firmlever.solve.narrow import first_order_shares

WIDE = (-math.inf, math.inf)


def test_each_column_visits_every_stratum_once() -> None:
    points = lattice(2048, 160, seed=3)
    assert np.all((points > 0) & (points < 1))
    for column in points.T:
        assert len(set((column * 2048).astype(int))) >= 2047


def test_no_two_columns_move_together() -> None:
    points = lattice(2048, 120, seed=5)
    assert np.abs(np.corrcoef(points.T) - np.eye(120)).max() < 0.15


def test_a_seed_repeats_and_another_differs() -> None:
    assert np.array_equal(lattice(256, 8, 1), lattice(256, 8, 1))
    assert not np.allclose(lattice(256, 8, 1), lattice(256, 8, 2))


@pytest.mark.parametrize(
    ("ends", "expected"),
    [
        ((10.0, 14.0), stats.norm(12.0, 2.0 / stats.norm.ppf(0.95))),
        ((1.0, 4.0), stats.lognorm(math.log(2.0) / stats.norm.ppf(0.95), scale=2.0)),
    ],
)
def test_ranges_are_the_5_and_95_percent_points(
    ends: tuple[float, float], expected: stats.rv_continuous
) -> None:
    """Independent: scipy.stats; log-normal above a ratio of two."""
    u = np.linspace(0.001, 0.999, 999)
    drawn = from_uniform(*ends, u, (0.0, math.inf), can_be_log=True)
    assert drawn == pytest.approx(expected.ppf(u), rel=1e-6)
    assert np.interp([0.05, 0.95], u, drawn) == pytest.approx(ends, rel=1e-6)


def test_nothing_is_drawn_beyond_the_bounds() -> None:
    """Independent: scipy.stats.truncnorm."""
    u = np.linspace(0.0005, 0.9995, 2000)
    spread = 2.5 / stats.norm.ppf(0.95)
    drawn = from_uniform(0.0, 5.0, u, (0.0, 120.0), can_be_log=True)
    expected = stats.truncnorm(-2.5 / spread, (120 - 2.5) / spread, 2.5, spread).ppf(u)
    assert drawn.min() > 0.0
    assert drawn == pytest.approx(expected, rel=1e-6, abs=1e-9)


def test_a_temperature_is_never_log_normal() -> None:
    drawn = from_uniform(8.0, 28.0, np.array([0.5]), WIDE, can_be_log=False)
    assert drawn[0] == pytest.approx(18.0)


def test_counts_round_away_from_harm() -> None:
    draws = np.array([3.2] * 100)
    assert count_up(draws).p50 == 4
    assert count_down(draws).p50 == 3
    assert count_up(np.full(9, 5.0 + 1e-9)).p50 == 5
    assert band(np.arange(101.0)).p05 == 5.0


def test_first_order_shares_meet_the_ishigami_function() -> None:
    """Published: Ishigami and Homma 1990, analytic indices 0.3139 and 0 of inputs 1 and 3.

    Input 2 moves in two full waves, finer than what is looked for.
    """
    u = lattice(2048, 4, seed=11)
    x = (2.0 * u - 1.0) * math.pi
    result = np.sin(x[:, 0]) + 7.0 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])
    shares = first_order_shares(result, list(u.T))
    assert [shares[0], *shares[2:]] == pytest.approx([0.3139, 0.0, 0.0], abs=0.01)


@pytest.mark.parametrize("seed", range(5))
def test_an_input_without_effect_is_not_asked_for(seed: int) -> None:
    """One input rules: no other column comes near the one per cent from which it is named."""
    u = lattice(2048, 96, seed)
    shares = first_order_shares(np.exp(2.0 * u[:, 7]), list(u.T))
    assert shares[7] == pytest.approx(1.0, abs=0.01)
    assert max(*shares[:7], *shares[8:]) < 0.009


def test_shares_agree_with_a_library_on_the_same_function() -> None:
    """Independent: scipy.stats.sobol_indices on a product of ranges."""
    weights = np.array([3.0, 1.0, 0.5])

    def model(points: np.ndarray) -> np.ndarray:
        return np.exp(np.tensordot(weights, points, axes=1) * 0.5)

    theirs = stats.sobol_indices(
        func=model, n=4096, dists=[stats.uniform()] * 3, rng=np.random.default_rng(1)
    )
    u = lattice(2048, 3, seed=2)
    ours = first_order_shares(model(u.T), list(u.T))
    assert ours == pytest.approx(tuple(theirs.first_order), abs=0.02)


def test_a_result_without_spread_asks_for_nothing() -> None:
    assert first_order_shares(np.ones(64), [np.linspace(0, 1, 64)]) == (0.0,)
