# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Finds the run of each line: past boxes and names, and never over a hump that is not there.

A line rises and falls only where its turning points say so. Between two turning points it
goes one way up or down, and sideways where it likes; the cheapest such run is searched.
"""

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import pairwise

from firmlever.domain.scene import Point
from firmlever.report.scene_grid import Ground, merged, stretch_rect
from firmlever.report.scene_ports import Port, Way

_BEND, _WRONG_WAY, _SAME_PORT, _ARCH_WIDTH = 18.0, 600.0, 250.0, 20.0

_State = tuple[int, int, int, Way]


class Run:
    """The search for one line."""

    def __init__(
        self,
        ground: Ground,
        own: tuple[int, int],
        ports: tuple[Sequence[Port], Sequence[Port]],
        heights: Sequence[float],
        size: tuple[float, float],
    ) -> None:
        self._ground, self._own = ground, own
        self._out, self._into = ports
        channels = ground.channels(*size)
        ends = [port.at for side in ports for port in side]
        self._xs = merged((x for x, _ in ends), channels[0])
        self._ys = merged((*heights, *(y for _, y in ends)), channels[1])
        self._turns = [self._ys.index(y) for y in heights]
        self._costs: dict[tuple[int, int, bool], float] = {}
        self._taken = {end for line in ground.lines.values() for end in (line[0], line[-1])}

    def points(self) -> tuple[Point, ...]:
        """Return the corners of the cheapest run that does not cross itself."""
        out = list(self._out)
        first = run = self._cheapest(out)
        while crosses_itself(run):
            out = [port for port in out if port.at != run[0]]
            if not out:
                return first
            run = self._cheapest(out)
        return run

    def _cheapest(self, out: Sequence[Port]) -> tuple[Point, ...]:
        goals = {(port.at, port.way.back): port for port in self._into}
        best: dict[_State, float] = {}
        came: dict[_State, _State | None] = {}
        queue: list[tuple[float, int, _State, _State | None, bool]] = []
        count = 0
        for port in out:
            state = (0, self._xs.index(port.at[0]), self._ys.index(port.at[1]), port.way)
            heappush(queue, (self._port_cost(port), count, state, None, False))
            count += 1
        while queue:
            cost, _, state, before, done = heappop(queue)
            if done:
                return self._corners(state, came)
            if state in best:
                continue
            best[state], came[state] = cost, before
            goal = goals.get((self._point(state), state[3]))
            if goal is not None and before is not None and state[0] == len(self._turns) - 2:
                count += 1
                heappush(queue, (cost + self._port_cost(goal), count, state, before, True))
            for more, onward in self._onward(state, first=before is None):
                if onward not in best:
                    count += 1
                    heappush(queue, (cost + more, count, onward, state, False))
        return (out[0].at, self._into[0].at)

    def _port_cost(self, port: Port) -> float:
        return port.cost + (_SAME_PORT if port.at in self._taken else 0.0)

    def _point(self, state: _State) -> Point:
        return (self._xs[state[1]], self._ys[state[2]])

    def _corners(self, last: _State, came: dict[_State, _State | None]) -> tuple[Point, ...]:
        run: list[Point] = []
        state: _State | None = last
        while state is not None:
            run.append(self._point(state))
            state = came[state]
        run.reverse()
        kept = run[:1]
        for point, after in pairwise(run[1:]):
            straight = point[0] == kept[-1][0] == after[0] or point[1] == kept[-1][1] == after[1]
            if not straight and point != kept[-1]:
                kept.append(point)
        return (*kept, run[-1])

    def _onward(self, state: _State, *, first: bool) -> Iterator[tuple[float, _State]]:
        leg, ix, iy, way = state
        for onward in Way:
            if onward is way.back or (first and onward is not way):
                continue
            step = self._step(leg, ix, iy, onward)
            if step is not None:
                more, there = step
                yield more + (_BEND if onward is not way else 0.0), there
        if not way.level and leg < len(self._turns) - 2 and iy == self._turns[leg + 1]:
            yield from self._over(leg, ix, iy)

    def _step(self, leg: int, ix: int, iy: int, way: Way) -> tuple[float, _State] | None:
        dx, dy = way.value
        jx, jy = ix + dx, iy + dy
        if not (0 <= jx < len(self._xs) and 0 <= jy < len(self._ys)):
            return None
        cost = self._cost(min(ix, jx), min(iy, jy), level=way.level)
        start, end = self._turns[leg], self._turns[leg + 1]
        toward = (end > start) - (end < start)
        if dy and (dy != toward or not min(start, end) <= jy <= max(start, end)):
            cost += _WRONG_WAY
        return cost, (leg, jx, jy, way)

    def _over(self, leg: int, ix: int, iy: int) -> Iterator[tuple[float, _State]]:
        """Go over a turning point: far enough sideways that it shows."""
        for way in (Way.LEFT, Way.RIGHT):
            cost, jx = _BEND, ix
            while 0 <= jx + way.value[0] < len(self._xs):
                cost += self._cost(min(jx, jx + way.value[0]), iy, level=True)
                jx += way.value[0]
                if abs(self._xs[jx] - self._xs[ix]) >= _ARCH_WIDTH:
                    yield cost, (leg + 1, jx, iy, way)

    def _cost(self, ix: int, iy: int, *, level: bool) -> float:
        key = (ix, iy, level)
        if key not in self._costs:
            start = (self._xs[ix], self._ys[iy])
            end = (self._xs[ix + 1], start[1]) if level else (start[0], self._ys[iy + 1])
            self._costs[key] = self._ground.cost(start, end, self._own)
        return self._costs[key]


def crosses_itself(run: Sequence[Point]) -> bool:
    """Say whether a run meets itself other than at its corners."""
    stretches = [stretch_rect(*ends).grown(1.0) for ends in pairwise(run)]
    return any(
        one.meets(other) for index, one in enumerate(stretches) for other in stretches[index + 2 :]
    )
