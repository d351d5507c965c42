# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Draws a tree whose nodes each have a row of their own, with lines between them.

Every node and every line keeps to a lane (a column); a line leaves its parent sideways
into its lane and then runs straight to its child, up or down. Where a sideways line meets
a lane that belongs to another line, that other line is drawn through unbroken.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_UPRIGHT = _UP | _DOWN
_STROKES = {
    0: " ",
    _UPRIGHT: "│",
    _UPRIGHT | _LEFT | _RIGHT: "│",
    _LEFT | _RIGHT: "─",
    _DOWN | _LEFT: "┐",
    _DOWN | _RIGHT: "┌",
    _UP | _LEFT: "┘",
    _UP | _RIGHT: "└",
    _DOWN | _LEFT | _RIGHT: "┬",
    _UP | _LEFT | _RIGHT: "┴",
}


@dataclass(slots=True)
class _Sheet:
    lane: dict[int, int] = field(default_factory=dict)
    taken: set[tuple[int, int]] = field(default_factory=set)
    ways: dict[tuple[int, int], int] = field(default_factory=dict)

    def add(self, row: int, lane: int, ways: int) -> None:
        self.ways[row, lane] = self.ways.get((row, lane), 0) | ways

    def place(self, row: int, lane: int) -> None:
        self.lane[row] = lane
        self.taken.add((row, lane))

    def join(self, parent: int, child: int) -> None:
        lane = self._free_lane(parent, child)
        cells = self._cells(parent, child, lane)
        self.taken.update(cells)
        self.place(child, lane)
        for row, _ in cells[1:-1]:
            self.add(row, lane, _UPRIGHT)
        start = self.lane[parent]
        toward = _DOWN if child > parent else _UP
        if lane != start:
            self._sideways(parent, start, lane)
            self.add(parent, lane, toward)

    def _sideways(self, row: int, start: int, end: int) -> None:
        first, last = sorted((start, end))
        for lane in range(first, last):
            self.add(row, lane, _RIGHT)
            self.add(row, lane + 1, _LEFT)

    def _cells(self, parent: int, child: int, lane: int) -> list[tuple[int, int]]:
        step = 1 if child > parent else -1
        return [(row, lane) for row in range(parent, child + step, step)]

    def _free_lane(self, parent: int, child: int) -> int:
        """Find the nearest lane free from the parent to one cell beyond the child.

        Without that cell two strangers could stand on each other and look joined.
        """
        start = self.lane[parent]
        wanted = 0
        beyond = child + (1 if child > parent else -1)
        while True:
            for lane in (start + wanted, start - wanted):
                cells = self._cells(parent, beyond, lane)
                if lane >= 0 and not self.taken.intersection(cells if wanted else cells[1:]):
                    return lane
            wanted += 1


def draw_lanes(
    rows: int, edges: Sequence[tuple[int, int]], marks: Mapping[int, str]
) -> tuple[str, ...]:
    """Draw a tree over so many rows.

    ``edges`` are pairs of rows (parent, child), each parent before its children; the first
    parent is the root. ``marks`` gives the letter of each row that holds a node.

    >>> for line in draw_lanes(4, [(0, 1), (1, 2), (1, 3)], {0: "a", 1: "b", 2: "c", 3: "d"}):
    ...     print(line)
    a
    b─┐
    c │
      d
    """
    sheet = _Sheet()
    sheet.place(edges[0][0] if edges else min(marks), 0)
    for parent, child in edges:
        sheet.join(parent, child)
    lanes = max(lane for _, lane in sheet.taken) + 1
    return tuple(_row(sheet, row, lanes, marks.get(row)) for row in range(rows))


def _row(sheet: _Sheet, row: int, lanes: int, mark: str | None) -> str:
    text = ""
    for lane in range(lanes):
        ways = sheet.ways.get((row, lane), 0)
        is_node = mark is not None and sheet.lane[row] == lane
        text += mark if is_node and mark else _STROKES[ways]
        text += "─" if ways & _RIGHT else " "
    return text.rstrip()
