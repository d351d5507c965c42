# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a line of a drawing may run past, and what each stretch of it would cost."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from firmlever.domain.scene import Point
from firmlever.report.scene_boxes import Rect

_THROUGH_BOX, _OVER_NAME, _CROSSING, _ALONGSIDE = 3000.0, 400.0, 90.0, 300.0
_BOX_CLEAR, _NAME_CLEAR, _LINE_CLEAR = 9.0, 5.0, 11.0
_NEAR, _TOUCH = 4.0, 0.5
# Of two runs alike, the one that goes sideways higher up.
_LOW_DOWN = 0.0003

# From where to where along a row or a column something costs so much.
_Toll = tuple[float, float, float]


class Ground:
    """The boxes, names and lines that are there already."""

    def __init__(self, boxes: Sequence[Rect], names: Sequence[Rect]) -> None:
        self._boxes = boxes
        self._names = [name.grown(_NAME_CLEAR) for name in names]
        self.lines: dict[int, tuple[Point, ...]] = {}

    def row_costs(self, y: float, xs: Sequence[float], own: tuple[int, int]) -> list[float]:
        """Return what each stretch along a row costs for the line that joins two boxes."""
        rects = [(r.top, r.bottom, r.left, r.right, cost) for r, cost in self._solid(own)]
        tolls = [*_across(y, rects), *self._line_tolls(y, level=True)]
        return [length * (1.0 + _LOW_DOWN * y) + toll for length, toll in _summed(xs, tolls)]

    def column_costs(self, x: float, ys: Sequence[float], own: tuple[int, int]) -> list[float]:
        """Return what each stretch along a column costs."""
        rects = [(r.left, r.right, r.top, r.bottom, cost) for r, cost in self._solid(own)]
        tolls = [*_across(x, rects), *self._line_tolls(x, level=False)]
        return [length + toll for length, toll in _summed(ys, tolls)]

    def _solid(self, own: tuple[int, int]) -> Iterator[tuple[Rect, float]]:
        for index, box in enumerate(self._boxes):
            yield box if index in own else box.grown(_BOX_CLEAR), _THROUGH_BOX
        for name in self._names:
            yield name, _OVER_NAME

    def _line_tolls(self, at: float, *, level: bool) -> Iterator[_Toll]:
        """Give the tolls of crossing other lines and of running close along them."""
        for line in self.lines.values():
            for start, end in pairwise(line):
                fixed, (low, high) = _course(start, end, level=level)
                if fixed is not None and abs(fixed - at) < _LINE_CLEAR:
                    toll = _ALONGSIDE + high - low
                    yield low - _LINE_CLEAR, high + _LINE_CLEAR, toll
                other, (near, far) = _course(start, end, level=not level)
                if other is not None and near - _TOUCH < at < far + _TOUCH:
                    yield other - _TOUCH, other + _TOUCH, _CROSSING

    def is_crossed(self, index: int) -> bool:
        """Say whether a line crosses another or runs close along it."""
        mine = self.lines.pop(index)
        crossed = any(
            low < max(along) and high > min(along)
            for start, end in pairwise(mine)
            for level in (True, False)
            for at, along in (_course(start, end, level=level),)
            if at is not None
            for low, high, _ in self._line_tolls(at, level=level)
        )
        self.lines[index] = mine
        return crossed

    def channels(self, width: float, height: float) -> tuple[list[float], list[float]]:
        """Return the x and the y along which lines can pass everything that stands there."""
        xs: list[float] = []
        ys: list[float] = []
        for rect in [*(box.grown(_BOX_CLEAR) for box in self._boxes), *self._names]:
            xs += [rect.left - 1, rect.right + 1]
            ys += [rect.top - 1, rect.bottom + 1]
        for line in self.lines.values():
            for (x0, y0), (x1, y1) in pairwise(line):
                if x0 == x1:
                    xs += [x0 - _LINE_CLEAR - 1, x0 + _LINE_CLEAR + 1]
                if y0 == y1:
                    ys += [y0 - _LINE_CLEAR - 1, y0 + _LINE_CLEAR + 1]
        return _thinned(xs, width), _thinned(ys, height)


def merged(exact: Iterable[float], channels: Iterable[float]) -> list[float]:
    """Return both in order, without channels that all but touch an exact value."""
    kept = sorted(set(exact))
    return sorted(
        [*kept, *(one for one in channels if all(abs(one - fixed) > _NEAR for fixed in kept))]
    )


def stretch_rect(start: Point, end: Point) -> Rect:
    """Return the rectangle, thin as a line, between two points."""
    (x0, y0), (x1, y1) = start, end
    return Rect(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _course(start: Point, end: Point, *, level: bool) -> tuple[float | None, tuple[float, float]]:
    """Return where a stretch lies and how far it goes, or None where it goes the other way."""
    along, across = (0, 1) if level else (1, 0)
    low, high = sorted((start[along], end[along]))
    return (start[across] if start[across] == end[across] else None), (low, high)


def _across(at: float, rects: Iterable[tuple[float, float, float, float, float]]) -> list[_Toll]:
    return [(start, end, cost) for low, high, start, end, cost in rects if low < at < high]


def _summed(places: Sequence[float], tolls: Sequence[_Toll]) -> Iterator[tuple[float, float]]:
    for start, end in pairwise(places):
        yield end - start, sum(cost for low, high, cost in tolls if low < end and high > start)


def _thinned(values: Iterable[float], limit: float) -> list[float]:
    kept: list[float] = []
    for value in sorted(values):
        if 0 < value < limit and (not kept or value - kept[-1] > _NEAR):
            kept.append(round(value, 1))
    return kept
