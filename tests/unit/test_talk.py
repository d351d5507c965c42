# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is asked about a circuit: best first, alike parts once, every key answerable."""

from dataclasses import replace

import pytest

from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.machine import Question
from firmlever.domain.plan import Assumed, FlushPlan, Narrow, PlanRequest
from firmlever.domain.quantity import Between, Exact
from firmlever.domain.tables import Basis, Prior
from firmlever.errors import FluidRefusedError
from firmlever.ports import Tables
from firmlever.services.talk import questions
from unit import plan_example
from unit.cli_bench import FakeTables

UNSWEPT = "left caliper/unswept_ml"
BORE = "abs unit > tee/bore_mm"


def assumed(name: str, low: float, high: float, unit: str, *also: str) -> Assumed:
    return Assumed(name, "words", low, high, unit, Basis.JUDGEMENT, "judgement", also)


def prior(kind: str, key: str, family: str, classes: tuple[str, ...], low: float) -> Prior:
    return Prior(kind, key, family, classes, "ml", low, low + 1, Basis.JUDGEMENT, "judgement", "")


class SomeTables(FakeTables):
    """Rows for the pot and for a line."""

    def priors(self) -> tuple[Prior, ...]:
        return (
            prior("reservoir", "max_ml", "any", (), 10),
            prior("reservoir", "max_ml", "front", (), 20),
            prior("reservoir", "max_ml", "front", ("tourer",), 30),
            prior("reservoir", "max_ml", "rear", ("tourer",), 40),
            prior("reservoir", "max_ml", "front", ("sport",), 50),
            prior("line", "length_mm", "any", (), 60),
        )


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> dict[str, Question]:
    """The questions of the example, by key, in their order."""
    result = replace(
        plan_example.plan(),
        narrow=(
            Narrow(UNSWEPT, "w", "m", 41.0, ("right caliper/unswept_ml",)),
            Narrow("close before release/delivered", "w", "m", 30.0),
            Narrow(BORE, "w", "m", 12.0),
        ),
        assumed=(
            assumed(UNSWEPT, 0.0, 0.5, "", "right caliper/unswept_ml"),
            assumed(BORE, 3.0, 3.5, "mm"),
        ),
    )

    def plan(_bike: Bike, request: PlanRequest, _tables: Tables) -> FlushPlan:
        assert request == PlanRequest("front", plan_example.ON)
        return result

    monkeypatch.setattr("firmlever.services.talk.plan", plan)
    return by_key()


def by_key() -> dict[str, Question]:
    bike = plan_example.bike()
    found = questions(bike, bike.circuit("front"), plan_example.ON, SomeTables())
    return {one.key: one for one in found}


def test_what_narrows_most_for_its_trouble_comes_first(asked: dict[str, Question]) -> None:
    """A ruler on a hose before dye through a caliper, though dye would tell more."""
    keys = list(asked)
    assert keys[:2] == [f"front/{BORE}", f"front/{UNSWEPT}"]
    assert [asked[key].per_cent for key in keys[:3]] == [12.0, 41.0, 0.0]


def test_what_is_known_comes_last(asked: dict[str, Question]) -> None:
    is_given = [one.given is not None for one in asked.values() if not one.per_cent]
    assert is_given == sorted(is_given)
    assert True in is_given


def test_parts_that_look_alike_are_asked_about_once(asked: dict[str, Question]) -> None:
    assert asked[f"front/{UNSWEPT}"].also == ("front/right caliper/unswept_ml",)
    assert "front/right caliper/unswept_ml" not in asked
    assert "front/right caliper/volume_ml" in asked


def test_usual_values_are_those_the_plan_took_in_the_same_unit(
    asked: dict[str, Question],
) -> None:
    usual = {key: (one.usual_low, one.usual_high) for key, one in asked.items()}
    assert usual[f"front/{BORE}"] == (3.0, 3.5)
    # a share of the content is no millilitres
    assert usual[f"front/{UNSWEPT}"] == (None, None)
    # the most special row: family before any, class before all
    assert usual["front/pot/max_ml"] == (30, 31)
    assert usual["front/pot/min_ml"] == (None, None)
    # only a plan knows which line of the table a line is
    assert usual["front/abs unit > tee/length_mm"] == (None, None)


def test_each_question_shows_where_to_look(asked: dict[str, Question]) -> None:
    pictures = {key.removeprefix("front/"): one.picture for key, one in asked.items()}
    assert {
        "pot/max_ml": "pot",
        "pot/height_mm": "height",
        "master/leverage": "master",
        "master/bore_mm": "bore",
        "master/stroke_mm": "stroke",
        "abs unit/volume_ml": "abs",
        "left caliper/volume_ml": "caliper",
        "left caliper/pistons_mm": "pistons",
        "left caliper/pad_mm": "pads",
        "left caliper/pad_new_mm": "pads",
        "screw:left caliper/hex_mm": "screw",
        "screw:left caliper/height_mm": "height",
        "abs unit > tee/length_mm": "line length",
        BORE: "line bore",
    }.items() <= pictures.items()


def test_what_is_given_comes_along(asked: dict[str, Question]) -> None:
    given = {key: one.given for key, one in asked.items() if one.given is not None}
    kinds = {type(value) for value in given.values()}
    assert kinds == {Exact, Between, tuple}
    front = plan_example.front()
    for part in front.parts:
        for key, value in part.given.items():
            assert given[f"front/{part.id}/{key}"] == value


def test_without_a_plan_everything_is_still_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    def plan(*_: object) -> FlushPlan:
        raise FluidRefusedError("DOT 5", "DOT 4", "no")

    monkeypatch.setattr("firmlever.services.talk.plan", plan)
    found = by_key()
    assert f"front/{UNSWEPT}" in found
    assert "front/right caliper/unswept_ml" in found
    assert {one.per_cent for one in found.values()} == {0.0}


def test_bounds_and_words_are_those_of_the_circuit_file(asked: dict[str, Question]) -> None:
    one = asked["front/pot/max_ml"]
    assert (one.unit, one.low, one.high) == ("ml", 2, 500)
    assert (one.words, one.measure) == ("content at MAX", "fill it to MAX from a syringe")
    sizes = asked["front/left caliper/pistons_mm"]
    assert (sizes.unit, sizes.low, sizes.high) == ("mm", 8, 80)
    assert plan_example.bike().bike_class is BikeClass.TOURER
