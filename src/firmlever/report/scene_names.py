# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""On which side of each part its name stands, and which room the two take together.

The room never follows from the name itself, so that a new name moves nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.scene import Anchor, Point, Shape
from firmlever.report.scene_boxes import (
    ASCENT,
    DESCENT,
    GUTTER,
    HEXAGON,
    MARGIN,
    NAME_ROOM,
    Rect,
    label_rect,
    shape_of,
)
from firmlever.report.scene_tree import Node, children, is_peak
from firmlever.report.scene_tree import box as box_of_node

_GAP = 5.0
_HALF = NAME_ROOM / 2
_ENOUGH, _BESIDE_ROOM, _OVER_LINE = 76.0, 112.0, 11.0


@dataclass(frozen=True, slots=True)
class Stand:
    """A part's box, its name and its screws, about the middle of the box.

    ``screw_side`` is -1 where the screws stand to the left of the box, 1 to the right, 0 on
    its top, where both sides are wanted for lines.
    """

    box: Rect
    name_at: Point
    anchor: Anchor
    name_room: float
    screw_side: int
    has_screws: bool

    @property
    def name(self) -> Rect:
        """The rectangle kept free for the name."""
        return label_rect(self.name_at, self.anchor, self.name_room)

    @property
    def rects(self) -> tuple[Rect, ...]:
        """Everything that must keep clear of other parts."""
        return (self.box, self.name, *((self.screws,) if self.has_screws else ()))

    @property
    def screws(self) -> Rect:
        """The strip beside the box in which its screws stand."""
        if not self.screw_side:
            middle = self.box.right - HEXAGON
            return Rect(
                middle - HEXAGON, self.box.top - 2 * HEXAGON, middle + HEXAGON, self.box.top
            )
        near, far = self.box.right, self.box.right + 2 * HEXAGON
        left, right = (near, far) if self.screw_side > 0 else (-far, -near)
        return Rect(left, min(self.box.top, -HEXAGON), right, max(self.box.bottom, HEXAGON))


def stands(nodes: Sequence[Node], x: Sequence[float], width: float) -> tuple[Stand, ...]:
    """Choose for every part where its name and its screws go."""
    return tuple(_stand(nodes, x, width, index) for index in range(len(nodes)))


def _stand(nodes: Sequence[Node], x: Sequence[float], width: float, index: int) -> Stand:
    part = nodes[index].part
    box = box_of_node(nodes, index)
    side = screw_side(nodes, x, width, index)
    at, anchor, room = _name(nodes, x, width, index)
    return Stand(box, at, anchor, room, side, bool(part.screws))


def screw_side(nodes: Sequence[Node], x: Sequence[float], width: float, index: int) -> int:
    """Return on which side of a part its screws stand: outwards, but never where a stub is."""
    if _shape(nodes, index) is Shape.CYLINDER and len(children(nodes, index)) > 1:
        return 0
    stubs = [child for child in children(nodes, index) if nodes[child].is_dead_end]
    if stubs:
        return -1 if x[stubs[0]] > x[index] else 1
    return -1 if x[index] <= width / 2 else 1


def _name(
    nodes: Sequence[Node], x: Sequence[float], width: float, index: int
) -> tuple[Point, Anchor, float]:
    box, shape = box_of_node(nodes, index), _shape(nodes, index)
    rooms = (x[index] + box.left - GUTTER - _GAP, width - MARGIN - x[index] - box.right - _GAP)
    if shape in (Shape.STUB, Shape.KNOT):
        outward = _outward(nodes, x, rooms, index)
        return _beside(nodes, box, outward, rooms, index)
    shift = _inside(0.0, x[index], width)
    onward = children(nodes, index)
    above = any(x[child] == x[index] for child in onward) or is_peak(nodes, index)
    if shape is Shape.POT or (shape is Shape.BOX and above):
        return (shift, box.top - _GAP - DESCENT), Anchor.MIDDLE, NAME_ROOM
    return (shift, box.bottom + _GAP + ASCENT), Anchor.MIDDLE, NAME_ROOM


def _shape(nodes: Sequence[Node], index: int) -> Shape:
    return shape_of(nodes[index].part.kind)


def _outward(
    nodes: Sequence[Node], x: Sequence[float], rooms: tuple[float, float], index: int
) -> int:
    """Return on which side the name of a small part stands: -1 left, 1 right."""
    parent = nodes[index].parent
    if _shape(nodes, index) is Shape.STUB:
        return 1 if parent is None or x[index] > x[parent] else -1
    stubs = [child for child in children(nodes, index) if nodes[child].is_dead_end]
    if stubs:
        return -1 if x[stubs[0]] > x[index] else 1
    return 1 if rooms[1] >= min(_ENOUGH, rooms[0]) else -1


def _beside(
    nodes: Sequence[Node], box: Rect, outward: int, rooms: tuple[float, float], index: int
) -> tuple[Point, Anchor, float]:
    """Put a name beside a small part: past its screws, else above the line that leaves there."""
    screwed = bool(nodes[index].part.screws)
    start = box.right + _GAP + (2 * HEXAGON if screwed else 0.0)
    room = min(_BESIDE_ROOM, rooms[outward > 0] + box.right + _GAP - start)
    base = DESCENT if screwed or _shape(nodes, index) is Shape.STUB else -_OVER_LINE
    return (outward * start, base), Anchor.START if outward > 0 else Anchor.END, room


def _inside(wanted: float, x: float, width: float) -> float:
    """Shift a centred name so that it stays in the frame."""
    return min(max(wanted, GUTTER + _HALF - x), width - MARGIN - _HALF - x)
