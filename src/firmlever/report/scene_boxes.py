# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How large the parts of a drawing are, and the rectangles that must keep clear of each other."""

from dataclasses import dataclass

from firmlever.domain.circuit import PartKind
from firmlever.domain.scene import Anchor, Label, Point, Shape

FONT = 13.5
ASCENT, DESCENT = 11.0, 4.0
GUTTER, MARGIN = 38.0, 2.0
NARROW = 360.0
NAME_ROOM = 104.0
HEXAGON = 12.0
CORNER = 18.0

_SIZES: dict[PartKind, tuple[Shape, float, float]] = {
    PartKind.RESERVOIR: (Shape.POT, 48.0, 34.0),
    PartKind.MASTER: (Shape.CYLINDER, 68.0, 24.0),
    PartKind.SECONDARY_MASTER: (Shape.CYLINDER, 68.0, 24.0),
    PartKind.MODULATOR: (Shape.BOX, 58.0, 46.0),
    PartKind.CALIPER: (Shape.CALIPER, 58.0, 48.0),
    PartKind.SLAVE: (Shape.CYLINDER, 56.0, 36.0),
    PartKind.SPLITTER: (Shape.KNOT, 18.0, 18.0),
    PartKind.JOINT: (Shape.KNOT, 14.0, 14.0),
    PartKind.VALVE: (Shape.BOX, 40.0, 28.0),
    PartKind.ANTI_DIVE: (Shape.BOX, 46.0, 34.0),
    PartKind.DEAD_END: (Shape.STUB, 20.0, 18.0),
}
_KNOT_HOLDS, _WIDE_KNOT = 4, 40.0
_CYLINDER_HOLDS, _WIDE_CYLINDER = 2, 112.0

# Widths of letters as shares of the font size, on the wide side of common system fonts.
_THIN, _WIDE = frozenset("iIjl.,:;|!' ftr()-"), frozenset("mwMW@%")
_LETTER, _THIN_LETTER, _WIDE_LETTER = 0.59, 0.38, 0.92


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle from its upper left to its lower right corner."""

    left: float
    top: float
    right: float
    bottom: float

    def moved(self, x: float, y: float) -> "Rect":
        """Return the rectangle moved by so much, to a tenth."""
        left, right = round(self.left + x, 1), round(self.right + x, 1)
        return Rect(left, round(self.top + y, 1), right, round(self.bottom + y, 1))

    def grown(self, by: float) -> "Rect":
        """Return the rectangle with so much added on every side."""
        return Rect(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: "Rect") -> bool:
        """Say whether the two share any area."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


def shape_of(kind: PartKind) -> Shape:
    """Return how a kind of part is drawn."""
    return _SIZES[kind][0]


def box_of(kind: PartKind, lines: int = 2, *, screwed: bool = False) -> Rect:
    """Return the box of a part about its own middle, wide enough for its lines and screws."""
    shape, width, height = _SIZES[kind]
    if shape is Shape.KNOT and lines + screwed > _KNOT_HOLDS:
        width = _WIDE_KNOT
    if shape is Shape.CYLINDER and screwed and lines > _CYLINDER_HOLDS:
        width = _WIDE_CYLINDER
    return Rect(-width / 2, -height / 2, width / 2, height / 2)


def text_width(text: str) -> float:
    """Return about how wide a text is, rather too wide than too narrow."""
    return FONT * sum(
        _THIN_LETTER if letter in _THIN else _WIDE_LETTER if letter in _WIDE else _LETTER
        for letter in text
    )


def fitted(text: str, room: float) -> str:
    """Cut a text to the room there is for it."""
    if text_width(text) <= room:
        return text
    while text and text_width(text + "…") > room:
        text = text[:-1]
    return text.rstrip() + "…"


def label_rect(at: Point, anchor: Anchor, width: float) -> Rect:
    """Return the rectangle of a text of this width whose base line starts from a point."""
    x, y = at
    left = {Anchor.START: x, Anchor.MIDDLE: x - width / 2, Anchor.END: x - width}[anchor]
    return Rect(left, y - ASCENT, left + width, y + DESCENT)


def rect_of_label(label: Label) -> Rect:
    """Return the rectangle that a label covers."""
    return label_rect(label.at, label.anchor, text_width(label.text))
