# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""On which side of each part its name stands, and which room the two take together.

The room never follows from the name itself, so that a new name moves nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.circuit import PartKind
from firmlever.domain.scene import Anchor, Point, Shape
from firmlever.report.scene_boxes import (
    ASCENT,
    DESCENT,
    GUTTER,
    HEXAGON,
    MARGIN,
    NAME_ROOM,
    Rect,
    box_of,
    label_rect,
    shape_of,
)
from firmlever.report.scene_tree import Node, children

_GAP = 5.0
_HALF = NAME_ROOM / 2


@dataclass(frozen=True, slots=True)
class Stand:
    """A part's box, its name and its screws, about the middle of the box.

    ``screw_side`` is -1 where the screws stand to the left of the box, 1 to the right.
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
        near, far = self.box.right, self.box.right + 2 * HEXAGON
        left, right = (near, far) if self.screw_side > 0 else (-far, -near)
        return Rect(left, min(self.box.top, -HEXAGON), right, max(self.box.bottom, HEXAGON))


def stands(nodes: Sequence[Node], x: Sequence[float], width: float) -> tuple[Stand, ...]:
    """Choose for every part where its name and its screws go."""
    return tuple(_stand(nodes, x, width, index) for index in range(len(nodes)))


def _stand(nodes: Sequence[Node], x: Sequence[float], width: float, index: int) -> Stand:
    part = nodes[index].part
    box = box_of(part.kind)
    side = -1 if x[index] <= width / 2 else 1
    at, anchor, room = _name(nodes, x, width, index)
    return Stand(box, at, anchor, room, side, bool(part.screws))


def _name(
    nodes: Sequence[Node], x: Sequence[float], width: float, index: int
) -> tuple[Point, Anchor, float]:
    part, box = nodes[index].part, box_of(nodes[index].part.kind)
    room_left = x[index] + box.left - GUTTER - _GAP
    room_right = width - MARGIN - x[index] - box.right - _GAP
    below = (_inside(0.0, x[index], width), box.bottom + _GAP + ASCENT)
    if part.kind is PartKind.RESERVOIR:
        return (_inside(0.0, x[index], width), box.top - _GAP - DESCENT), Anchor.MIDDLE, NAME_ROOM
    if shape_of(part.kind) is Shape.STUB:
        outward = 1 if nodes[index].parent is None or x[index] > x[nodes[index].parent or 0] else -1
        return _beside(box, outward, (room_left, room_right), (DESCENT))
    if shape_of(part.kind) is Shape.KNOT:
        taken = [child for child in children(nodes, index) if nodes[child].is_dead_end]
        outward = 1 if x[index] < 0.7 * width and not taken else -1
        return _beside(box, outward, (room_left, room_right), -box.bottom)
    onward = children(nodes, index)
    if part.kind is PartKind.MODULATOR and any(x[child] == x[index] for child in onward):
        return _beside(box, -1 if room_left > room_right else 1, (room_left, room_right), DESCENT)
    if part.screws and shape_of(part.kind) is Shape.CYLINDER and len(onward) > 1:
        return (box.left + _HALF / 2, below[1]), Anchor.START, NAME_ROOM
    return below, Anchor.MIDDLE, NAME_ROOM


def _beside(
    box: Rect, outward: int, rooms: tuple[float, float], base: float
) -> tuple[Point, Anchor, float]:
    if outward > 0:
        return (box.right + _GAP, base), Anchor.START, min(NAME_ROOM, rooms[1])
    return (box.left - _GAP, base), Anchor.END, min(NAME_ROOM, rooms[0])


def _inside(wanted: float, x: float, width: float) -> float:
    """Shift a centred name so that it stays in the frame."""
    return min(max(wanted, GUTTER + _HALF - x), width - MARGIN - _HALF - x)
