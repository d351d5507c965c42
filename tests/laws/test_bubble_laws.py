# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What must hold of every bubble, whatever its fluid."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from firmlever.physics.dissolving import dissolving_time_s
from firmlever.physics.long_bubbles import carried_speed_m_s, creeping_climb_m_s, hold_bore_m
from firmlever.physics.rising_bubbles import (
    climb_m_s,
    level_drift_m_s,
    slanted_climb_m_s,
    sweep_down_m_s,
)

DENSITIES = st.floats(830.0, 1150.0)
TENSIONS = st.floats(0.018, 0.05)
VISCOSITIES = st.floats(0.003, 0.3)
SHARES = st.floats(0.0, 1.0)
BORES_M = np.linspace(0.0005, 0.014, 400)
BRAKE = (1050.0, 0.018, 0.033)
OVERNIGHT_S = 12 * 3600.0


@given(DENSITIES, VISCOSITIES, TENSIONS, SHARES)
def test_more_bore_never_makes_a_bubble_hold_better(
    density: float, viscosity: float, tension: float, between: float
) -> None:
    speeds = np.asarray(climb_m_s(BORES_M, density, viscosity, tension, between))
    assert np.all(np.diff(speeds) >= -1e-12)
    assert np.all(np.diff(level_drift_m_s(BORES_M, density, tension)) >= -1e-12)


@given(DENSITIES, VISCOSITIES, TENSIONS, SHARES)
def test_the_limit_is_where_the_climb_begins(
    density: float, viscosity: float, tension: float, between: float
) -> None:
    limit = hold_bore_m(density, tension)
    assert climb_m_s(0.999 * limit, density, viscosity, tension, between) == 0.0
    assert climb_m_s(1.05 * limit, density, viscosity, tension, between) > 0.0


@given(DENSITIES, VISCOSITIES, TENSIONS)
def test_a_climb_sets_in_without_a_jump(density: float, viscosity: float, tension: float) -> None:
    fine = np.linspace(0.9, 2.5, 4000) * hold_bore_m(density, tension)
    speeds = np.asarray(climb_m_s(fine, density, viscosity, tension))
    assert np.max(np.diff(speeds)) < 0.01 * np.max(speeds)


@given(st.floats(1e-4, 2.0), VISCOSITIES, TENSIONS)
def test_a_carried_bubble_outruns_its_fluid_by_its_film(
    flow: float, viscosity: float, tension: float
) -> None:
    speed = float(np.asarray(carried_speed_m_s(flow, viscosity, tension)))
    # the film is thinner than two fifths of the radius, however fast
    assert flow < speed < flow / 0.6**2


@given(SHARES, st.floats(0.0, 0.2))
def test_a_level_passage_that_holds_makes_a_slope_slower_than_upright(
    rise: float, climb: float
) -> None:
    assert slanted_climb_m_s(climb, 0.0, rise) <= climb


def test_more_tension_holds_a_wider_bore() -> None:
    """Silicone lets go first."""
    tensions = np.array([0.0208, 0.0276, 0.033, 0.0456])
    assert np.all(np.diff(hold_bore_m(1000.0, tensions)) > 0.0)


def test_a_usual_hose_holds_its_bubble() -> None:
    """Common practice, no source: air stays in a 3.2 mm hose until the fluid takes it along."""
    assert creeping_climb_m_s(0.0032, *BRAKE) == 0.0


def test_a_fast_stroke_clears_a_banjo_where_gravity_cannot() -> None:
    """Common practice, no source; 1.8 ml in 0.3 s, and 0.2 ml/s by gravity, in 8 mm."""
    area = np.pi / 4 * 0.008**2
    needed = sweep_down_m_s(climb_m_s(0.008, *BRAKE))
    assert 1.8e-6 / 0.3 / area > needed
    assert 0.2e-6 / area < needed


def test_a_lever_held_overnight_takes_up_bubbles_but_no_pocket() -> None:
    """Common practice, no source; at 0.5 MPa, with the middle of what is known of the gas."""
    times = (0.5e6 + 101325.0) / 101325.0
    for radius, is_gone in ((0.25e-3, True), (0.5e-3, True), (4.9e-3, False)):
        held = radius / times ** (1 / 3)
        seconds = dissolving_time_s(held, 3e-10, 0.05, 1.0 / times)
        assert (seconds < OVERNIGHT_S) is is_gone
