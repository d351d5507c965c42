# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A circuit drawn in letters: parts by height, the lines between, what stays old."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from firmlever.domain.circuit import Circuit, Line, Part, PartKind
from firmlever.domain.plan import FlushPlan
from firmlever.domain.quantity import Exact, Quantity
from firmlever.report.figures import per_cent
from firmlever.report.lanes import draw_lanes
from firmlever.report.layout import COLUMNS, cut, pad, printable, width
from firmlever.report.words import Speaker

_BAR = 8
_OLD, _NEW = "▒", "░"
_SCREW = "⬡"
_PART, _ARCH = "●", "∩"
_NAME = 20
_ARCH_RISE_MM = 5.0
_GAPS_MM = (150.0, 400.0)
_JUST_BELOW_MM = 1.0
_SHOWN_FROM = 0.01
_ALL_NEW_BELOW = 0.005
_MOST_LANES = 12


@dataclass(frozen=True, slots=True)
class _Node:
    name: str
    parent: int | None
    height_mm: float
    known: bool
    part: Part | None = None
    air: bool = False


def draw_circuit(
    circuit: Circuit, plan: FlushPlan, usual_mm: Mapping[str, float], say: Speaker
) -> tuple[str, ...]:
    """Draw a circuit with what a plan leaves old in each part; at most 78 columns.

    A part whose height is not given stands at its usual one, or just below what feeds it.
    Works for any tree. A circuit that branches too much for the page is listed by height
    without its lines.
    """
    nodes = _with_air(_nodes(circuit, usual_mm, say))
    rows = _rows(nodes)
    graph = _graph(nodes, rows)
    texts = _cells(nodes, rows, plan)
    return tuple(
        cut(f"{height}  {lines}  {text}".rstrip(), COLUMNS)
        for (height, text), lines in zip(texts, graph, strict=True)
    )


def _nodes(circuit: Circuit, usual_mm: Mapping[str, float], say: Speaker) -> list[_Node]:
    nodes: list[_Node] = []
    fed = {line.end for line in circuit.lines}
    waiting: list[tuple[Part, int | None, Line | None]] = [
        (part, None, None) for part in reversed(circuit.parts) if part.id not in fed
    ]
    while waiting:
        part, parent, line = waiting.pop()
        above = nodes[parent].height_mm if parent is not None else 0.0
        height, known = _height(part, usual_mm.get(part.id), above)
        if line is not None and parent is not None:
            top = max((rise for _, rise in line.via_mm), default=0.0)
            if top > max(above, height) + _ARCH_RISE_MM:
                nodes.append(_Node(say("top of the hose"), parent, top, known=True))
                parent = len(nodes) - 1
        nodes.append(_Node(printable(part.id), parent, height, known, part))
        here = len(nodes) - 1
        waiting += [
            (circuit.part(line.end), here, line)
            for line in reversed(circuit.lines)
            if line.start == part.id
        ]
    return nodes


def _height(part: Part, usual_mm: float | None, above_mm: float) -> tuple[float, bool]:
    given = part.given.get("height_mm")
    if given is not None:
        return _middle(given), isinstance(given, Exact)
    return (max(above_mm - _JUST_BELOW_MM, 0.0) if usual_mm is None else usual_mm), False


def _middle(quantity: Quantity) -> float:
    return quantity.value if isinstance(quantity, Exact) else (quantity.low + quantity.high) / 2


def _with_air(nodes: list[_Node]) -> list[_Node]:
    """Mark the summits without a screw, where every height around them is known."""
    around: dict[int, list[_Node]] = {index: [] for index in range(len(nodes))}
    for index, node in enumerate(nodes):
        if node.parent is not None:
            around[index].append(nodes[node.parent])
            around[node.parent].append(node)
    return [replace(node, air=_holds_air(node, around[index])) for index, node in enumerate(nodes)]


def _holds_air(node: _Node, around: list[_Node]) -> bool:
    vented = node.part is not None and (
        node.part.kind is PartKind.RESERVOIR or bool(node.part.screws)
    )
    heights_known = node.known and all(other.known for other in around)
    return (
        heights_known and not vented and all(other.height_mm < node.height_mm for other in around)
    )


def _rows(nodes: list[_Node]) -> list[int | None]:
    """Return which node stands in each row, from the top; None is a gap."""
    order = sorted(range(len(nodes)), key=lambda index: -nodes[index].height_mm)
    rows: list[int | None] = []
    for upper, lower in pairwise(order):
        fall = nodes[upper].height_mm - nodes[lower].height_mm
        rows += [upper, *(None for gap in _GAPS_MM if fall > gap)]
    return [*rows, *order[-1:]]


def _graph(nodes: list[_Node], rows: list[int | None]) -> tuple[str, ...]:
    row_of = {index: row for row, index in enumerate(rows) if index is not None}
    edges = [
        (row_of[node.parent], row_of[index])
        for index, node in enumerate(nodes)
        if node.parent is not None
    ]
    marks = {row_of[index]: _PART if node.part else _ARCH for index, node in enumerate(nodes)}
    graph = draw_lanes(len(rows), edges, marks)
    wide = max(map(len, graph))
    if wide > 2 * _MOST_LANES:
        return tuple(marks.get(row, "") for row in range(len(rows)))
    return tuple(f"{line:{wide}}" for line in graph)


def _cells(
    nodes: list[_Node], rows: list[int | None], plan: FlushPlan
) -> Iterator[tuple[str, str]]:
    number = {point.at: place for place, point in reversed(list(enumerate(plan.points, 1)))}
    screws = {index: _screws(node, number) for index, node in enumerate(nodes)}
    wide_name = max(min(width(node.name), _NAME) for node in nodes)
    wide_screws = max(map(len, screws.values()))
    before = ""
    for index in rows:
        if index is None:
            yield " " * 7, ""
            continue
        node = nodes[index]
        height = f"{'' if node.known else '≈'}{node.height_mm / 1000:.2f} m"
        name = pad(cut(node.name, _NAME), wide_name)
        left = _left(node, plan)
        air = "  air can rest here" if node.air else ""
        text = f"{name}  {screws[index]:{wide_screws}}  {left}{air}"
        yield f"{'' if height == before else height:>7}", text
        before = height


def _screws(node: _Node, number: Mapping[str, int]) -> str:
    if node.part is None:
        return ""
    return " ".join(f"{_SCREW}{number.get(screw.id, '')}" for screw in node.part.screws)


def _left(node: _Node, plan: FlushPlan) -> str:
    share = plan.left_old.parts.get(node.part.id) if node.part else None
    if share is None:
        return ""
    if share.p95 < _ALL_NEW_BELOW:
        return f"{_NEW * _BAR}  new"
    old = round(share.p50 * _BAR)
    if share.p50 >= _SHOWN_FROM:
        old = max(old, 1)
    return f"{_OLD * old}{_NEW * (_BAR - old)}  {per_cent(share)} old"
