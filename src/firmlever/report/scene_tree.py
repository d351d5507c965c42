# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A circuit as a tree of parts with their heights and the turning points of their lines."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firmlever.domain.circuit import Circuit, Line, Part, PartKind
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.report.scene_boxes import Rect, box_of

_TURN_MM = 5.0
_JUST_BELOW_MM = 60.0


@dataclass(frozen=True, slots=True)
class Node:
    """A part, the line that feeds it, and where both stand.

    ``spread_mm`` is how far the height may be from ``height_mm``; ``turns_mm`` are the
    heights at which the feeding line changes from rising to falling or back.
    """

    part: Part
    parent: int | None
    line: Line | None
    height_mm: float
    spread_mm: float
    known: bool
    turns_mm: tuple[float, ...]

    @property
    def is_dead_end(self) -> bool:
        """Whether nothing ever flows through it."""
        return self.part.kind is PartKind.DEAD_END


def tree_of(circuit: Circuit, usual_mm: Mapping[str, float]) -> tuple[Node, ...]:
    """Return the parts from the reservoir outwards, each after the one that feeds it."""
    fed = {line.end for line in circuit.lines}
    nodes: list[Node] = []
    waiting: list[tuple[Part, int | None, Line | None]] = [
        (part, None, None) for part in reversed(circuit.parts) if part.id not in fed
    ]
    while waiting:
        part, parent, line = waiting.pop()
        nodes.append(_node(part, parent, line, nodes, usual_mm))
        here = len(nodes) - 1
        waiting += [
            (circuit.part(onward.end), here, onward)
            for onward in reversed(circuit.lines)
            if onward.start == part.id
        ]
    return tuple(nodes)


def children(nodes: Sequence[Node], index: int) -> tuple[int, ...]:
    """Return the parts that a part feeds, in file order."""
    return tuple(i for i, node in enumerate(nodes) if node.parent == index)


def around(nodes: Sequence[Node], index: int) -> tuple[int, ...]:
    """Return the parts that a line joins to a part."""
    parent = nodes[index].parent
    return (*(() if parent is None else (parent,)), *children(nodes, index))


def box(nodes: Sequence[Node], index: int) -> Rect:
    """Return the box of a part about its own middle."""
    part = nodes[index].part
    return box_of(part.kind, len(around(nodes, index)), screwed=bool(part.screws))


def is_peak(nodes: Sequence[Node], index: int) -> bool:
    """Say whether a part stands above everything a line joins to it."""
    height = nodes[index].height_mm
    return all(nodes[other].height_mm < height for other in around(nodes, index))


def middle(quantity: Quantity) -> float:
    """Return the middle of a quantity."""
    return quantity.value if isinstance(quantity, Exact) else (quantity.low + quantity.high) / 2


def _node(
    part: Part,
    parent: int | None,
    line: Line | None,
    nodes: Sequence[Node],
    usual_mm: Mapping[str, float],
) -> Node:
    above = nodes[parent].height_mm if parent is not None else _JUST_BELOW_MM
    given = part.given.get("height_mm")
    if given is None:
        height = usual_mm.get(part.id, max(above - _JUST_BELOW_MM, 0.0))
    else:
        height = middle(given)
    spread = (given.high - given.low) / 2 if isinstance(given, Between) else 0.0
    turns = () if line is None else _turns(above, [rise for _, rise in line.via_mm], height)
    return Node(part, parent, line, height, spread, given is not None, turns)


def _turns(start: float, between: Sequence[float], end: float) -> tuple[float, ...]:
    """Return the heights at which a run changes its way, leaving out what hardly shows."""
    run = [start]
    for height in (*between, end):
        if len(run) > 1 and (run[-1] - run[-2]) * (height - run[-1]) >= 0:
            run[-1] = height
        elif abs(height - run[-1]) > _TURN_MM:
            run.append(height)
    return tuple(run[1:-1]) if run[-1] == end else tuple(run[1:])
