# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lays a circuit out by height, once, for the app, the print and the docs."""

from collections.abc import Mapping, Sequence

from firmlever.domain.circuit import Circuit, Line, Screw
from firmlever.domain.quantity import Exact
from firmlever.domain.scene import (
    Anchor,
    Label,
    Point,
    Scene,
    SceneLine,
    ScenePart,
    SceneScrew,
)
from firmlever.report.scene_boxes import GUTTER, HEXAGON, Rect, fitted, shape_of
from firmlever.report.scene_columns import Columns
from firmlever.report.scene_grid import Ground
from firmlever.report.scene_heights import Heights
from firmlever.report.scene_names import Stand, stands
from firmlever.report.scene_ports import Port, ports
from firmlever.report.scene_resting import resting_places
from firmlever.report.scene_routes import Run
from firmlever.report.scene_tree import Node, children, middle, tree_of
from firmlever.report.scene_words import words_of

_FEED_MM, _THICK, _THIN = 5.0, 14.0, 11.0


def scene_of(circuit: Circuit, usual_mm: Mapping[str, float]) -> Scene:
    """Lay a circuit out by height.

    A part whose height is not given stands at its usual one, or a little below what feeds
    it. The same circuit always gives the same scene, and a new name changes only texts,
    unless it says left or right.
    """
    nodes = tree_of(circuit, usual_mm)
    columns = Columns(nodes)
    placed = stands(nodes, columns.x, columns.width)
    heights = Heights(nodes, columns.x, placed)
    middles = list(zip(columns.x, heights.y_of, strict=False))
    size = (columns.width, heights.bottom)
    screws = _screws(nodes, placed, middles, heights)
    lines = _lines(nodes, placed, middles, heights, size)
    parts = tuple(map(_part, nodes, placed, middles))
    return Scene(
        width=columns.width,
        height=heights.bottom,
        marks=heights.marks(),
        parts=parts,
        lines=lines,
        screws=screws,
        resting=resting_places(nodes, parts, lines, _taken(placed, middles), size),
        words=words_of(nodes),
    )


def _taken(placed: Sequence[Stand], middles: Sequence[Point]) -> list[Rect]:
    return [
        rect.moved(*at) for stand, at in zip(placed, middles, strict=True) for rect in stand.rects
    ]


def _part(node: Node, stand: Stand, at: Point) -> ScenePart:
    box = stand.box.moved(*at)
    name = fitted(node.part.id, stand.name_room)
    return ScenePart(
        owner=node.part.id,
        kind=node.part.kind.value,
        shape=shape_of(node.part.kind),
        x=round(box.left, 1),
        y=round(box.top, 1),
        width=box.right - box.left,
        height=box.bottom - box.top,
        height_mm=node.height_mm,
        height_known=node.known,
        label=Label(name, _moved(stand.name_at, at), stand.anchor),
    )


def _moved(point: Point, by: Point) -> Point:
    return (round(point[0] + by[0], 1), round(point[1] + by[1], 1))


def _screws(
    nodes: Sequence[Node], placed: Sequence[Stand], middles: Sequence[Point], heights: Heights
) -> tuple[SceneScrew, ...]:
    return tuple(
        screw
        for node, stand, at in zip(nodes, placed, middles, strict=True)
        for screw in _screws_of(node, stand, at, heights)
    )


def _screws_of(node: Node, stand: Stand, at: Point, heights: Heights) -> list[SceneScrew]:
    """Stand the screws of a part beside it, each at its height but within reach of the box."""
    strip = stand.screws.moved(*at)
    x = round((strip.left + strip.right) / 2, 1)
    low, high = strip.bottom - HEXAGON, strip.top + HEXAGON
    made: list[SceneScrew] = []
    for screw in sorted(node.part.screws, key=lambda one: -_height_of(one, node)):
        y = round(min(max(heights.y(_height_of(screw, node)), high), low), 1)
        number = Label(screw.id, (x, y), Anchor.MIDDLE)
        made.append(SceneScrew(screw.id, node.part.id, (x, y), number))
        high = y + 2 * HEXAGON
        low = max(low, high)
    return made


def _height_of(screw: Screw, node: Node) -> float:
    given = screw.given.get("height_mm", Exact(node.height_mm))
    return middle(given)


def _lines(
    nodes: Sequence[Node],
    placed: Sequence[Stand],
    middles: Sequence[Point],
    heights: Heights,
    size: tuple[float, float],
) -> tuple[SceneLine, ...]:
    boxes = [stand.box.moved(*at) for stand, at in zip(placed, middles, strict=True)]
    names = [
        rect.moved(*at)
        for stand, at in zip(placed, middles, strict=True)
        for rect in stand.rects[1:]
    ]
    ground = Ground(boxes, [*names, Rect(0.0, 0.0, GUTTER - 4.0, size[1])])
    turns = _turns(nodes, heights)
    fed = [index for index, node in enumerate(nodes) if node.parent is not None]
    for index in (*fed, *fed):
        if index in ground.lines and not ground.is_crossed(index):
            continue
        ground.lines.pop(index, None)
        parent = nodes[index].parent or 0
        ends = (
            _ports(nodes, placed, middles, (parent, index), leaving=True),
            _ports(nodes, placed, middles, (index, parent), leaving=False),
        )
        ys = [round(middles[parent][1], 1), *turns[index], round(middles[index][1], 1)]
        ground.lines[index] = Run(ground, (parent, index), ends, ys, size).points()
    return tuple(
        _line(line, ground.lines[index])
        for index, node in enumerate(nodes)
        for line in (node.line,)
        if line is not None
    )


def _ports(
    nodes: Sequence[Node],
    placed: Sequence[Stand],
    middles: Sequence[Point],
    here_and_there: tuple[int, int],
    *,
    leaving: bool,
) -> tuple[Port, ...]:
    here, there = here_and_there
    stand = placed[here]
    return tuple(
        ports(
            stand.box.moved(*middles[here]),
            shape_of(nodes[here].part.kind),
            middles[there][0],
            leaving=leaving,
            screw_side=stand.screw_side if stand.has_screws else 0,
            forks=len(children(nodes, here)) > 1,
        )
    )


def _turns(nodes: Sequence[Node], heights: Heights) -> list[list[float]]:
    levels = iter(heights.y_of[len(nodes) :])
    return [[next(levels) for _ in node.turns_mm] for node in nodes]


def _line(line: Line, points: tuple[Point, ...]) -> SceneLine:
    bore = line.given.get("bore_mm")
    wide = bore is not None and middle(bore) > _FEED_MM
    return SceneLine(f"{line.start} > {line.end}", points, _THICK if wide else _THIN)
