# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What must hold of flow through any passages, forks and drives."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.errors import OutOfRangeError
from firmlever.physics.branches import branched_flows_m3_s, linear_parallel, parallel_drop_pa
from firmlever.physics.drive import (
    atmosphere_pa,
    gravity_drive_pa,
    pressure_drive_pa,
    reverse_drive_pa,
    vacuum_drive_pa,
)
from firmlever.physics.flow import (
    SHORT_DRILLING_LOSS,
    Loss,
    drop_pa,
    flow_m3_s,
    flow_past_lip_m3_s,
    in_series,
    laminar_resistance_pa_s_m3,
    passage_loss,
    reynolds_number,
    square_loss_pa_s2_m6,
)
from firmlever.physics.orifice import discharge_drop_pa, orifice_flow_m3_s, short_tube_discharge

RHO = 1050.0
viscosities = st.floats(1e-3, 0.5)
bores = st.floats(0.3e-3, 8e-3)
lengths = st.floats(1e-3, 4.0)
drives = st.floats(1.0, 1e6)
losses = st.builds(Loss, st.floats(1e8, 1e12), st.floats(0.0, 1e17))


def assert_close(actual: object, wanted: object, rtol: float, atol: float = 0.0) -> None:
    np.testing.assert_allclose(
        np.asarray(actual, dtype=float), np.asarray(wanted, dtype=float), rtol=rtol, atol=atol
    )


@given(viscosities, bores, lengths, drives, st.floats(1.01, 3.0))
def test_flow_grows_with_bore_and_drive_and_falls_with_length_and_viscosity(
    viscosity: float, bore: float, length: float, drive: float, more: float
) -> None:
    flow = flow_m3_s(drive, passage_loss(viscosity, RHO, length, bore))
    assert flow_m3_s(drive * more, passage_loss(viscosity, RHO, length, bore)) > flow
    assert flow_m3_s(drive, passage_loss(viscosity, RHO, length, bore * more)) > flow
    assert flow_m3_s(drive, passage_loss(viscosity, RHO, length * more, bore)) < flow
    assert flow_m3_s(drive, passage_loss(viscosity * more, RHO, length, bore)) < flow


@given(viscosities, bores, lengths, st.floats(0.1, 0.9))
def test_a_joint_in_a_bore_changes_nothing(
    viscosity: float, bore: float, length: float, share: float
) -> None:
    whole = laminar_resistance_pa_s_m3(viscosity, length, bore)
    halves = [
        laminar_resistance_pa_s_m3(viscosity, length * part, bore) for part in (share, 1 - share)
    ]
    assert_close(sum(halves), whole, rtol=1e-12)


@given(st.floats(-1e6, 1e6), losses)
def test_flow_is_the_inverse_of_drop(drive: float, loss: Loss) -> None:
    assert_close(drop_pa(flow_m3_s(drive, loss), loss), drive, rtol=1e-12, atol=1e-12)


@given(drives, losses)
def test_the_other_way_is_the_same_with_the_other_sign(drive: float, loss: Loss) -> None:
    assert flow_m3_s(-drive, loss) == -flow_m3_s(drive, loss)


@given(drives, losses)
def test_slope_of_the_flow_is_that_of_its_finite_difference(drive: float, loss: Loss) -> None:
    step = 1e-4 * drive
    ends = np.asarray(flow_m3_s(np.array([drive - step, drive + step]), loss))
    slope = (ends[1] - ends[0]) / (2 * step)
    through = flow_m3_s(drive, loss)
    assert_close(slope, 1 / (loss.linear_pa_s_m3 + 2 * loss.square_pa_s2_m6 * through), rtol=1e-6)


@pytest.mark.parametrize("square", [0.0, 1e-300, 1e-30, 1.0])
def test_flow_stays_exact_as_the_square_loss_vanishes(square: float) -> None:
    assert_close(flow_m3_s(1e4, Loss(1e10, square)), 1e-6, rtol=1e-15)


@given(st.lists(losses, min_size=1, max_size=5), st.floats(0.0, 1e-4))
def test_drops_in_series_add_up(parts: list[Loss], flow: float) -> None:
    total = drop_pa(flow, in_series(*parts))
    assert_close(total, sum(drop_pa(flow, part) for part in parts), rtol=1e-12)


@given(viscosities, bores, lengths, drives, st.floats(0.1, 10.0))
def test_a_scale_model_at_equal_reynolds_number_keeps_its_shape(
    viscosity: float, bore: float, length: float, drive: float, scale: float
) -> None:
    """All lengths times s, pressures over s squared: speeds over s, so flow times s."""
    small = flow_m3_s(drive, passage_loss(viscosity, RHO, length, bore))
    large = flow_m3_s(drive / scale**2, passage_loss(viscosity, RHO, length * scale, bore * scale))
    assert_close(large, small * scale, rtol=1e-10)
    assert_close(
        reynolds_number(large, bore * scale, viscosity / RHO),
        reynolds_number(small, bore, viscosity / RHO),
        rtol=1e-10,
    )


# Port and lip


@given(st.floats(-1e6, 1e6), losses, losses, st.floats(0.0, 1e5))
def test_lip_lies_between_port_alone_and_no_port(
    drive: float, path: Loss, port: Loss, lip: float
) -> None:
    flow = flow_past_lip_m3_s(drive, path, port, lip)
    port_only = flow_m3_s(drive, in_series(path, port))
    assert flow >= port_only
    assert flow <= max(flow_m3_s(drive, path), port_only)
    assert flow_past_lip_m3_s(drive, path, port, np.inf) == port_only


@given(drives, losses, losses)
def test_a_lip_without_strength_takes_the_port_out(drive: float, path: Loss, port: Loss) -> None:
    assert flow_past_lip_m3_s(drive, path, port, 0.0) == flow_m3_s(drive, path)


@given(drives, losses, losses, st.floats(1e3, 1e5))
def test_drop_over_the_master_is_the_lesser_of_port_and_lip(
    drive: float, path: Loss, port: Loss, lip: float
) -> None:
    flow = flow_past_lip_m3_s(drive, path, port, lip)
    over_master = drive - drop_pa(flow, path)
    assert_close(over_master, np.minimum(drop_pa(flow, port), lip), rtol=1e-9, atol=1e-9 * drive)


@given(drives, losses, losses, st.floats(0.0, 1e5))
def test_the_lip_never_opens_backwards(drive: float, path: Loss, port: Loss, lip: float) -> None:
    assert flow_past_lip_m3_s(-drive, path, port, lip) == flow_m3_s(-drive, in_series(path, port))


# Forks


@given(st.lists(losses, min_size=1, max_size=4), st.floats(1e-9, 1e-4))
def test_flows_behind_a_fork_add_up(branches: list[Loss], total: float) -> None:
    fork_pa = parallel_drop_pa(total, *branches)
    through = sum(flow_m3_s(fork_pa, branch) for branch in branches)
    assert_close(through, total, rtol=1e-10)


@given(st.lists(st.floats(1e8, 1e12), min_size=1, max_size=4), st.floats(1e-9, 1e-4))
def test_laminar_branches_need_no_search(resistances: list[float], total: float) -> None:
    assert_close(
        parallel_drop_pa(total, *(Loss(resistance, 0.0) for resistance in resistances)),
        total * linear_parallel(*resistances),
        rtol=1e-11,
    )


@given(losses, losses, drives, st.integers(1, 4))
def test_equal_branches_share_equally(trunk: Loss, branch: Loss, drive: float, count: int) -> None:
    flows = branched_flows_m3_s(drive, trunk, *[branch] * count)
    whole = Loss(
        trunk.linear_pa_s_m3 + branch.linear_pa_s_m3 / count,
        trunk.square_pa_s2_m6 + branch.square_pa_s2_m6 / count**2,
    )
    assert_close(flows, flow_m3_s(drive, whole) / count, rtol=1e-10)


@given(losses, losses, losses, drives)
def test_fork_in_any_order(trunk: Loss, one: Loss, other: Loss, drive: float) -> None:
    ahead = branched_flows_m3_s(drive, trunk, one, other)
    turned = branched_flows_m3_s(drive, trunk, other, one)
    assert_close(ahead, turned[::-1], rtol=1e-12)


@given(losses, losses, losses, drives)
def test_a_fork_closes_its_own_balance(trunk: Loss, one: Loss, other: Loss, drive: float) -> None:
    flows = branched_flows_m3_s(drive, trunk, one, other)
    spent = drop_pa(flows[0] + flows[1], trunk)
    assert_close(
        [spent + drop_pa(flows[0], one), spent + drop_pa(flows[1], other)], drive, rtol=1e-9
    )


@given(losses, losses, drives)
def test_a_second_branch_never_lowers_the_whole_flow(
    trunk: Loss, branch: Loss, drive: float
) -> None:
    alone = flow_m3_s(drive, in_series(trunk, branch))
    assert sum(branched_flows_m3_s(drive, trunk, branch, branch)) >= alone


def test_draws_of_any_size_find_their_own_root() -> None:
    """Ten thousand forks at once, six decades apart."""
    rng = np.random.default_rng(7)
    trunk, one, other = (
        Loss(10 ** rng.uniform(8, 12, 10_000), 10 ** rng.uniform(11, 17, 10_000)) for _ in range(3)
    )
    drive = 10 ** rng.uniform(0, 6, 10_000)
    flows = branched_flows_m3_s(drive, trunk, one, other)
    spent = drop_pa(flows[0] + flows[1], trunk)
    assert_close(spent + drop_pa(flows[0], one), drive, rtol=1e-10)
    assert_close(spent + drop_pa(flows[1], other), drive, rtol=1e-10)


def test_a_search_that_does_not_arrive_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("firmlever.physics.branches._STEPS", 2)
    with pytest.raises(OutOfRangeError) as refused:
        parallel_drop_pa(1e-6, Loss(1e9, 1e17), Loss(1e10, 1e15))
    assert str(refused.value) == "fork_pa must be found within 2 steps"


def test_no_flow_needs_no_pressure() -> None:
    branch = Loss(1e9, 1e15)
    assert parallel_drop_pa(0.0, branch, branch) == 0.0
    assert branched_flows_m3_s(0.0, branch, branch, branch) == (0.0, 0.0)


# Orifices


@pytest.mark.parametrize("reynolds", [10.0, 30.0, 100.0, 300.0, 1000.0])
def test_short_drilling_law_agrees_with_its_pair(reynolds: float) -> None:
    """1.5 x 8 mm: within 5 % with 2.28 velocity heads, as `passage_loss` says of itself."""
    viscosity, bore, length = 0.018, 1.5e-3, 8e-3
    flow = reynolds * np.pi / 4 * bore * viscosity / RHO
    measured = discharge_drop_pa(flow, bore, RHO, short_tube_discharge(length, bore, reynolds))
    heads = drop_pa(flow, passage_loss(viscosity, RHO, length, bore, SHORT_DRILLING_LOSS))
    usual = drop_pa(flow, passage_loss(viscosity, RHO, length, bore))
    assert_close(heads, measured, rtol=0.05)
    assert 0.7 * measured < usual < measured


@given(drives, bores, st.floats(1e-6, 1e-3))
def test_orifice_flow_keeps_below_both_its_limits(
    drive: float, bore: float, viscosity_m2_s: float
) -> None:
    flow = orifice_flow_m3_s(drive, bore, RHO, viscosity_m2_s)
    area = np.pi / 4 * bore**2
    assert 0 < flow <= 0.611 * area * np.sqrt(2 * drive / RHO) * (1 + 1e-12)
    laminar = 2 * 0.611**2 / 9.3 * bore * drive / (viscosity_m2_s * RHO) * area
    assert flow <= laminar * (1 + 1e-12)
    assert orifice_flow_m3_s(-drive, bore, RHO, viscosity_m2_s) == -flow


# Drives


@given(st.floats(0.0, 95e3), st.floats(0.1, 2.0), st.floats(0.0, 2.0))
def test_every_drive_is_gravity_when_nothing_helps(
    extra: float, reservoir: float, outlet: float
) -> None:
    head = gravity_drive_pa(RHO, reservoir, outlet)
    assert pressure_drive_pa(0.0, RHO, reservoir, outlet) == head
    assert vacuum_drive_pa(0.0, 101325.0, RHO, reservoir, outlet) == head
    assert reverse_drive_pa(0.0, RHO, reservoir, outlet) == -head
    assert vacuum_drive_pa(extra, 101325.0, RHO, reservoir, outlet) == pressure_drive_pa(
        extra, RHO, reservoir, outlet
    )


@given(st.floats(-500.0, 10000.0), st.floats(1.0, 500.0))
def test_higher_up_there_is_less_air_and_less_suction(altitude: float, climb: float) -> None:
    low, high = atmosphere_pa(altitude), atmosphere_pa(altitude + climb)
    assert high < low
    assert vacuum_drive_pa(2e5, high, RHO, 1.0, 0.5) < vacuum_drive_pa(2e5, low, RHO, 1.0, 0.5)


@given(st.floats(0.0, 5000.0))
def test_air_bears_its_own_weight(altitude: float) -> None:
    """dp/dh = -rho g, with the standard lapse of 6.5 K per km and 287.05 J/kg K."""
    ends = np.asarray(atmosphere_pa(np.array([altitude - 1, altitude + 1])))
    slope = (ends[1] - ends[0]) / 2
    density = atmosphere_pa(altitude) / (287.05 * (288.15 - 6.5e-3 * altitude))
    assert_close(slope, -density * 9.80665, rtol=1e-4)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: laminar_resistance_pa_s_m3(0.018, 1.0, 0.0), "bore_m must be above zero"),
        (lambda: laminar_resistance_pa_s_m3(0.018, -1.0, 1e-3), "length_m must be zero or above"),
        (lambda: square_loss_pa_s2_m6(RHO, 1e-3, -1.0), "loss_factor must be zero or above"),
        (lambda: flow_m3_s(1.0, Loss(0.0, 1.0)), "linear_pa_s_m3 must be above zero"),
        (lambda: flow_m3_s(1.0, Loss(1.0, -1.0)), "square_pa_s2_m6 must be zero or above"),
        (
            lambda: flow_past_lip_m3_s(1.0, Loss(1.0, 1.0), Loss(1.0, 1.0), -1.0),
            "lip_pa must be zero or above",
        ),
        (lambda: reynolds_number(1e-6, 1e-3, 0.0), "kinematic_viscosity_m2_s must be above zero"),
        (lambda: linear_parallel(1.0, 0.0), "resistance_pa_s_m3 must be above zero"),
        (lambda: parallel_drop_pa(-1.0, Loss(1.0, 1.0)), "total_m3_s must be zero or above"),
        (
            lambda: branched_flows_m3_s(-1.0, Loss(1.0, 1.0), Loss(1.0, 1.0)),
            "drive_pa must be zero or above",
        ),
        (lambda: short_tube_discharge(8e-3, 1.5e-3, 0.0), "reynolds must be above zero"),
        (lambda: discharge_drop_pa(-1e-6, 1e-3, RHO, 0.6), "flow_m3_s must be zero or above"),
        (lambda: orifice_flow_m3_s(1.0, 0.0, RHO, 1e-5), "bore_m must be above zero"),
        (lambda: atmosphere_pa(50e3), "air_left_at_altitude_m must be above zero"),
        (lambda: gravity_drive_pa(0.0, 1.0, 0.5), "density_kg_m3 must be above zero"),
        (lambda: vacuum_drive_pa(-1.0, 1e5, RHO, 1.0, 0.5), "suction_pa must be zero or above"),
        (lambda: vacuum_drive_pa(1.0, 0.0, RHO, 1.0, 0.5), "atmosphere_pa must be above zero"),
        (lambda: pressure_drive_pa(-1.0, RHO, 1.0, 0.5), "cap_pa must be zero or above"),
        (lambda: reverse_drive_pa(-1.0, RHO, 1.0, 0.5), "syringe_pa must be zero or above"),
    ],
)
def test_impossible_values_are_refused(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == message
