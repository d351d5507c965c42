# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.domain.circuit import Circuit, Control, Line, Part, PartKind, Screw
from firmlever.domain.plan import LeftOld
from firmlever.domain.quantity import Band, Exact
from firmlever.report.drawing_text import draw_circuit
from firmlever.report.layout import COLUMNS, in_ascii, width
from firmlever.report.words import Speaker, WordSet
from unit import plan_example

SAY = Speaker()


def drawing(circuit: Circuit) -> list[str]:
    return list(draw_circuit(circuit, plan_example.plan(circuit.name), {}, SAY))


def test_the_example_is_drawn_by_height() -> None:
    assert drawing(plan_example.front()) == [
        " 1.09 m    ∩─┐        top of the hose        air can rest here",
        " 1.06 m  ● │ │        pot",
        " 1.04 m  ●─┘ │        master           ⬡1  ░░░░░░░░  new",
        "             │",
        " 0.70 m      │ ●─┬─┐  tee                    air can rest here",
        " 0.62 m      ●─┘ │ │  abs unit             ▒▒▒░░░░░  40 % (20–60) old",
        "                 │ │",
        " 0.32 m          ● │  left caliper     ⬡2  ▒░░░░░░░  11 % (2–31) old",
        "                   ●  right caliper    ⬡3  ▒░░░░░░░  9 % (1–29) old",
    ]


def test_heights_not_known_are_marked_and_claim_no_air() -> None:
    usual_mm = {"rear pot": 550.0, "rear master": 400.0, "rear caliper": 600.0}
    plan = plan_example.plan("rear")
    assert draw_circuit(plan_example.rear(), plan, usual_mm, SAY) == (
        "≈0.60 m    ●  rear caliper  ⬡",
        "≈0.55 m  ● │  rear pot",
        "≈0.40 m  ●─┘  rear master",
    )
    assert draw_circuit(plan_example.rear(), plan, {"rear pot": 550.0}, SAY) == (
        "≈0.55 m  ●  rear pot",
        "         ●  rear master",
        "         ●  rear caliper  ⬡",
    )


@pytest.mark.parametrize("unknown", ["tee", "abs unit", "left caliper"])
def test_air_is_claimed_only_where_every_height_around_is_known(unknown: str) -> None:
    whole = plan_example.front()
    usual_mm = {unknown: whole.part(unknown).given["height_mm"].value}  # type: ignore[union-attr]
    parts = tuple(replace(part, given={}) if part.id == unknown else part for part in whole.parts)
    drawn = draw_circuit(replace(whole, parts=parts), plan_example.plan(), usual_mm, SAY)
    (tee,) = (line for line in drawn if "tee" in line)
    assert "air can rest here" not in tee
    assert any("tee" in line and "air" in line for line in drawing(whole))


@pytest.mark.parametrize(
    ("share", "bar"),
    [
        (0.0, "░░░░░░░░"),
        (0.009, "░░░░░░░░"),
        (0.01, "▒░░░░░░░"),
        (0.5, "▒▒▒▒░░░░"),
        (1, "▒▒▒▒▒▒▒▒"),
    ],
)
def test_a_trace_of_old_fluid_always_shows(share: float, bar: str) -> None:
    circuit = plan_example.rear()
    plan = plan_example.plan("rear")
    band = Band(share, share, share)
    left = LeftOld(band, band, {"rear caliper": band}, {"rear caliper": band}, {})
    lines = draw_circuit(circuit, replace(plan, left_old=left), {}, SAY)
    assert [line for line in lines if bar in line and "rear caliper" in line]


@st.composite
def circuits(draw: st.DrawFn) -> Circuit:
    count = draw(st.integers(2, 40))
    names = st.text(st.characters(categories=["L", "N", "Cc", "Zs"]), min_size=1, max_size=40)
    ids = draw(st.lists(names, min_size=count, max_size=count, unique=True))
    heights = st.one_of(st.none(), st.integers(0, 2500).map(Exact))
    parts = tuple(
        Part(
            part_id,
            PartKind.RESERVOIR if place == 0 else PartKind.CALIPER,
            {"height_mm": height} if (height := draw(heights)) else {},
            (Screw(part_id),) if place else (),
        )
        for place, part_id in enumerate(ids)
    )
    lines = tuple(
        Line(
            ids[draw(st.integers(0, place - 1))],
            part_id,
            via_mm=((10.0, draw(st.integers(0, 2500)) + 0.0),) if draw(st.booleans()) else (),
        )
        for place, part_id in enumerate(ids[1:], 1)
    )
    return Circuit("any", Control.LEVER, parts, lines)


@given(circuits())
def test_any_tree_fits_the_page_with_every_part_once(circuit: Circuit) -> None:
    lines = draw_circuit(circuit, plan_example.plan("any"), {}, SAY)
    assert all(width(line) <= COLUMNS for line in lines)
    assert sum(line.count("●") for line in lines) == len(circuit.parts)
    assert sum(line.count("⬡") for line in lines) == len(circuit.parts) - 1
    assert all(in_ascii(line).isascii() for line in lines)


def test_words_follow_the_word_set() -> None:
    say = Speaker(WordSet.US)
    lines = draw_circuit(plan_example.front(), plan_example.plan(), {}, say)
    assert "top of the line" in lines[0]
