# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where a line may leave or enter a part, and which of these places it likes best."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum

from firmlever.domain.scene import Point, Shape
from firmlever.report.scene_boxes import Rect


class Way(IntEnum):
    """A direction of travel."""

    LEFT = 0
    RIGHT = 1
    UP = 2
    DOWN = 3


STEPS = ((-1, 0), (1, 0), (0, -1), (0, 1))
BACK = (Way.RIGHT, Way.LEFT, Way.DOWN, Way.UP)


@dataclass(frozen=True, slots=True)
class Port:
    """A place on the edge of a box; ``way`` leads out of the box."""

    at: Point
    way: Way
    cost: float


_NEVER, _AWAY, _CROSSWISE, _KEPT_FOR_FORKS = 1000.0, 120.0, 30.0, 60.0
# Shape: cost at a side, at the top, at the bottom, for lines that leave and for lines that enter.
_LEAVING = {
    Shape.POT: (_NEVER, _NEVER, 0.0),
    Shape.CYLINDER: (0.0, _NEVER, 40.0),
    Shape.BOX: (0.0, 10.0, 10.0),
    Shape.CALIPER: (30.0, 0.0, 60.0),
    Shape.KNOT: (0.0, 0.0, 0.0),
    Shape.STUB: (0.0, 0.0, 0.0),
}
_ENTERING = {
    Shape.POT: (0.0, _NEVER, 0.0),
    Shape.CYLINDER: (30.0, 0.0, 60.0),
    Shape.BOX: (20.0, 0.0, 20.0),
    Shape.CALIPER: (40.0, 0.0, 200.0),
    Shape.KNOT: (0.0, 0.0, 0.0),
    Shape.STUB: (0.0, 60.0, 0.0),
}
_OFF_CENTRE = 6.0
_WIDE = 40.0


def ports(
    box: Rect, shape: Shape, other_x: float, *, leaving: bool, screw_side: int, forks: bool
) -> Iterator[Port]:
    """Give the ports of a box for a line whose other end is at ``other_x``.

    ``screw_side`` is 0 where no screw takes a side; ``forks`` says that several lines leave.
    """
    side, top, bottom = (_LEAVING if leaving else _ENTERING)[shape]
    if forks and not leaving and shape is Shape.KNOT:
        bottom += _KEPT_FOR_FORKS
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    for way, edge in ((Way.LEFT, box.left), (Way.RIGHT, box.right)):
        taken = _NEVER if STEPS[way][0] == screw_side else 0.0
        away = _AWAY if leaving and (other_x - x) * STEPS[way][0] < 0 else 0.0
        yield Port((edge, round(y, 1)), way, side + taken + away)
    quarter = (box.right - box.left) / 4
    wide = 4 * quarter >= _WIDE and shape is not Shape.POT
    for offset in (0.0, -quarter, quarter) if wide else (0.0,):
        extra = _OFF_CENTRE if offset else 0.0
        if not offset or shape is not Shape.CYLINDER:
            yield Port((round(x + offset, 1), box.top), Way.UP, top + extra)
        beyond = _CROSSWISE if leaving and (other_x - x) * offset < 0 else 0.0
        yield Port((round(x + offset, 1), box.bottom), Way.DOWN, bottom + extra + beyond)
