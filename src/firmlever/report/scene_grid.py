# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a line of a drawing may run past, and what each stretch of it would cost."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from firmlever.domain.scene import Point
from firmlever.report.scene_boxes import Rect

_THROUGH_BOX, _OVER_NAME, _CROSSING, _ALONGSIDE = 3000.0, 400.0, 90.0, 300.0
_BOX_CLEAR, _NAME_CLEAR, _LINE_CLEAR = 9.0, 5.0, 11.0
_NEAR = 4.0
# Of two runs alike, the one that goes sideways higher up.
_LOW_DOWN = 0.0003


class Ground:
    """The boxes, names and lines that are there already."""

    def __init__(self, boxes: Sequence[Rect], names: Sequence[Rect]) -> None:
        self._boxes = boxes
        self._names = [name.grown(_NAME_CLEAR) for name in names]
        self.lines: dict[int, tuple[Point, ...]] = {}

    def cost(self, start: Point, end: Point, own: tuple[int, int]) -> float:
        """Return what a straight stretch costs for the line that joins two boxes."""
        sideways = abs(end[0] - start[0])
        cost = sideways + abs(end[1] - start[1]) + _LOW_DOWN * sideways * start[1]
        stretch = stretch_rect(start, end)
        for index, box in enumerate(self._boxes):
            if stretch.meets(box if index in own else box.grown(_BOX_CLEAR)):
                cost += _THROUGH_BOX
        cost += sum(_OVER_NAME for name in self._names if stretch.meets(name))
        for line in self.lines.values():
            for other in pairwise(line):
                cost += _beside_line(start, end, *other)
        return cost

    def is_crossed(self, index: int) -> bool:
        """Say whether a line crosses another or runs close along it."""
        return any(
            _beside_line(*stretch, *other)
            for stretch in pairwise(self.lines[index])
            for number, line in self.lines.items()
            if number != index
            for other in pairwise(line)
        )

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
    return Rect(
        min(start[0], end[0]), min(start[1], end[1]), max(start[0], end[0]), max(start[1], end[1])
    )


def _thinned(values: Iterable[float], limit: float) -> list[float]:
    kept: list[float] = []
    for value in sorted(values):
        if 0 < value < limit and (not kept or value - kept[-1] > _NEAR):
            kept.append(round(value, 1))
    return kept


def _beside_line(start: Point, end: Point, other_start: Point, other_end: Point) -> float:
    """Return what it costs to cross another stretch or to run close along it."""
    one, two = stretch_rect(start, end), stretch_rect(other_start, other_end)
    level, other_level = start[1] == end[1], other_start[1] == other_end[1]
    if level != other_level:
        return _CROSSING if one.grown(0.5).meets(two) else 0.0
    near = two.grown(_LINE_CLEAR)
    return _ALONGSIDE + one.right - one.left if one.meets(near) else 0.0
