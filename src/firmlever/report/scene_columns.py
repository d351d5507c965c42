# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How far left or right each part of a drawing stands: the trunk, its branches, their sides."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from firmlever.domain.circuit import PartKind
from firmlever.report.scene_boxes import GUTTER, MARGIN, NAME_ROOM, NARROW, box_of
from firmlever.report.scene_tree import Node, box, children

_LEFT, _RIGHT = re.compile(r"\bleft\b", re.IGNORECASE), re.compile(r"\bright\b", re.IGNORECASE)
_COLUMNS = 3
_ASIDE, _STEP, _STUB_GAP, _ROOMY = 78.0, 62.0, 14.0, 0.65


class Columns:
    """The places of the parts from left to right, and the width this takes."""

    def __init__(self, nodes: Sequence[Node]) -> None:
        self._nodes = nodes
        self._onward = [
            [i for i in children(nodes, index) if not nodes[i].is_dead_end]
            for index in range(len(nodes))
        ]
        self.x: list[float] = [0.0] * len(nodes)
        trunk = self._trunk()
        columns = self._leaves(trunk[-1])
        self.width = max(NARROW, GUTTER + MARGIN + columns * NAME_ROOM)
        if columns == 1:
            self._chain(trunk)
        else:
            self._branches(trunk, columns)
        self._stubs()

    def _trunk(self) -> list[int]:
        trunk = [0]
        while len(self._onward[trunk[-1]]) == 1:
            trunk += self._onward[trunk[-1]]
        return trunk

    def _leaves(self, index: int) -> int:
        return max(1, sum(map(self._leaves, self._onward[index])))

    def _at(self, share: float) -> float:
        return round(GUTTER + (self.width - GUTTER - MARGIN) * share, 1)

    def _side(self, index: int) -> int:
        """Return -1 for a branch called left, 1 for one called right, else 0."""
        name = self._nodes[index].part.id
        if bool(_LEFT.search(name)) != bool(_RIGHT.search(name)):
            return -1 if _LEFT.search(name) else 1
        return next((side for side in map(self._side, self._onward[index]) if side), 0)

    def _own_side(self, indices: Sequence[int]) -> int:
        names = " ".join(self._nodes[index].part.id for index in indices)
        return bool(_RIGHT.search(names)) - bool(_LEFT.search(names))

    def _chain(self, trunk: Sequence[int]) -> None:
        head = self._head(trunk)
        stacks = [list(trunk[:head]), *([index] for index in trunk[head:])]
        while len(stacks) > _COLUMNS:
            falls = [
                self._nodes[before[-1]].height_mm - self._nodes[after[0]].height_mm
                for before, after in pairwise(stacks[1:])
            ]
            join = falls.index(max(falls)) + 1
            stacks[join : join + 2] = [stacks[join] + stacks[join + 1]]
        if {-1, 1} <= {self._own_side(stack) for stack in stacks}:
            stacks.sort(key=self._own_side)
        places = {1: (0.5,), 2: (0.25, 0.75), 3: (1 / 6, 0.5, 5 / 6)}[len(stacks)]
        for stack, place in zip(stacks, places, strict=True):
            for index in stack:
                self.x[index] = self._at(place)

    def _head(self, trunk: Sequence[int]) -> int:
        """Return how many parts of the trunk belong to the control: up to the master cylinder."""
        for count, index in enumerate(trunk, 1):
            if self._nodes[index].part.kind is PartKind.MASTER:
                return count
        return 1

    def _branches(self, trunk: Sequence[int], columns: int) -> None:
        fork = trunk[-1]
        places = [(i + 0.5) / columns for i in range(columns)]
        if columns < _COLUMNS:
            places = [1 / 6, 5 / 6]
        ends = iter(map(self._at, places))
        for index in sorted(self._onward[fork], key=self._side):
            self._branch(index, ends)
        x = self._at(0.5)
        head = self._head(trunk)
        for index in trunk[:head]:
            self.x[index] = x if head == len(trunk) else x - _ASIDE
        for before, index in zip(trunk[head - 1 :], trunk[head:], strict=False):
            if self._nodes[index].height_mm > self._nodes[before].height_mm:
                x = min(x + _STEP, self.width - MARGIN - box_of(PartKind.MODULATOR).right)
            self.x[index] = x

    def _branch(self, index: int, ends: Iterator[float]) -> float:
        onward = sorted(self._onward[index], key=self._side)
        below = [self._branch(child, ends) for child in onward]
        self.x[index] = sum(below) / len(below) if below else next(ends)
        return self.x[index]

    def _stubs(self) -> None:
        for index, node in enumerate(self._nodes):
            if node.is_dead_end and node.parent is not None:
                beside = self.x[node.parent]
                reach = box(self._nodes, node.parent).right + _STUB_GAP
                self.x[index] = beside + (reach if beside < _ROOMY * self.width else -reach)
