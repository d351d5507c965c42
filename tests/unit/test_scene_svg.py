# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The picture of a scene: sound XML, old fluid by pattern, nothing a strict policy refuses."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from firmlever.domain.plan import FlushPlan, LeftOld
from firmlever.domain.quantity import Band
from firmlever.report.scene import scene_of
from firmlever.report.scene_svg import Theme, screw_order, svg_of
from firmlever.report.words import WordSet
from unit import plan_example
from unit import scene_bench as bench

SVG = "{http://www.w3.org/2000/svg}"
SCENE = scene_of(plan_example.front(), {})


def plan_with(share: float, owner: str = "abs unit") -> FlushPlan:
    band = Band(share, share, share)
    left = LeftOld(band, band, {owner: band}, {owner: band}, {})
    return replace(plan_example.plan(), left_old=left)


def tree(text: str) -> ET.Element:
    return ET.fromstring(text)


def hatched(text: str) -> list[ET.Element]:
    """The old fluid in parts; the one in the key is left out."""
    return [rect for rect in tree(text).iter(f"{SVG}rect") if rect.get("clip-path")]


@pytest.mark.parametrize("name", bench.SHIPPED)
@pytest.mark.parametrize("theme", Theme)
def test_a_picture_is_sound_and_told(name: str, theme: Theme) -> None:
    bike, circuit = bench.SHIPPED[name]
    scene = scene_of(circuit, bench.usual(bike, circuit))
    picture = tree(svg_of(scene, None, theme))
    assert picture.get("role") == "img"
    ids = [element.get("id") for element in picture.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert set((picture.get("aria-labelledby") or "").split()) <= set(ids)
    (told,) = picture.iter(f"{SVG}desc")
    assert told.text == " ".join(scene.words)


def test_nothing_in_it_needs_a_loose_policy_or_the_network() -> None:
    text = svg_of(SCENE, plan_example.plan())
    for refused in ("style=", "<style", "<script", "href", "@import", "Gradient", "filter"):
        assert refused not in text
    assert set(re.findall(r"https?://[^\"' ]+", text)) == {"http://www.w3.org/2000/svg"}


def test_every_colour_is_a_custom_property_with_a_fallback() -> None:
    text = svg_of(SCENE, plan_example.plan())
    paints = set(re.findall(r'(?:fill|stroke)="([^"]*)"', text))
    named = {paint for paint in paints if not paint.startswith("url(#") and paint != "none"}
    assert named
    assert all(re.fullmatch(r"var\(--[a-z-]+, #[0-9a-f]{6}\)", paint) for paint in named)


@pytest.mark.parametrize("share", [0.25, 0.5, 1.0])
def test_old_fluid_fills_a_part_from_below_by_its_share(share: float) -> None:
    (part,) = (part for part in SCENE.parts if part.owner == "abs unit")
    (old,) = hatched(svg_of(SCENE, plan_with(share)))
    inside = part.height - 2 * 2.2
    bottom = float(old.get("y", "")) + float(old.get("height", ""))
    assert float(old.get("height", "")) == pytest.approx(share * inside, abs=0.06)
    assert bottom == pytest.approx(part.y + part.height - 2.2, abs=0.11)
    assert (old.get("fill") or "").endswith("-old)")


@pytest.mark.parametrize(("share", "seen"), [(0.0, 0), (0.009, 0), (0.01, 1)])
def test_a_trace_shows_and_less_does_not(share: float, seen: int) -> None:
    assert len(hatched(svg_of(SCENE, plan_with(share)))) == seen


@pytest.mark.parametrize(
    ("share", "paint"), [(0.05, "--fluid-new"), (0.2, "-mixed)"), (0.6, "-old)")]
)
def test_a_line_is_coloured_by_its_share(share: float, paint: str) -> None:
    line = SCENE.lines[1]
    text = svg_of(SCENE, plan_with(share, line.owner))
    (path,) = (
        path
        for path in tree(text).iter(f"{SVG}path")
        if path.get("stroke-width") == "6"
        and (path.get("d") or "").startswith(f"M{line.points[0][0]:g} {line.points[0][1]:g}")
        and "paper" not in (path.get("stroke") or "")
    )
    assert paint in (path.get("stroke") or "")


def test_without_a_plan_nothing_is_filled_and_no_screw_is_numbered() -> None:
    text = svg_of(SCENE, None)
    assert not hatched(text)
    assert "font-weight" not in text
    assert "stays old" not in text


def test_screws_carry_the_steps_in_which_they_are_worked() -> None:
    plan = plan_example.plan()
    first, *others = plan.points
    again = replace(plan, points=(first, *others, first))
    assert screw_order(again)[first.at] == f"1·{len(again.points)}"
    numbers = [
        text.text
        for text in tree(svg_of(SCENE, again)).iter(f"{SVG}text")
        if text.get("font-weight")
    ]
    assert sorted(numbers, key=str) == sorted(screw_order(again).values())


def test_names_are_escaped_and_kept_in_american_words() -> None:
    names = {"pot": '<pot & "hose">'}
    scene = scene_of(bench.renamed(plan_example.front(), names), {})
    text = svg_of(scene, None, words=WordSet.US)
    assert "<pot" not in text
    labels = [element.text for element in tree(text).iter(f"{SVG}text")]
    assert '<pot & "hose">' in labels


def test_a_usual_height_is_dashed_and_explained() -> None:
    assert "stroke-dasharray" not in svg_of(SCENE, None)
    bike, circuit = bench.SHIPPED["limpet front"]
    text = svg_of(scene_of(circuit, bench.usual(bike, circuit)), None)
    assert text.count("stroke-dasharray") == len(circuit.parts) + 1
    assert "usual height, not measured" in text


def test_the_words_say_what_the_colours_say() -> None:
    (told,) = tree(svg_of(SCENE, plan_with(0.4))).iter(f"{SVG}desc")
    assert (told.text or "").endswith("Old fluid stays in 40 % of the abs unit.")
    (told,) = tree(svg_of(SCENE, plan_with(0.0))).iter(f"{SVG}desc")
    assert (told.text or "").endswith("No part keeps old fluid.")
