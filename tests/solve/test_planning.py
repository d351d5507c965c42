# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which wishes are met, and in which words the others are refused."""

from datetime import date

import pytest

from firmlever.domain.circuit import Bike
from firmlever.domain.tables import Method, Work
from firmlever.errors import (
    FluidRefusedError,
    ImpossibleOptionError,
    InputError,
    MethodRefusedError,
    UnknownNameError,
)
from solve.machines import asked, demo, job, tourer, with_fluid

GRADES = (
    "DOT 3, DOT 4, DOT 5.1, DOT 5, ISO 3, ISO 4, ISO 5-1, ISO 6, ISO 7, JIS BF-3, JIS BF-4, "
    "JIS BF-5, JIS BF-6, mineral oil"
)
LEVER_TECHNIQUES = "close before release, half turn and wait, one-way tube, open tube under fluid"
SILICONE = (
    "silicone and glycol fluid do not mix; the two layers hold air and water, the lever feels "
    "poor, and nobody can vouch for the brake; changing over means stripping and cleaning every "
    "part and new seals, and silicone is not for a circuit with an ABS unit"
)
LOWER_GRADE = (
    "the maker asks for DOT 4 or better, and DOT 3 may boil sooner; vapour gives way under the "
    "lever and the brake is gone"
)
TARGET = "it is the share of new fluid at the screw, 0.5 to 0.995"
DEGC = "it is in °C, -20 to 50"
UP_TO_THE_MASTER = "and it would carry its dirt up to the master"

REFUSALS: list[tuple[dict[str, object], type[InputError], str]] = [
    (
        {"work": Work.BLEED},
        ImpossibleOptionError,
        "--work cannot be bleed; this version plans a flush or a fill",
    ),
    ({"target": 0.49}, ImpossibleOptionError, f"--target cannot be 0.49; {TARGET}"),
    ({"target": 0.996}, ImpossibleOptionError, f"--target cannot be 0.996; {TARGET}"),
    ({"target": float("nan")}, ImpossibleOptionError, f"--target cannot be nan; {TARGET}"),
    ({"workshop_degc": -20.5}, ImpossibleOptionError, f"--workshop cannot be -20.5; {DEGC}"),
    ({"workshop_degc": 51.0}, ImpossibleOptionError, f"--workshop cannot be 51; {DEGC}"),
    ({"seed": -1}, ImpossibleOptionError, "--seed cannot be -1; it is a whole number from 0 on"),
    (
        {"circuit": "fornt"},
        UnknownNameError,
        "there is no circuit called “fornt”; did you mean “front”? Known: front, rear, clutch",
    ),
    (
        {"technique": "hand pump"},
        UnknownNameError,
        f"there is no lever technique called “hand pump”. Known: {LEVER_TECHNIQUES}",
    ),
    (
        {"fluid": "DOT 9"},
        UnknownNameError,
        f"there is no fluid called “DOT 9”; did you mean “DOT 5”? Known: {GRADES}",
    ),
    (
        {"fluid": "DOT 5"},
        FluidRefusedError,
        f"DOT 5 must not go into a circuit with DOT 4: {SILICONE}",
    ),
    (
        {"fluid": "DOT 3"},
        FluidRefusedError,
        f"DOT 3 must not go into a circuit with DOT 4: {LOWER_GRADE}",
    ),
    (
        {"method": Method.REVERSE},
        MethodRefusedError,
        "a reverse flush is refused here: it pushes what lies in the caliper up into the ABS unit",
    ),
]


@pytest.mark.parametrize(("wishes", "kind", "words"), REFUSALS, ids=lambda each: str(each)[:40])
def test_a_wish_is_refused_word_for_word(
    wishes: dict[str, object], kind: type[InputError], words: str
) -> None:
    with pytest.raises(kind) as refused:
        asked(tourer(), **{"circuit": "front"} | wishes)  # type: ignore[arg-type]
    assert str(refused.value) == words


@pytest.mark.parametrize(
    "wishes",
    [
        {"target": 0.5},
        {"target": 0.995},
        {"workshop_degc": -20.0},
        {"workshop_degc": 50.0},
        {"seed": 0},
    ],
    ids=str,
)
def test_the_ends_of_what_may_be_asked_are_taken(wishes: dict[str, object]) -> None:
    assert job(tourer(), "front", **wishes).circuit.name == "front"


def test_the_first_technique_and_the_first_grade_are_the_usual_ones() -> None:
    usual = job(tourer(), "front")
    assert (usual.technique.name, usual.grade.name) == ("close before release", "DOT 4")
    other = job(tourer(), "front", method=Method.VACUUM, technique="steady pump", fluid="DOT 5.1")
    assert (other.technique.name, other.grade.name) == ("steady pump", "DOT 5.1")


def single() -> Bike:
    """A machine without an ABS unit whose fluid a test may choose."""
    return demo("Dunlin 650")


@pytest.mark.parametrize(
    ("known", "why"),
    [
        ({"filled_on": date(2025, 4, 30)}, "the fluid is over a year old"),
        ({"filled_on": None}, "nobody knows how old the fluid is"),
        ({"filled": None}, "nobody knows how old the fluid is"),
    ],
    ids=str,
)
def test_dirty_fluid_is_not_pushed_upwards(known: dict[str, object], why: str) -> None:
    bike = with_fluid(single(), "front", **known)
    with pytest.raises(MethodRefusedError) as refused:
        job(bike, "front", method=Method.REVERSE)
    assert str(refused.value) == f"a reverse flush is refused here: {why}, {UP_TO_THE_MASTER}"
    offered = {time.method: time for time in asked(bike, "front").methods}
    assert [method for method, time in offered.items() if not time.allowed] == [Method.REVERSE]
    assert offered[Method.REVERSE].reason == f"{why}, {UP_TO_THE_MASTER}"


def test_fluid_a_year_old_to_the_day_may_be_pushed_upwards() -> None:
    bike = with_fluid(single(), "front", filled_on=date(2025, 5, 1))
    assert job(bike, "front", method=Method.REVERSE).technique.name == "syringe at the screw"


def test_a_circuit_that_asks_for_nothing_needs_a_fluid_named() -> None:
    bare = with_fluid(single(), "front", required=(), filled=None)
    with pytest.raises(ImpossibleOptionError) as refused:
        job(bare, "front")
    assert str(refused.value) == (
        "--fluid cannot be left out here; the file does not say what the maker asks for: name it"
    )
    assert job(bare, "front", fluid="DOT 4").grade.name == "DOT 4"


def test_what_is_in_there_goes_in_again_where_nobody_asks_for_more() -> None:
    assert job(with_fluid(single(), "front", required=(), filled="DOT 5"), "front").grade.name == (
        "DOT 5"
    )


def test_fluid_of_another_kind_in_there_is_found_out() -> None:
    odd = with_fluid(single(), "front", required=("DOT 4",), filled="DOT 5")
    with pytest.raises(FluidRefusedError) as refused:
        job(odd, "front")
    assert str(refused.value) == f"DOT 4 must not go into a circuit with DOT 5: {SILICONE}"


def test_what_to_mind_about_the_fluid_comes_before_the_usual_cautions() -> None:
    unknown = asked(with_fluid(single(), "front", filled=None), "front").cautions
    usual = asked(with_fluid(single(), "front"), "front").cautions
    assert unknown[0].startswith("nobody knows what is in there: read the cap")
    assert unknown[1:] == usual
