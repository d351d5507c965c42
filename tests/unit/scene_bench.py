# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Circuits to draw, and what a drawing covers, measured from the outside."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

from hypothesis import strategies as st

import circuits
from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import Bike, BikeClass, Circuit, Line, Part, PartKind, Screw
from firmlever.domain.quantity import Exact
from firmlever.domain.scene import Anchor, Label, Point, Scene, SceneLine
from firmlever.report.scene_boxes import ASCENT, DESCENT, HEXAGON, Rect, text_width
from firmlever.services.describing import usual_heights

DATA = Path(str(files("firmlever"))) / "data"
ODD = Path(__file__).resolve().parent.parent / "data" / "odd"
SHIPPED = {
    f"{file.stem} {circuit.name}": (bike, circuit)
    for folder in (DATA / "demo", ODD, DATA / "examples")
    for file in sorted(folder.glob("*.toml"))
    for bike in (open_workshop().files.read(str(file)),)
    for circuit in bike.circuits
}


def usual(bike: Bike, circuit: Circuit) -> Mapping[str, float]:
    return usual_heights(bike, circuit, open_workshop().tables)


Drawn = tuple[Circuit, Mapping[str, float]]


@st.composite
def likely_circuits(draw: st.DrawFn) -> Drawn:
    """A random tree at the usual heights of its class; some hoses arch over both their ends."""
    made = draw(circuits.cases()).circuit
    made = draw(st.sampled_from((made, _sided(made))))
    usual_mm = usual(Bike("Test", draw(st.sampled_from(BikeClass)), (made,)), made)
    parts = tuple(
        replace(part, given={**part.given, "height_mm": Exact(usual_mm[part.id])})
        if draw(st.booleans())
        else part
        for part in made.parts
    )
    lines = tuple(
        replace(line, via_mm=((100.0, max(usual_mm[line.start], usual_mm[line.end]) + 40.0),))
        if line.start == "master" and draw(st.booleans())
        else line
        for line in made.lines
    )
    return replace(made, parts=parts, lines=lines), usual_mm


@st.composite
def wild_circuits(draw: st.DrawFn) -> Drawn:
    """A random tree that nobody would build: any height, any turning points, a stub anywhere."""
    made = draw(circuits.cases()).circuit
    heights = st.integers(10, 120).map(lambda tens: Exact(10.0 * tens))
    parts = tuple(
        replace(part, given={**part.given, "height_mm": draw(heights)})
        if draw(st.booleans())
        else part
        for part in made.parts
    )
    turns = st.tuples(st.just(100.0), st.integers(10, 120).map(lambda tens: 10.0 * tens))
    vias = st.lists(turns, max_size=2).map(tuple)
    lines = tuple(replace(line, via_mm=draw(vias)) for line in made.lines)
    if draw(st.booleans()):
        parts += (Part("switch", PartKind.DEAD_END, {"height_mm": draw(heights)}),)
        lines += (Line(draw(st.sampled_from(made.parts[1:])).id, "switch"),)
    return replace(made, parts=parts, lines=lines), {}


def _sided(circuit: Circuit) -> Circuit:
    return renamed(circuit, {"caliper 0": "right caliper", "caliper 1": "left caliper"})


def renamed(circuit: Circuit, names: Mapping[str, str]) -> Circuit:
    """The same circuit with other names for its parts and their screws."""
    return replace(
        circuit,
        parts=tuple(
            replace(
                part,
                id=names.get(part.id, part.id),
                screws=tuple(
                    Screw(names.get(screw.id, screw.id), screw.given) for screw in part.screws
                ),
            )
            for part in circuit.parts
        ),
        lines=tuple(
            replace(
                line,
                start=names.get(line.start, line.start),
                end=names.get(line.end, line.end),
            )
            for line in circuit.lines
        ),
    )


def boxes(scene: Scene) -> dict[str, Rect]:
    return {
        part.owner: Rect(part.x, part.y, part.x + part.width, part.y + part.height)
        for part in scene.parts
    }


def hexagons(scene: Scene) -> dict[str, Rect]:
    return {
        f"screw {screw.screw}": Rect(*screw.at, *screw.at).grown(HEXAGON - 1)
        for screw in scene.screws
    }


def text_rect(label: Label) -> Rect:
    """What a text covers, worked out anew from its anchor."""
    (x, y), width = label.at, text_width(label.text)
    left = x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[label.anchor]
    return Rect(left, y - ASCENT, left + width, y + DESCENT)


def texts(scene: Scene) -> dict[str, Rect]:
    names = {f"name of {part.owner}": text_rect(part.label) for part in scene.parts}
    air = {
        f"air in {place.owner}": text_rect(place.label)
        for place in scene.resting
        if place.label.text
    }
    return names | air


def stretches(line: SceneLine) -> Iterator[Rect]:
    """The line cut at its corners, as wide as its ink."""
    for (x0, y0), (x1, y1) in pairwise(line.points):
        thin = Rect(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
        half = line.width / 2
        level = y0 == y1
        yield Rect(
            thin.left - (0 if level else half),
            thin.top - (half if level else 0),
            thin.right + (0 if level else half),
            thin.bottom + (half if level else 0),
        )


def reversals(points: tuple[Point, ...]) -> int:
    """How often a run changes from rising to falling or back."""
    ways = [b[1] > a[1] for a, b in pairwise(points) if a[1] != b[1]]
    return sum(one is not other for one, other in pairwise(ways))


def on_edge(point: Point, box: Rect) -> bool:
    x, y = point
    upright = x in (box.left, box.right) and box.top <= y <= box.bottom
    return upright or (y in (box.top, box.bottom) and box.left <= x <= box.right)
