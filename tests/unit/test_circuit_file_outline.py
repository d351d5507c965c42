# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A machine known by its looks becomes a sound circuit file that says what to fill in."""

from dataclasses import replace
from importlib.resources import files
from itertools import product

import pytest

from firmlever.domain.circuit import Bike, BikeClass, Circuit, Layout, PartKind
from firmlever.domain.machine import FORKS, Outline
from firmlever.errors import ImpossibleOptionError, UnknownNameError
from firmlever.store.circuit_file import TomlCircuitFiles
from firmlever.store.circuit_file.write import with_name
from unit.circuit_file_texts import GRADES

FILES = TomlCircuitFiles((*GRADES, "ISO 6", "ISO 7"))
TWIN = Outline("Fulmar", BikeClass.NAKED)


def described(outline: Outline) -> Bike:
    return FILES.parse("Fulmar", FILES.outline(outline))


def front(outline: Outline) -> Circuit:
    return described(outline).circuit("front")


def lines(circuit: Circuit) -> list[str]:
    return [f"{line.start} > {line.end}" for line in circuit.lines]


@pytest.mark.parametrize("bike_class", BikeClass)
def test_a_class_alone_gives_the_machine_of_its_example(bike_class: BikeClass) -> None:
    example = files("firmlever").joinpath("data", "examples", f"{bike_class}.toml")
    text = with_name(example.read_text("utf-8"), "Fulmar “7”")
    assert described(Outline("Fulmar “7”", bike_class)) == FILES.parse("example", text)


def test_every_outline_is_a_sound_machine() -> None:
    """Independent: what was asked for is read back from the text."""
    yes_no = (None, True, False)
    for bike_class, discs, layout, abs_unit, rear, clutch in product(
        (BikeClass.SMALL, BikeClass.SPORT), (None, 1, 2), (None, *Layout), yes_no, yes_no, yes_no
    ):
        outline = Outline("Fulmar", bike_class, discs, layout, None, abs_unit, rear, clutch)
        bike = described(outline)
        calipers = bike.circuit("front").of_kind(PartKind.CALIPER)
        assert discs in (None, len(calipers))
        assert layout in (None, calipers[0].layout)
        assert abs_unit in (None, bool(bike.circuit("front").of_kind(PartKind.MODULATOR)))
        names = [circuit.name for circuit in bike.circuits]
        assert rear in (None, "rear" in names)
        assert clutch in (None, "clutch" in names)
        assert bike.other_brakes == (() if "rear" in names else ("rear drum",))


@pytest.mark.parametrize(
    ("fork", "abs_unit", "expected"),
    [
        (
            "splitter",
            False,
            [
                "pot > master",
                "master > splitter",
                "splitter > left caliper",
                "splitter > right caliper",
            ],
        ),
        (
            "double banjo",
            False,
            ["pot > master", "master > right caliper", "master > left caliper"],
        ),
        (
            "double banjo",
            True,
            [
                "pot > master",
                "master > abs unit",
                "abs unit > right caliper",
                "abs unit > left caliper",
            ],
        ),
        (
            "caliper to caliper",
            False,
            ["pot > master", "master > right caliper", "right caliper > left caliper"],
        ),
    ],
)
def test_the_line_divides_as_it_was_seen(fork: str, abs_unit: bool, expected: list[str]) -> None:
    assert fork in FORKS
    assert lines(front(replace(TWIN, fork=fork, abs_unit=abs_unit))) == expected


def test_a_drum_stands_among_the_other_brakes() -> None:
    bike = described(replace(TWIN, front_discs=0, rear_disc=False, hydraulic_clutch=True))
    assert bike.other_brakes == ("front drum", "rear drum")
    assert [circuit.name for circuit in bike.circuits] == ["clutch"]


def test_the_fluid_on_the_cover_is_asked_for_and_not_taken_to_be_in_there() -> None:
    fluid = front(replace(TWIN, fluid="DOT 5.1")).fluid
    assert (fluid.required, fluid.filled) == (("DOT 5.1",), None)
    assert front(TWIN).fluid.required == ("DOT 4",)


@pytest.mark.parametrize(
    ("outline", "said"),
    [
        (replace(TWIN, name=" "), "the name cannot be used: the text is empty"),
        (replace(TWIN, front_discs=3), "front_discs cannot be 3; 0, 1 or 2"),
        (
            replace(TWIN, fork="spliter"),
            "there is no fork called “spliter”; did you mean “splitter”?",
        ),
        (
            replace(TWIN, front_discs=1, fork="splitter"),
            "fork cannot be “splitter” here; only a line to two front calipers divides",
        ),
        (replace(TWIN, fluid="DOT 9"), "there is no fluid called “DOT 9”"),
        (
            replace(TWIN, front_discs=0, rear_disc=False),
            (
                "the machine cannot be without a disc and without a hydraulic clutch; nothing in "
                "it holds fluid that could be changed"
            ),
        ),
    ],
)
def test_looks_that_fit_no_machine(outline: Outline, said: str) -> None:
    with pytest.raises((ImpossibleOptionError, UnknownNameError)) as refused:
        FILES.outline(outline)
    assert str(refused.value).startswith(said)


def test_every_value_left_out_is_named_where_it_belongs() -> None:
    text = FILES.outline(TWIN)
    for key in ("max_ml", "bore_mm", "pistons_mm", "pad_mm", "length_mm", "hex_mm", "mass_kg"):
        assert f"# {key} = " in text
    assert max(len(line) for line in text.splitlines()) <= 102
