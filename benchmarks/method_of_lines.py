# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The same circuit as ordinary differential equations, one draw at a time.

What anybody would write first: a stirred chamber is one equation; a laminar tube is
cut into rings, closer together near the wall, each with the mean delay of its bin of
the parabolic profile, and each ring into cells that upwind differences of second order
advect. Cells hold equal volumes of tube. The volume pushed takes the place of time.
Where the reservoir is topped up the integration starts afresh, since what it gives
jumps there.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.solve.network import Network
from firmlever.solve.simulate import Outcome
from firmlever.solve.supply import Supply
from firmlever.solve.transport import Mixing

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Resolution:
    """How finely the lines are cut and how strictly SciPy integrates."""

    rings: int
    cell_ml: float
    solver: str = "RK23"
    relative: float = 1e-3
    absolute: float = 1e-3


@dataclass(frozen=True, slots=True)
class Flushed:
    """What one draw took (m3) and the share of old fluid it left in everything."""

    through_m3: float
    left_whole: float


@dataclass(slots=True)
class _Vessel:
    """A pocket: its volume and the shares of new fluid in it, rings by cells."""

    volume: float
    is_tube: bool
    new: Array

    def old_m3(self, rings: "_Rings") -> float:
        """Return the old fluid in it."""
        if not self.is_tube:
            return self.volume * float(1.0 - self.new[0, 0])
        return self.volume * float(rings.held @ (1.0 - self.new).mean(axis=1))


class _Rings:
    """The rings of a tube: the flow each carries, its delay in volumes of the tube."""

    def __init__(self, count: int) -> None:
        speed = (1.0 - np.arange(count + 1) / count) ** 2
        self.flow = speed[:-1] ** 2 - speed[1:] ** 2
        self.delay = 1.0 / (speed[:-1] + speed[1:])
        self.held = self.flow * self.delay


class _Path:
    """The equations of the vessels from the reservoir to one screw."""

    def __init__(self, vessels: Sequence[_Vessel], rings: _Rings) -> None:
        self._is_tube = np.array([vessel.is_tube for vessel in vessels])
        tubes = [vessel for vessel in vessels if vessel.is_tube]
        cells = [vessel.new.shape[1] for vessel in tubes]
        self._volume = np.array([v.volume for v in vessels if not v.is_tube])
        self._ends = np.cumsum(cells) - 1
        self._starts = self._ends + 1 - cells
        size = np.concatenate([np.full(n, v.volume / n) for v, n in zip(tubes, cells, strict=True)])
        self._rate = 1.0 / (rings.delay[:, None] * size)
        self._flow = rings.flow
        self.given = 0.0

    def slope(self, _: float, state: Array) -> Array:
        """Return the change of every share with the volume pushed."""
        stirred, tubes = self._parted(state)
        leaving = np.empty(self._is_tube.size)
        leaving[~self._is_tube] = stirred
        leaving[self._is_tube] = self._flow @ self._ahead(tubes)
        entering = np.concatenate(([self.given], leaving[:-1]))
        behind = np.empty_like(tubes)
        behind[:, 1:] = tubes[:, :-1]
        behind[:, self._starts] = entering[self._is_tube]
        face = 1.5 * tubes - 0.5 * behind
        inflow = np.empty_like(tubes)
        inflow[:, 1:] = face[:, :-1]
        inflow[:, self._starts] = entering[self._is_tube]
        into_stirred = (entering[~self._is_tube] - stirred) / self._volume
        return np.concatenate((into_stirred, ((inflow - face) * self._rate).ravel()))

    def outlet(self, state: Array) -> float:
        """Return the share of new fluid at the screw."""
        stirred, tubes = self._parted(state)
        return float((self._flow @ self._ahead(tubes))[-1] if self._is_tube[-1] else stirred[-1])

    def _ahead(self, tubes: Array) -> Array:
        """Return the share that leaves each tube, ring by ring."""
        ahead: Array = 1.5 * tubes[:, self._ends] - 0.5 * tubes[:, self._ends - 1]
        return ahead

    def _parted(self, state: Array) -> tuple[Array, Array]:
        count = self._volume.size
        return state[:count], state[count:].reshape(self._rate.shape)


def flush(
    usual: Outcome, draw: int, order: Sequence[str], target: float, how: Resolution
) -> Flushed:
    """Flush one draw of a circuit whose network the solver has already laid out."""
    network = usual.network
    supply = usual.supply.rows(slice(draw, draw + 1))
    rings = _Rings(how.rings)
    vessels = _vessels(network, draw, how)
    drawn = 0.0
    for screw in order:
        path = [vessels[index] for index in network.outlets[screw]]
        drawn = _push(path, rings, supply, drawn, target, how)
    still = sum(float(volume[draw]) for volume in network.still_m3.values())
    end = np.array([drawn])
    in_pot = supply.old_share(end) * np.minimum(supply.level(end), usual.fill_to_m3[draw])
    old = still + sum(vessel.old_m3(rings) for vessel in vessels) + float(in_pot[0])
    held = sum(float(volume[draw]) for volume in usual.volume_m3.values())
    return Flushed(drawn, old / held)


def _vessels(network: Network, draw: int, how: Resolution) -> list[_Vessel]:
    vessels = []
    for place in network.places:
        volume = float(place.pocket.volume[draw])
        is_tube = place.pocket.mixing is Mixing.TUBE
        cells = max(2, round(volume * 1e6 / how.cell_ml)) if is_tube else 1
        shape = (how.rings, cells) if is_tube else (1, 1)
        vessels.append(_Vessel(volume, is_tube, np.zeros(shape)))
    return vessels


def _push(
    path: Sequence[_Vessel],
    rings: _Rings,
    supply: Supply,
    drawn: float,
    target: float,
    how: Resolution,
) -> float:
    """Push until the outlet reaches the target; return the volume drawn since the start."""
    from scipy.integrate import solve_ivp

    equations = _Path(path, rings)
    ordered = sorted(path, key=lambda vessel: vessel.is_tube)
    state = _joined(ordered, how.rings)
    usable = float(supply.usable[0])

    def reached(_: float, now: Array) -> float:
        return equations.outlet(now) - target

    reached.terminal = True  # type: ignore[attr-defined]
    while True:
        filling = np.floor(drawn / usable * (1.0 + 1e-12))
        top_up = (filling + 1.0) * usable
        equations.given = 1.0 - float(supply.old_share(np.array([(filling + 0.5) * usable]))[0])
        found = solve_ivp(
            equations.slope,
            (drawn, top_up),
            state,
            method=how.solver,
            events=reached,
            rtol=how.relative,
            atol=how.absolute,
        )
        drawn, state = float(found.t[-1]), found.y[:, -1]
        if found.status == 1:
            _share_out(state, ordered, how.rings)
            return drawn


def _joined(ordered: Sequence[_Vessel], rings: int) -> Array:
    """Return the shares in the order of the equations: chambers, then rings by cells."""
    stirred = [vessel.new.ravel() for vessel in ordered if not vessel.is_tube]
    tubes = [vessel.new for vessel in ordered if vessel.is_tube]
    rows = np.concatenate(tubes, axis=1) if tubes else np.empty((rings, 0))
    return np.concatenate((*stirred, rows.ravel()))


def _share_out(state: Array, ordered: Sequence[_Vessel], rings: int) -> None:
    count = sum(not vessel.is_tube for vessel in ordered)
    rows, start = state[count:].reshape(rings, -1), 0
    for index, vessel in enumerate(ordered):
        if not vessel.is_tube:
            vessel.new = state[index : index + 1].reshape(1, 1)
            continue
        end = start + vessel.new.shape[1]
        vessel.new, start = rows[:, start:end], end
