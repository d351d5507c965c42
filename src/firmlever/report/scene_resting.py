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
    SceneScrew,
)
from firmlever.report.scene_boxes import (
    ASCENT,
    GUTTER,
    HEXAGON,
    MARGIN,
    Rect,
    label_rect,
    rect_of_label,
    text_width,
)
from firmlever.report.scene_grid import stretch_rect
from firmlever.report.scene_tree import Node, around, middle

_LONG, _SHORT = "air can rest here", "air"
_BUBBLES, _GAP = 9.0, 5.0


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
    screws: Sequence[SceneScrew],
    size: tuple[float, float],
) -> tuple[RestingPlace, ...]:
    """Find the places and put a word beside each where it hides nothing."""
    taken = [
        *(Rect(part.x, part.y, part.x + part.width, part.y + part.height) for part in parts),
        *(rect_of_label(part.label) for part in parts),
        *(Rect(x, y, x, y).grown(HEXAGON) for x, y in (screw.at for screw in screws)),
        *(
            stretch_rect(*ends).grown(line.width / 2)
            for line in lines
            for ends in pairwise(line.points)
        ),
    ]
    made: list[RestingPlace] = []
    for owner, at in _places(nodes, parts, lines):
        label = _label(at, taken, size)
        taken.append(rect_of_label(label))
        made.append(RestingPlace(owner, at, label))
    return tuple(made)


def _places(
    nodes: Sequence[Node], parts: Sequence[ScenePart], lines: Sequence[SceneLine]
) -> Iterator[tuple[str, Point]]:
    fed = [index for index, node in enumerate(nodes) if node.parent is not None]
    for index, line in zip(fed, lines, strict=True):
        if peaks(nodes, index):
            yield line.owner, _top(line.points)
    for index, part in enumerate(parts):
        if has_resting_air(nodes, index):
            yield part.owner, (round(part.x + part.width / 2, 1), part.y)


def _top(points: Sequence[Point]) -> Point:
    flat = [(a, b) for a, b in pairwise(points) if a[1] == b[1]]
    (x0, y), (x1, _) = min(flat, key=lambda ends: ends[0][1])
    return (round((x0 + x1) / 2, 1), y)


def _label(at: Point, taken: Sequence[Rect], size: tuple[float, float]) -> Label:
    x, y = at
    spots = (
        ((x + _BUBBLES + _GAP, y - _BUBBLES), Anchor.START),
        ((x, y - _BUBBLES - _GAP), Anchor.MIDDLE),
        ((x - _BUBBLES - _GAP, y - _BUBBLES), Anchor.END),
        ((x + _BUBBLES + _GAP, y + ASCENT / 2), Anchor.START),
        ((x - _BUBBLES - _GAP, y + ASCENT / 2), Anchor.END),
        ((x, y + _BUBBLES + _GAP + ASCENT), Anchor.MIDDLE),
    )
    frame = Rect(GUTTER, 0.0, size[0] - MARGIN, size[1])
    for text in (_LONG, _SHORT):
        for spot, anchor in spots:
            rect = label_rect(spot, anchor, text_width(text))
            inside = frame.left <= rect.left and rect.right <= frame.right and rect.top >= 0
            if inside and not any(rect.meets(other) for other in taken):
                return Label(text, spot, anchor)
    return Label(_SHORT, spots[0][0], Anchor.START)
