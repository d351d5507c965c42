# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every washout law must do, whatever its numbers."""

import importlib.util
from collections.abc import Callable
from functools import partial
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.errors import OutOfRangeError
from firmlever.physics.dispersion import flux_inlet_new, ogata_banks_new
from firmlever.physics.laminar_diffusion import laminar_diffusive_left, laminar_diffusive_new
from firmlever.physics.laminar_diffusion_table import KAPPAS
from firmlever.physics.numeric import Numeric
from firmlever.physics.washout import (
    laminar_left,
    laminar_new,
    stirred_left,
    tanks_in_series_left,
    tanks_in_series_new,
)

Law = Callable[[Numeric], Numeric]


def stirred_new(theta: Numeric) -> Numeric:
    return 1.0 - stirred_left(theta)


DIFFUSIVE: dict[str, tuple[Law, Law]] = {
    f"kappa {kappa:g}": (
        partial(laminar_diffusive_left, kappa=kappa),
        partial(laminar_diffusive_new, kappa=kappa),
    )
    for kappa in (0.0, 3e-6, 1e-4, 1.2e-4, 1e-3, 0.0365, 0.9, 10.0, 14.0, 1e4)
}
LAWS: dict[str, tuple[Law, Law]] = {
    "laminar": (laminar_left, laminar_new),
    "stirred": (stirred_left, stirred_new),
    "2.5 tanks": (
        partial(tanks_in_series_left, tanks=2.5),
        partial(tanks_in_series_new, tanks=2.5),
    ),
    **DIFFUSIVE,
}
every_law = pytest.mark.parametrize(("left", "new"), LAWS.values(), ids=list(LAWS))
kappas = st.floats(-7.0, 3.0).map(lambda power: 10.0**power)


@every_law
def test_starts_full_and_only_old_leaves_at_first(left: Law, new: Law) -> None:
    assert left(np.array(0.0)) == 1.0
    assert new(np.array(0.0)) == 0.0
    np.testing.assert_allclose(left(np.array([-3.0, -0.2])), [4.0, 1.2], rtol=1e-15)


@every_law
def test_ends_empty(left: Law, new: Law) -> None:
    assert left(np.array(1e11)) == pytest.approx(0.0, abs=1e-11)
    assert new(np.array(1e11)) == pytest.approx(1.0, abs=1e-11)


@every_law
def test_falls_and_is_convex(left: Law, new: Law) -> None:
    theta = np.linspace(0.0, 30.0, 6001)
    passed = -np.diff(left(theta))
    assert passed.min() >= -1e-15
    assert np.diff(passed).max() <= 1e-14
    assert np.min(np.diff(new(theta))) >= -1e-14


@every_law
def test_outlet_is_the_slope_of_what_is_left(left: Law, new: Law) -> None:
    theta = np.linspace(0.013, 20.0, 1999)
    step = 1e-6
    slope = np.asarray((left(theta + step) - left(theta - step)) / (2.0 * step))
    away = np.abs(theta - 1.0) > 1e-5
    np.testing.assert_allclose(1.0 + slope[away], np.asarray(new(theta))[away], atol=2e-5)


@given(kappa=kappas, parcels=st.integers(1, 400), reach=st.floats(0.01, 1e4))
def test_pushed_volume_is_old_out_plus_new_out(kappa: float, parcels: int, reach: float) -> None:
    """What differences of the law say has left, and what is left, is one volume."""
    edges = np.linspace(0.0, reach, parcels + 1)
    left = np.asarray(laminar_diffusive_left(edges, kappa))
    assert -np.diff(left).sum() + left[-1] == pytest.approx(1.0, abs=1e-12)
    old_share = -np.diff(left) / np.diff(edges)
    assert old_share.min() >= -1e-12
    assert old_share.max() <= 1.0 + 1e-9


@given(low=kappas, factor=st.floats(1.0, 10.0))
def test_more_diffusion_leaves_less_behind(low: float, factor: float) -> None:
    """At every volume: diffusion carries old fluid off the wall."""
    theta = np.linspace(0.0, 12.0, 300)
    more, less = laminar_diffusive_left(theta, low), laminar_diffusive_left(theta, low * factor)
    assert np.max(less - more) <= 2e-5


@pytest.mark.parametrize("kappa", [0.0, 1e-9, 1e-7])
def test_no_diffusion_is_the_convective_law(kappa: float) -> None:
    theta = np.linspace(0.0, 10.0, 500)
    np.testing.assert_allclose(laminar_diffusive_left(theta, kappa), laminar_left(theta), atol=1e-4)


@pytest.mark.parametrize("kappa", KAPPAS)
def test_nothing_jumps_at_a_row(kappa: float) -> None:
    theta = np.linspace(0.0, 15.0, 500)
    below, above = (laminar_diffusive_left(theta, kappa * (1.0 + e)) for e in (-1e-8, 1e-8))
    np.testing.assert_allclose(below, above, atol=1e-7)


def test_one_tank_is_the_stirred_chamber() -> None:
    theta = np.linspace(-1.0, 10.0, 200)
    np.testing.assert_allclose(tanks_in_series_left(theta, 1.0), stirred_left(theta), atol=1e-14)


@pytest.mark.parametrize("kappa", [1.0, 2.0, 5.0, 10.0])
def test_spread_is_that_of_taylor_and_aris(kappa: float) -> None:
    """Variance 1 / (24 kappa) less what the ends take, which falls as 1 / kappa squared."""
    theta = np.linspace(0.0, 6.0, 200_001)
    old = 1.0 - np.asarray(laminar_diffusive_new(theta, kappa))
    variance = 2.0 * np.trapezoid(theta * old, theta) - 1.0
    assert variance == pytest.approx(1.0 / (24.0 * kappa), rel=0.07 / kappa)


def test_fed_by_flux_fills_with_what_is_pushed() -> None:
    place_m = np.linspace(0.0, 12.0, 40_001)
    new = flux_inlet_new(place_m, 2.0, 1.0, 0.3)
    assert np.trapezoid(new, place_m) == pytest.approx(2.0, rel=1e-6)


def test_held_inlet_obeys_its_equation() -> None:
    """dc/dt + v dc/dx = D d2c/dx2 by differences, at an ordinary place."""
    front = partial(ogata_banks_new, mean_speed_m_s=1.0, dispersion_m2_s=0.1)
    h = 1e-4
    rate = (front(1.0, 1.0 + h) - front(1.0, 1.0 - h)) / (2 * h)
    slope = (front(1.0 + h, 1.0) - front(1.0 - h, 1.0)) / (2 * h)
    bend = (front(1.0 + h, 1.0) - 2 * front(1.0, 1.0) + front(1.0 - h, 1.0)) / h**2
    assert rate + slope == pytest.approx(0.1 * bend, rel=1e-5)
    assert front(0.0, 1.0) == pytest.approx(1.0, abs=1e-12)


@pytest.fixture(scope="module")
def table_maker() -> ModuleType:
    """The tool that solves the problem directly."""
    path = Path(__file__).resolve().parents[2] / "tools" / "make_laminar_table.py"
    spec = importlib.util.spec_from_file_location("make_laminar_table", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    "kappa",
    [
        pytest.param(5e-5, marks=pytest.mark.deep),
        pytest.param(1.15e-4, marks=pytest.mark.deep),
        pytest.param(1.15e-3, marks=pytest.mark.deep),
        pytest.param(0.0115, marks=pytest.mark.deep),
        pytest.param(0.0365, marks=pytest.mark.deep),
        0.115,
        0.365,
        1.155,
        8.66,
    ],
)
def test_between_rows_agrees_with_the_direct_solution(
    table_maker: ModuleType, kappa: float
) -> None:
    """Midway between rows, where reading the table is worst."""
    theta = np.concatenate((np.linspace(0.5, 1.5, 201), np.linspace(1.52, 14.0, 625)))
    old = table_maker.old_at_outlet(kappa, theta)
    left = 0.5 - np.concatenate(([0.0], np.cumsum((old[1:] + old[:-1]) / 2 * np.diff(theta))))
    np.testing.assert_allclose(laminar_diffusive_left(theta, kappa), left, atol=5e-4)
    np.testing.assert_allclose(laminar_diffusive_new(theta, kappa), 1.0 - old, atol=3e-3)


def test_a_row_is_what_the_tool_writes(table_maker: ModuleType) -> None:
    from firmlever.physics.laminar_diffusion_table import SHARES

    wanted = table_maker.cell_shares(table_maker.KAPPAS[-9])
    assert np.abs(np.array(SHARES[-9]) - wanted).max() <= 1
    np.testing.assert_allclose(KAPPAS, table_maker.KAPPAS, rtol=1e-5)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: laminar_diffusive_left(1.0, -1e-3), "kappa must be zero or above"),
        (lambda: tanks_in_series_left(1.0, 0.5), "tanks must be one or more"),
        (lambda: tanks_in_series_new(1.0, 0.0), "tanks must be one or more"),
        (lambda: ogata_banks_new(1.0, 0.0, 1.0, 0.1), "time_s must be above zero"),
    ],
)
def test_the_impossible_is_refused(call: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRangeError) as raised:
        call()
    assert str(raised.value) == words
