# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How high each part of a drawing stands: in step with its real height, but never crowded."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from firmlever.domain.scene import HeightMark
from firmlever.report.scene_boxes import ASCENT, Rect
from firmlever.report.scene_names import Stand
from firmlever.report.scene_tree import Node

_TALL, _MOST_PER_MM = 330.0, 0.75
_CLEAR, _LINE_BETWEEN, _ARCH = 8.0, 26.0, 26.0
_EDGE = 14.0
_MARK_STEPS_MM, _MARK_GAP = (50, 100, 250, 500, 1000, 2000, 5000), 66.0


@dataclass(frozen=True, slots=True)
class Level:
    """Something at a height: rectangles about its point, or a turning point without any.

    ``ends`` are the levels that a turning point lies between.
    """

    height_mm: float
    x: float
    rects: tuple[Rect, ...] = ()
    ends: tuple[int, ...] = ()


class Heights:
    """The map from heights to the drawing: never upside down, stretched where it must be."""

    def __init__(self, nodes: Sequence[Node], x: Sequence[float], stands: Sequence[Stand]) -> None:
        levels = [
            Level(node.height_mm, at, stand.rects)
            for node, at, stand in zip(nodes, x, stands, strict=True)
        ]
        self._joints = {(node.parent, index) for index, node in enumerate(nodes)}
        for index, node in enumerate(nodes):
            ends = () if node.parent is None else (node.parent, index)
            levels += [Level(turn, 0.0, (), ends) for turn in node.turns_mm]
        self.levels = levels
        order = sorted(range(len(levels)), key=lambda index: -levels[index].height_mm)
        self.per_mm = _scale([level.height_mm for level in levels])
        self.y_of = self._settle(order)
        self._knots = sorted((levels[index].height_mm, self.y_of[index]) for index in order)
        lowest = max(
            (rect.bottom + self.y_of[i] for i, level in enumerate(levels) for rect in level.rects),
            default=0.0,
        )
        self.bottom = round(max(lowest, *self.y_of) + _EDGE, 1)

    def _settle(self, order: Sequence[int]) -> list[float]:
        y_of = [0.0] * len(order)
        for place, index in enumerate(order):
            level = self.levels[index]
            y = _EDGE + ASCENT + max((-rect.top for rect in level.rects), default=_ARCH - ASCENT)
            if place:
                before = order[place - 1]
                fall = self.levels[before].height_mm - level.height_mm
                y = max(y, y_of[before] + self.per_mm * fall)
            for upper in order[:place]:
                y = max(y, y_of[upper] + self._needed(upper, index))
            y_of[index] = round(y, 1)
        return y_of

    def _needed(self, upper: int, lower: int) -> float:
        above, below = self.levels[upper], self.levels[lower]
        if upper in below.ends or lower in above.ends:
            return _ARCH if above.height_mm > below.height_mm else 0.0
        x = above.x - below.x
        clear, aside = _LINE_BETWEEN, 0.0
        if self._joined(upper, lower):
            clear = aside = _CLEAR
        return max(
            (
                one.bottom - other.top + clear
                for one in above.rects
                for other in below.rects
                if one.left + x < other.right + aside and other.left - aside < one.right + x
            ),
            default=0.0,
        )

    def _joined(self, one: int, other: int) -> bool:
        return (one, other) in self._joints or (other, one) in self._joints

    def y(self, height_mm: float) -> float:
        """Return where a height lies in the drawing."""
        heights = [height for height, _ in self._knots]
        place = min(max(bisect_left(heights, height_mm), 1), len(heights) - 1)
        (low, y_low), (high, y_high) = self._knots[max(place - 1, 0)], self._knots[place]
        if low < high and low <= height_mm <= high:
            return y_low + (y_high - y_low) * (height_mm - low) / (high - low)
        nearest = self._knots[0 if height_mm < heights[0] else -1]
        return nearest[1] - self.per_mm * (height_mm - nearest[0])

    def marks(self) -> tuple[HeightMark, ...]:
        """Return a few round heights, spread over the drawing."""
        low, high = self._knots[0][0], self._knots[-1][0]
        for step in _MARK_STEPS_MM:
            rounds = [step * k for k in range(ceil(low / step), int(high // step) + 1)]
            ys = [self.y(height) for height in rounds]
            if all(a - b >= _MARK_GAP for a, b in pairwise(ys)) and len(ys) > 1:
                return tuple(
                    HeightMark(float(height), round(y, 1))
                    for height, y in zip(rounds, ys, strict=True)
                )
        return tuple(HeightMark(float(h), round(self.y(h), 1)) for h in (round(low, -1),))


def _scale(heights: Sequence[float]) -> float:
    span = max(heights) - min(heights)
    return min(_MOST_PER_MM, _TALL / span) if span else _MOST_PER_MM
