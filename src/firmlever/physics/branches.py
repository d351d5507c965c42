# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How flow divides where a line branches and more than one screw stands open.

All branches share the pressure at the fork. The flow through each grows with that
pressure and bends over, so a guarded Newton step inside a bracket always arrives.
"""

from collections.abc import Callable, Sequence

import numpy as np

from firmlever.errors import OutOfRangeError
from firmlever.physics.flow import Loss, drop_pa, flow_m3_s
from firmlever.physics.model import Limit, Model
from firmlever.physics.numeric import Numeric, require_not_negative, require_positive

_STEPS = 80
_TOLERANCE = 1e-13


def linear_parallel(*resistance_pa_s_m3: Numeric) -> Numeric:
    """Return the resistance of laminar passages side by side.

    ``1 / R = sum 1 / R_i``, exact where the square losses do not count.

    Parameters
    ----------
    resistance_pa_s_m3 : numeric
        Resistance of each branch [Pa s/m3].

    Returns
    -------
    numeric
        Resistance of all together [Pa s/m3], of the broadcast shape.

    Range
    -----
    Reynolds number below 2000, both ends of all branches at the same pressures.

    Raises
    ------
    OutOfRangeError
        When a resistance is not above zero.

    Source
    ------
    derived: conservation of volume.

    Examples
    --------
    >>> linear_parallel(2.0, 2.0)
    1.0
    """
    conductance: Numeric = 0.0
    for branch in resistance_pa_s_m3:
        require_positive(resistance_pa_s_m3=branch)
        conductance = conductance + 1.0 / branch
    return 1.0 / conductance


def parallel_drop_pa(total_m3_s: Numeric, *branches: Loss) -> Numeric:
    """Return the pressure that drives a flow through passages side by side.

    Parameters
    ----------
    total_m3_s : numeric
        Flow through all branches together, zero or above [m3/s].
    branches : Loss
        Each branch: linear [Pa s/m3] and square [Pa s2/m6] coefficient.

    Returns
    -------
    numeric
        Pressure drop, to 1e-12 of itself [Pa], of the broadcast shape.

    Range
    -----
    That of the losses; all branches begin and end at the same two pressures.

    Raises
    ------
    OutOfRangeError
        When the flow is below zero, or a loss is one that `flow_m3_s` refuses.

    Source
    ------
    derived: conservation of volume.

    Examples
    --------
    >>> round(float(parallel_drop_pa(2.0, Loss(3.0, 5.0), Loss(3.0, 5.0))), 9)
    8.0
    """
    require_not_negative(total_m3_s=total_m3_s)
    # the drop of any one branch carrying everything is too much
    enough = [drop_pa(total_m3_s, branch) for branch in branches]
    high_pa = enough[0]
    for drop in enough[1:]:
        high_pa = np.minimum(high_pa, drop)

    def surplus(fork_pa: Numeric) -> tuple[Numeric, Numeric]:
        flow, slope = _flow_and_slope(fork_pa, branches)
        return flow - total_m3_s, slope

    return _root(surplus, high_pa)


def branched_flows_m3_s(drive_pa: Numeric, trunk: Loss, *branches: Loss) -> tuple[Numeric, ...]:
    """Return the flow through each branch behind a shared trunk.

    Parameters
    ----------
    drive_pa : numeric
        Driving pressure from the trunk's inlet to the end of every branch, zero or
        above [Pa].
    trunk : Loss
        What all the fluid passes: linear [Pa s/m3] and square [Pa s2/m6] coefficient.
    branches : Loss
        Each branch: linear [Pa s/m3] and square [Pa s2/m6] coefficient.

    Returns
    -------
    tuple of numeric
        Flow through each branch, in their order [m3/s], of the broadcast shape.

    Range
    -----
    That of the losses; the open ends at one height.

    Raises
    ------
    OutOfRangeError
        When the drive is below zero, or a loss is one that `flow_m3_s` refuses.

    Source
    ------
    derived: conservation of volume.

    Examples
    --------
    >>> flows = branched_flows_m3_s(8.0, Loss(1.0, 0.0), Loss(2.0, 0.0), Loss(2.0, 0.0))
    >>> [round(float(flow), 9) for flow in flows]
    [2.0, 2.0]
    """
    require_not_negative(drive_pa=drive_pa)

    def surplus(fork_pa: Numeric) -> tuple[Numeric, Numeric]:
        flow, slope = _flow_and_slope(fork_pa, branches)
        trunk_slope = trunk.linear_pa_s_m3 + 2.0 * trunk.square_pa_s2_m6 * flow
        return fork_pa + drop_pa(flow, trunk) - drive_pa, 1.0 + trunk_slope * slope

    # broadcast first: the branches may have more draws than the drive
    high_pa = drive_pa + 0.0 * surplus(drive_pa)[0]
    fork_pa = _root(surplus, high_pa)
    return tuple(flow_m3_s(fork_pa, branch) for branch in branches)


def _flow_and_slope(fork_pa: Numeric, branches: Sequence[Loss]) -> tuple[Numeric, Numeric]:
    flow: Numeric = 0.0
    slope: Numeric = 0.0
    for branch in branches:
        through = flow_m3_s(fork_pa, branch)
        flow = flow + through
        slope = slope + 1.0 / (branch.linear_pa_s_m3 + 2.0 * branch.square_pa_s2_m6 * through)
    return flow, slope


def _root(surplus: Callable[[Numeric], tuple[Numeric, Numeric]], high_pa: Numeric) -> Numeric:
    """Return the fork pressure between 0 and ``high_pa`` at which a rising surplus is zero."""
    low_pa = 0.0 * high_pa
    guess_pa = high_pa
    for _ in range(_STEPS):
        value, slope = surplus(guess_pa)
        high_pa = np.where(value > 0.0, guess_pa, high_pa)[()]
        low_pa = np.where(value < 0.0, guess_pa, low_pa)[()]
        step_pa = guess_pa - value / slope
        outside = (step_pa < low_pa) | (step_pa > high_pa)
        next_pa = np.where(outside, 0.5 * (low_pa + high_pa), step_pa)[()]
        if not np.any(np.abs(next_pa - guess_pa) > _TOLERANCE * next_pa):
            return next_pa
        guess_pa = next_pa
    raise OutOfRangeError("fork_pa", f"found within {_STEPS} steps")


MODELS = (
    Model(
        "laminar passages in parallel",
        linear_parallel,
        (Limit("Re", 0.0, 2000.0, "-"),),
        ("derived",),
    ),
    Model(
        "pressure over passages in parallel",
        parallel_drop_pa,
        (Limit("Re", 0.0, 2000.0, "-"),),
        ("derived",),
    ),
    Model(
        "flows behind a fork",
        branched_flows_m3_s,
        (Limit("Re", 0.0, 2000.0, "-"),),
        ("derived",),
    ),
)
