# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A scene as an SVG picture, with what a plan leaves old in it, for print and docs.

Colours are custom properties with a fallback, set as presentation attributes, so that a
page with a strict policy may hold the picture and its own theme applies.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from html import escape
from itertools import pairwise
from math import cos, hypot, pi, sin
from zlib import crc32

from firmlever.domain.plan import FlushPlan
from firmlever.domain.scene import (
    Anchor,
    HeightMark,
    Label,
    Point,
    Scene,
    SceneLine,
    ScenePart,
    Shape,
)
from firmlever.report.scene_boxes import CORNER, FONT, GUTTER
from firmlever.report.words import Speaker, WordSet

_INK_WIDTH, _INSET = 2.0, 2.2
_WALL, _GAP = 1.5, 1.0
_HEX_RADIUS = 11.0
_KEY_ROW = 24.0
_TRACE, _LEAST_FILL = 0.01, 3.5
_HATCHED_LINE, _OLD_LINE = 0.1, 0.5
_CORNERS = {Shape.POT: 3, Shape.CYLINDER: 6, Shape.BOX: 2, Shape.CALIPER: 14, Shape.STUB: 4}
_MARK_DIGITS_MM = 100
_FITS, _SQUEEZED = 2, ' textLength="16" lengthAdjust="spacingAndGlyphs"'


class Theme(StrEnum):
    """Ink on paper, or the two exchanged."""

    LIGHT = "light"
    DARK = "dark"


_COLOURS: Mapping[Theme, Mapping[str, str]] = {
    Theme.LIGHT: {
        "paper": "#f6f2ea",
        "ink": "#1c1b17",
        "ink-soft": "#5a564c",
        "rule": "#cfc7b5",
        "do": "#0b5a4b",
        "fluid-new": "#f3dfa0",
        "fluid-mixed": "#dca347",
        "fluid-old": "#b06a16",
        "fluid-hatch": "#5a2f06",
    },
    Theme.DARK: {
        "paper": "#171612",
        "ink": "#f3eee2",
        "ink-soft": "#b3ad9e",
        "rule": "#454137",
        "do": "#5fd3b4",
        "fluid-new": "#f6e6b0",
        "fluid-mixed": "#dfaa52",
        "fluid-old": "#c47a22",
        "fluid-hatch": "#4a2604",
    },
}


def svg_of(
    scene: Scene,
    plan: FlushPlan | None,
    theme: Theme = Theme.LIGHT,
    words: WordSet = WordSet.UK,
    title: str = "The circuit by height",
) -> str:
    """Draw a scene; without a plan its parts are drawn empty and its screws without numbers."""
    names = [part.owner for part in scene.parts] + [screw.screw for screw in scene.screws]
    picture = _Picture(scene, plan, theme, Speaker(words, keep=names))
    return "\n".join(picture.elements(title)) + "\n"


@dataclass(frozen=True, slots=True)
class _Picture:
    scene: Scene
    plan: FlushPlan | None
    theme: Theme
    say: Speaker

    def elements(self, title: str) -> Iterator[str]:
        rows = (self.plan is not None) + self._is_any_usual()
        height = self.scene.height + rows * _KEY_ROW + (6 if rows else 0)
        yield (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(self.scene.width)} '
            f'{_n(height)}" role="img" aria-labelledby="{self._id("title")} {self._id("desc")}" '
            f'font-family="system-ui, sans-serif" font-size="{FONT}">'
        )
        yield f'<title id="{self._id("title")}">{escape(title)}</title>'
        told = self.say(" ".join((*self.scene.words, *self._told())))
        yield f'<desc id="{self._id("desc")}">{escape(told)}</desc>'
        yield from self._patterns()
        yield f'<rect width="{_n(self.scene.width)}" height="{_n(height)}" {self._fill("paper")}/>'
        yield from self._marks()
        for line in self.scene.lines:
            yield from self._line(line)
        for part in self.scene.parts:
            yield from self._part(part)
        yield from self._screws()
        yield from self._resting()
        if self.plan is not None:
            yield from self._key(self.scene.height + 2)
        if self._is_any_usual():
            yield self._usual_key(height - _KEY_ROW - 2)
        yield "</svg>"

    def _is_any_usual(self) -> bool:
        return not all(part.height_known for part in self.scene.parts)

    def _id(self, name: str) -> str:
        return f"s{crc32(repr(self.scene).encode()):08x}-{name}"

    def _colour(self, name: str) -> str:
        return f"var(--{name}, {_COLOURS[self.theme][name]})"

    def _fill(self, name: str) -> str:
        return f'fill="{self._colour(name)}"'

    def _stroke(self, name: str, width: float) -> str:
        return f'stroke="{self._colour(name)}" stroke-width="{_n(width)}"'

    def _old_share(self, owner: str) -> float | None:
        if self.plan is None:
            return None
        band = self.plan.left_old.parts.get(owner)
        return 0.0 if band is None else band.p50

    def _told(self) -> Iterator[str]:
        """Say in words what the colours say."""
        if self.plan is None:
            return
        shares = [(part.owner, self._old_share(part.owner) or 0.0) for part in self.scene.parts]
        old = [
            f"{round(100 * share)} % of the {owner}" for owner, share in shares if share >= _TRACE
        ]
        yield f"Old fluid stays in {', '.join(old)}." if old else "No part keeps old fluid."

    def _patterns(self) -> Iterator[str]:
        yield "<defs>"
        yield (
            f'<pattern id="{self._id("old")}" width="5" height="5" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate(45)"><rect width="5" height="5" {self._fill("fluid-old")}/>'
            f'<rect width="2" height="5" {self._fill("fluid-hatch")}/></pattern>'
        )
        yield (
            f'<pattern id="{self._id("mixed")}" width="7" height="7" '
            f'patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" '
            f'height="7" {self._fill("fluid-mixed")}/><rect width="1.6" height="7" '
            f"{self._fill('fluid-hatch')}/></pattern>"
        )
        for number, part in enumerate(self.scene.parts):
            inside = _outline(part, "", _INSET)
            yield f'<clipPath id="{self._id(f"part{number}")}">{inside}</clipPath>'
        yield "</defs>"

    def _marks(self) -> Iterator[str]:
        for mark in self.scene.marks:
            y = _n(mark.y)
            yield (
                f'<path d="M{_n(GUTTER - 2)} {y}H{_n(self.scene.width)}" '
                f"{self._stroke('rule', 1)}/>"
            )
            yield (
                f'<text x="0" y="{_n(mark.y + 4.5)}" {self._fill("ink-soft")}>'
                f"{_metres(mark, self.scene.marks)}</text>"
            )

    def _line(self, line: SceneLine) -> Iterator[str]:
        run = f'd="{_rounded(line.points)}" fill="none"'
        yield f"<path {run} {self._stroke('paper', line.width + 5)}/>"
        yield f"<path {run} {self._stroke('ink', line.width)}/>"
        inside = line.width - 2 * _WALL
        yield f"<path {run} {self._stroke('paper', inside)}/>"
        if self.plan is not None:
            yield f'<path {run} {self._pipe(line.owner)} stroke-width="{_n(inside - 2 * _GAP)}"/>'

    def _pipe(self, owner: str) -> str:
        share = self._old_share(owner) or 0.0
        if share < _HATCHED_LINE:
            return f'stroke="{self._colour("fluid-new")}"'
        return f'stroke="url(#{self._id("old" if share >= _OLD_LINE else "mixed")})"'

    def _part(self, part: ScenePart) -> Iterator[str]:
        share = self._old_share(part.owner)
        dashed = "" if part.height_known else ' stroke-dasharray="5 3"'
        yield _outline(part, f"{self._fill('paper')} {self._stroke('ink', _INK_WIDTH)}{dashed}")
        if share is not None:
            yield _outline(part, self._fill("fluid-new"), _INSET)
            if share >= _TRACE:
                yield self._old_fluid(part, share)
        if part.shape is Shape.POT:
            yield (
                f'<rect x="{_n(part.x - 3)}" y="{_n(part.y - 3)}" width="{_n(part.width + 6)}" '
                f'height="5" rx="1" {self._fill("ink")}/>'
            )
        yield self._text(part.label, part.label.text)

    def _old_fluid(self, part: ScenePart, share: float) -> str:
        level = max(share * (part.height - 2 * _INSET), _LEAST_FILL)
        bottom = part.y + part.height - _INSET
        clip = self._id(f"part{self.scene.parts.index(part)}")
        return (
            f'<rect x="{_n(part.x)}" y="{_n(bottom - level)}" width="{_n(part.width)}" '
            f'height="{_n(level)}" clip-path="url(#{clip})" fill="url(#{self._id("old")})"/>'
        )

    def _text(self, label: Label, text: str, colour: str = "ink", extra: str = "") -> str:
        return (
            f'<text x="{_n(label.at[0])}" y="{_n(label.at[1])}" '
            f'text-anchor="{label.anchor.value}" {self._fill(colour)}{extra}>{escape(text)}</text>'
        )

    def _screws(self) -> Iterator[str]:
        order = screw_order(self.plan)
        for screw in self.scene.screws:
            x, y = screw.at
            yield (
                f'<polygon points="{_hexagon(x, y)}" {self._fill("paper")} '
                f"{self._stroke('ink', _INK_WIDTH)}><title>{escape(screw.screw)}</title></polygon>"
            )
            number = order.get(screw.screw)
            if number is None:
                yield f'<circle cx="{_n(x)}" cy="{_n(y)}" r="2.5" {self._fill("ink")}/>'
            else:
                label = Label(number, (x, y + 4.8), screw.label.anchor)
                squeezed = _SQUEEZED if len(number) > _FITS else ""
                yield self._text(label, number, extra=f' font-weight="700"{squeezed}')

    def _resting(self) -> Iterator[str]:
        for place in self.scene.resting:
            x, y = place.at
            for dx, dy, radius in ((-4.0, -1.5, 4.5), (5.0, -4.0, 3.0)):
                yield (
                    f'<circle cx="{_n(x + dx)}" cy="{_n(y + dy)}" r="{_n(radius)}" '
                    f"{self._fill('paper')} {self._stroke('do', 2)}/>"
                )
            yield self._text(place.label, self.say(place.label.text), "do")

    def _key(self, y: float) -> Iterator[str]:
        ink = self._stroke("ink", 1.5)
        old, base = f'fill="url(#{self._id("old")})"', y + 13
        yield f'<rect x="{_n(GUTTER)}" y="{_n(y + 1)}" width="20" height="14" {old} {ink}/>'
        yield self._text(Label("", (GUTTER + 26, base), Anchor.START), self.say("stays old"))
        new = self._fill("fluid-new")
        yield f'<rect x="{_n(GUTTER + 104)}" y="{_n(y + 1)}" width="20" height="14" {new} {ink}/>'
        yield self._text(Label("", (GUTTER + 130, base), Anchor.START), self.say("new"))
        at = (GUTTER + 188, y + 8)
        yield f'<polygon points="{_hexagon(*at)}" {self._fill("paper")} {ink}/>'
        yield self._text(Label("", (GUTTER + 206, base), Anchor.START), self.say("screw, in order"))

    def _usual_key(self, y: float) -> str:
        dashed = f'{self._stroke("ink", _INK_WIDTH)} stroke-dasharray="5 3"'
        text = self.say("usual height, not measured")
        return (
            f'<rect x="{_n(GUTTER)}" y="{_n(y + 1)}" width="20" height="14" fill="none" {dashed}/>'
            f"{self._text(Label('', (GUTTER + 26, y + 13), Anchor.START), text)}"
        )


def screw_order(plan: FlushPlan | None) -> Mapping[str, str]:
    """Return the steps of a plan in which each screw is worked, as its hexagon shows them."""
    steps: dict[str, list[str]] = {}
    for number, point in enumerate(plan.points if plan else (), 1):
        steps.setdefault(point.at, []).append(str(number))
    return {screw: "·".join(numbers) for screw, numbers in steps.items()}


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _metres(mark: HeightMark, marks: Sequence[HeightMark]) -> str:
    short = [one for one in marks if one.height_mm % _MARK_DIGITS_MM == 0]
    digits = 1 if mark in short else 2
    return f"{mark.height_mm / 1000:.{digits}f}{' m' if mark in short[-1:] else ''}"


def _outline(part: ScenePart, paint: str, inset: float = 0.0) -> str:
    corner = _CORNERS.get(part.shape, part.height / 2) - inset
    return (
        f'<rect x="{_n(part.x + inset)}" y="{_n(part.y + inset)}" '
        f'width="{_n(part.width - 2 * inset)}" height="{_n(part.height - 2 * inset)}" '
        f'rx="{_n(max(corner, 1.0))}" {paint}/>'
    )


def _hexagon(x: float, y: float) -> str:
    return " ".join(
        f"{_n(x + _HEX_RADIUS * sin(k * pi / 3))},{_n(y + _HEX_RADIUS * cos(k * pi / 3))}"
        for k in range(6)
    )


def _rounded(points: Sequence[Point]) -> str:
    """Return a run as path data, its corners rounded as far as its stretches allow."""
    path = [f"M{_n(points[0][0])} {_n(points[0][1])}"]
    for (before, corner), (_, after) in pairwise(pairwise(points)):
        bend = min(CORNER, _length(before, corner) / 2, _length(corner, after) / 2)
        start, end = _toward(corner, before, bend), _toward(corner, after, bend)
        path.append(
            f"L{_n(start[0])} {_n(start[1])}Q{_n(corner[0])} {_n(corner[1])} "
            f"{_n(end[0])} {_n(end[1])}"
        )
    return "".join((*path, f"L{_n(points[-1][0])} {_n(points[-1][1])}"))


def _length(start: Point, end: Point) -> float:
    return hypot(end[0] - start[0], end[1] - start[1])


def _toward(start: Point, end: Point, by: float) -> Point:
    length = _length(start, end) or 1.0
    return (
        start[0] + (end[0] - start[0]) * by / length,
        start[1] + (end[1] - start[1]) * by / length,
    )
