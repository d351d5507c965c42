# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A circuit laid out by height, once, for every face that shows it.

Coordinates are in units of the drawing, x to the right and y downwards; a face may
scale the whole but never lays anything out again. Colours and patterns follow from
what a plan says of each owner.
"""

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]


class Shape(StrEnum):
    """How a part is drawn."""

    POT = "pot"
    CYLINDER = "cylinder"
    BOX = "box"
    CALIPER = "caliper"
    KNOT = "knot"
    STUB = "stub"


class Anchor(StrEnum):
    """On which side of its point a text stands."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Label:
    """A text at a point."""

    text: str
    at: Point
    anchor: Anchor


@dataclass(frozen=True, slots=True)
class HeightMark:
    """A faint line at a height above the ground."""

    height_mm: float
    y: float


@dataclass(frozen=True, slots=True)
class ScenePart:
    """A part as a box; ``owner`` is its id. Old fluid fills it from below.

    ``height_known`` is false where the usual height of its class stands in.
    """

    owner: str
    kind: str
    shape: Shape
    x: float
    y: float
    width: float
    height: float
    height_mm: float
    height_known: bool
    label: Label


@dataclass(frozen=True, slots=True)
class SceneLine:
    """A line as a run of points with rounded corners; ``owner`` is "start > end"."""

    owner: str
    points: tuple[Point, ...]
    width: float


@dataclass(frozen=True, slots=True)
class SceneScrew:
    """A bleed screw, a hexagon beside its part."""

    screw: str
    part: str
    at: Point
    label: Label


@dataclass(frozen=True, slots=True)
class RestingPlace:
    """Where air can rest: a place with fluid falling away on both sides."""

    owner: str
    at: Point
    label: Label


@dataclass(frozen=True, slots=True)
class Scene:
    """The drawing of one circuit, and the same in words."""

    width: float
    height: float
    marks: tuple[HeightMark, ...]
    parts: tuple[ScenePart, ...]
    lines: tuple[SceneLine, ...]
    screws: tuple[SceneScrew, ...]
    resting: tuple[RestingPlace, ...]
    words: tuple[str, ...]
