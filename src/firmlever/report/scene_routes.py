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
from firmlever.report.scene_ports import BACK, STEPS, Port, Way

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
        self._rows: dict[int, list[float]] = {}
        self._columns: dict[int, list[float]] = {}
        into_x = [port.at[0] for port in self._into]
        self._reach = (min(into_x), max(into_x))
        self._entry = max(abs(port.at[1] - heights[-1]) for port in self._into)
        falls = [abs(one - other) for one, other in pairwise(heights)]
        self._rest = [sum(falls[leg:]) for leg in range(len(falls) + 1)]
        self._taken = {end for line in ground.lines.values() for end in (line[0], line[-1])}

    def points(self) -> tuple[Point, ...]:
        """Return the corners of the cheapest run that does not cross itself."""
        out = list(self._out)
        first: tuple[Point, ...] = ()
        while out:
            run = self._cheapest(out)
            if run and not crosses_itself(run):
                return run
            first = first or run
            out = [port for port in out if run and port.at != run[0]]
        return first

    def _cheapest(self, out: Sequence[Port]) -> tuple[Point, ...]:
        goals = {(port.at, BACK[port.way]): port for port in self._into}
        came: dict[_State, _State | None] = {}
        queue: list[tuple[float, int, float, _State, _State | None, bool]] = []
        count = 0
        for port in out:
            state = (0, self._xs.index(port.at[0]), self._ys.index(port.at[1]), port.way)
            cost = self._port_cost(port)
            heappush(queue, (cost + self._at_least(state), count, cost, state, None, False))
            count += 1
        while queue:
            _, _, cost, state, before, done = heappop(queue)
            if done:
                return self._corners(state, came)
            if state in came:
                continue
            came[state] = before
            goal = goals.get((self._point(state), state[3]))
            if goal is not None and before is not None and state[0] == len(self._turns) - 2:
                count += 1
                paid = cost + self._port_cost(goal)
                heappush(queue, (paid, count, paid, state, before, True))
            for more, onward in self._onward(state, first=before is None):
                if onward not in came:
                    count += 1
                    paid = cost + more
                    guess = paid + self._at_least(onward)
                    heappush(queue, (guess, count, paid, onward, state, False))
        return ()

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
        for onward in (way,) if first else Way:
            if onward == BACK[way]:
                continue
            step = self._step(leg, ix, iy, onward)
            if step is not None:
                more, there = step
                yield more + (_BEND if onward != way else 0.0), there
        turns = self._turns
        if way >= Way.UP and leg < len(turns) - 2 and iy == turns[leg + 1]:
            yield from self._over(leg, ix, iy)

    def _step(self, leg: int, ix: int, iy: int, way: Way) -> tuple[float, _State] | None:
        dx, dy = STEPS[way]
        jx, jy = ix + dx, iy + dy
        if not (0 <= jx < len(self._xs) and 0 <= jy < len(self._ys)):
            return None
        if dx:
            return self._row(iy)[min(ix, jx)], (leg, jx, jy, way)
        cost = self._column(ix)[min(iy, jy)]
        start, end = self._turns[leg], self._turns[leg + 1]
        toward = (end > start) - (end < start)
        if dy != toward or not min(start, end) <= jy <= max(start, end):
            cost += _WRONG_WAY
        return cost, (leg, jx, jy, way)

    def _over(self, leg: int, ix: int, iy: int) -> Iterator[tuple[float, _State]]:
        """Go over a turning point: far enough sideways that it shows."""
        row = self._row(iy)
        for way in (Way.LEFT, Way.RIGHT):
            cost, jx, dx = _BEND, ix, STEPS[way][0]
            while 0 <= jx + dx < len(self._xs):
                cost += row[min(jx, jx + dx)]
                jx += dx
                if abs(self._xs[jx] - self._xs[ix]) >= _ARCH_WIDTH:
                    yield cost, (leg + 1, jx, iy, way)

    def _row(self, iy: int) -> list[float]:
        if iy not in self._rows:
            self._rows[iy] = self._ground.row_costs(self._ys[iy], self._xs, self._own)
        return self._rows[iy]

    def _column(self, ix: int) -> list[float]:
        if ix not in self._columns:
            self._columns[ix] = self._ground.column_costs(self._xs[ix], self._ys, self._own)
        return self._columns[ix]

    def _at_least(self, state: _State) -> float:
        """Return what is surely still to pay: the way up, down and across that is left."""
        leg, ix, iy, _ = state
        left, right = self._reach
        sideways = max(left - self._xs[ix], self._xs[ix] - right, 0.0)
        upright = abs(self._ys[iy] - self._ys[self._turns[leg + 1]]) + self._rest[leg + 1]
        return sideways + max(upright - self._entry, 0.0)


def crosses_itself(run: Sequence[Point]) -> bool:
    """Say whether a run meets itself other than at its corners."""
    stretches = [stretch_rect(*ends).grown(1.0) for ends in pairwise(run)]
    return any(
        one.meets(other) for index, one in enumerate(stretches) for other in stretches[index + 2 :]
    )
