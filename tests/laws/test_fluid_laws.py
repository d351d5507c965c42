# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What must hold of viscosity and density whatever the fluid."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.errors import OutOfRangeError
from firmlever.physics.fluid import (
    REFERENCE_T_K,
    density_kg_m3,
    dynamic_viscosity_pa_s,
    expansion_volume_m3,
    kinematic_viscosity_m2_s,
    walther_coefficients,
)

COLD_T_K, HOT_T_K = 233.15, 373.15
cold_viscosities = st.floats(200e-6, 1800e-6)
hot_viscosities = st.floats(1.5e-6, 17e-6)
temperatures = st.floats(233.15, 423.15)
expansions = st.floats(0.5e-3, 1.1e-3)


def assert_close(actual: object, wanted: object, rtol: float, atol: float = 0.0) -> None:
    np.testing.assert_allclose(
        np.asarray(actual, dtype=float), np.asarray(wanted, dtype=float), rtol=rtol, atol=atol
    )


@given(cold_viscosities, hot_viscosities)
def test_both_points_come_back(cold: float, hot: float) -> None:
    line = walther_coefficients(COLD_T_K, cold, HOT_T_K, hot)
    back = kinematic_viscosity_m2_s(np.array([COLD_T_K, HOT_T_K]), *line)
    assert_close(back, [cold, hot], rtol=1e-11)


@given(cold_viscosities, hot_viscosities)
def test_warmer_is_thinner(cold: float, hot: float) -> None:
    line = walther_coefficients(COLD_T_K, cold, HOT_T_K, hot)
    viscosity = kinematic_viscosity_m2_s(np.linspace(233.15, 423.15, 50), *line)
    assert np.all(np.diff(viscosity) < 0)


@given(cold_viscosities, hot_viscosities, temperatures, temperatures)
def test_any_two_points_of_a_line_give_the_line(
    cold: float, hot: float, one_t_k: float, other_t_k: float
) -> None:
    low_t_k, high_t_k = sorted((one_t_k, other_t_k))
    if high_t_k - low_t_k < 5:
        return
    line = walther_coefficients(COLD_T_K, cold, HOT_T_K, hot)
    again = walther_coefficients(
        low_t_k,
        kinematic_viscosity_m2_s(low_t_k, *line),
        high_t_k,
        kinematic_viscosity_m2_s(high_t_k, *line),
    )
    assert_close(again, line, rtol=1e-9)


@given(st.floats(700.0, 1200.0), expansions, temperatures, st.floats(1e-7, 1e-3))
def test_warming_conserves_mass(
    density_20_kg_m3: float, expansion_1_k: float, t_k: float, volume_m3: float
) -> None:
    added_m3 = expansion_volume_m3(volume_m3, t_k - REFERENCE_T_K, expansion_1_k)
    warm_kg_m3 = density_kg_m3(t_k, density_20_kg_m3, expansion_1_k)
    assert_close(warm_kg_m3 * (volume_m3 + added_m3), density_20_kg_m3 * volume_m3, rtol=1e-12)


@given(st.floats(700.0, 1200.0), expansions)
def test_slope_of_density_at_20_degc_is_the_coefficient(density: float, expansion: float) -> None:
    step_k = 1e-3
    above = density_kg_m3(REFERENCE_T_K + step_k, density, expansion)
    below = density_kg_m3(REFERENCE_T_K - step_k, density, expansion)
    assert_close(-(above - below) / (2 * step_k) / density, expansion, rtol=1e-6)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: walther_coefficients(0.0, 1e-3, HOT_T_K, 2e-6),
            "cold_t_k must be above zero",
        ),
        (
            lambda: walther_coefficients(HOT_T_K, 1e-3, COLD_T_K, 2e-6),
            "hot_less_cold_t_k must be above zero",
        ),
        (
            lambda: walther_coefficients(COLD_T_K, 1e-3, HOT_T_K, 0.3e-6),
            "hot_viscosity_over_0_3_mm2_s must be above zero",
        ),
        (lambda: kinematic_viscosity_m2_s(-1.0, 9.6, 3.8), "t_k must be above zero"),
        (
            lambda: dynamic_viscosity_pa_s(0.0, 1050.0),
            "kinematic_viscosity_m2_s must be above zero",
        ),
        (
            lambda: density_kg_m3(np.array([293.0, 300.0]), 1050.0, np.array([1e-3, -1e-3])),
            "expansion_1_k must be zero or above",
        ),
        (lambda: expansion_volume_m3(-1e-6, 1.0, 1e-3), "volume_m3 must be zero or above"),
    ],
)
def test_impossible_values_are_refused(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == message
