# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where air can rest in a drawing: peaks from which fluid falls away on both sides."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from firmlever.domain.circuit import PartKind, Screw
from firmlever.domain.scene import (
    Anchor,
    Label,
    Point,
    RestingPlace,
    SceneLine,
    ScenePart,
    Shape,
)
from firmlever.report.scene_boxes import (
    ASCENT,
    GUTTER,
    MARGIN,
    Rect,
    label_rect,
    rect_of_label,
    text_width,
)
from firmlever.report.scene_grid import stretch_rect
from firmlever.report.scene_tree import Node, around, middle

_LONG, _SHORT = "air can rest here", "air"
_BUBBLES, _GAP, _INSIDE, _OVER_NAME = 9.0, 5.0, 11.0, 20.0
# How far a word keeps from a line, and by how much it steps aside for one.
_CLEAR, _ASIDE = 3.0, 8.0


def has_resting_air(nodes: Sequence[Node], index: int) -> bool:
    """Say whether air stays in a part: it is a peak, or its chamber tops its screw."""
    node = nodes[index]
    if any(_tops_its_screw(screw) for screw in node.part.screws):
        return True
    vented = node.part.kind is PartKind.RESERVOIR or bool(node.part.screws)
    neighbours = [nodes[i] for i in around(nodes, index)]
    return not vented and node.known and all(is_above(node, other) for other in neighbours)


def is_above(node: Node, other: Node) -> bool:
    """Say whether a part surely stands above another, as far as their heights are known."""
    clear = node.height_mm - node.spread_mm > other.height_mm + other.spread_mm
    return other.known and clear


def peaks(nodes: Sequence[Node], index: int) -> tuple[float, ...]:
    """Return the heights at which the line that feeds a part holds air."""
    node = nodes[index]
    if node.parent is None or not (node.known and nodes[node.parent].known):
        return ()
    run = (nodes[node.parent].height_mm, *node.turns_mm, node.height_mm)
    return tuple(
        here
        for before, here, after in zip(run, run[1:], run[2:], strict=False)
        if before < here > after
    )


def _tops_its_screw(screw: Screw) -> bool:
    volume = screw.given.get("above_ml")
    return volume is not None and middle(volume) > 0


def resting_places(
    nodes: Sequence[Node],
    parts: Sequence[ScenePart],
    lines: Sequence[SceneLine],
    standing: Sequence[Rect],
    size: tuple[float, float],
) -> tuple[RestingPlace, ...]:
    """Find the places and put a word beside each, unless it would hide something everywhere."""
    taken = [
        *standing,
        *(
            stretch_rect(*ends).grown(line.width / 2 + _CLEAR)
            for line in lines
            for ends in pairwise(line.points)
        ),
    ]
    made: list[RestingPlace] = []
    for owner, at, around_it in _places(nodes, parts, lines):
        label = _label(around_it, taken, size)
        taken.append(rect_of_label(label))
        made.append(RestingPlace(owner, at, label))
    return tuple(made)


def _places(
    nodes: Sequence[Node], parts: Sequence[ScenePart], lines: Sequence[SceneLine]
) -> Iterator[tuple[str, Point, Rect]]:
    """Give the owner and the point of each place, and what its word stands around."""
    fed = [index for index, node in enumerate(nodes) if node.parent is not None]
    for index, line in zip(fed, lines, strict=True):
        if peaks(nodes, index):
            x, y = _top(line.points)
            yield line.owner, (x, y), Rect(x, y, x, y).grown(_BUBBLES)
    for index, part in enumerate(parts):
        if has_resting_air(nodes, index):
            x, y = round(part.x + part.width / 2, 1), part.y
            box = Rect(part.x, y, part.x + part.width, y + part.height)
            inside = 0.0 if part.shape is Shape.KNOT else min(_INSIDE, part.height / 2)
            yield part.owner, (x, round(y + inside, 1)), box


def _top(points: Sequence[Point]) -> Point:
    flat = [(a, b) for a, b in pairwise(points) if a[1] == b[1]]
    (x0, y), (x1, _) = min(flat, key=lambda ends: ends[0][1])
    return (round((x0 + x1) / 2, 1), y)


def _label(place: Rect, taken: Sequence[Rect], size: tuple[float, float]) -> Label:
    x = (place.left + place.right) / 2
    right, left = place.right + _GAP, place.left - _GAP
    high, low = place.top + 1.0, place.bottom + _GAP + ASCENT
    near = (
        ((right, high), Anchor.START),
        ((x, place.top - _GAP), Anchor.MIDDLE),
        ((left, high), Anchor.END),
        ((right, place.top - _GAP), Anchor.START),
        ((left, place.top - _GAP), Anchor.END),
        *(
            ((x + aside, place.top - _GAP - _OVER_NAME), Anchor.MIDDLE)
            for aside in (0.0, _ASIDE, -_ASIDE)
        ),
    )
    far = (((right, low), Anchor.START), ((left, low), Anchor.END), ((x, low), Anchor.MIDDLE))
    for text, spots in ((_LONG, near), (_SHORT, (*near, *far))):
        half = text_width(text) / 2
        for (wanted, y), anchor in spots:
            at = wanted
            if anchor is Anchor.MIDDLE:
                at = min(max(wanted, GUTTER + half), size[0] - MARGIN - half)
            rect = label_rect((at, y), anchor, 2 * half)
            inside = rect.left >= GUTTER and rect.right <= size[0] - MARGIN and rect.top >= 0
            if inside and not any(rect.meets(other) for other in taken):
                return Label(text, (round(at, 1), round(y, 1)), anchor)
    return Label("", near[0][0], Anchor.START)
