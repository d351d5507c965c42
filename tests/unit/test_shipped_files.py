# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Outlines, demo workshop and odd circuits: each can be read, and says what it claims."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from firmlever.domain.circuit import Bike, BikeClass, Family, PartKind
from firmlever.domain.quantities import BIKE, LINE, SCREW, keys_of
from firmlever.domain.quantity import Exact
from firmlever.store.circuit_file.files import TomlCircuitFiles
from firmlever.store.tables import CsvTables

DATA = Path(str(files("firmlever"))) / "data"
ODD = Path(__file__).resolve().parent.parent / "data"
OUTLINES = sorted((DATA / "examples").glob("*.toml"))
DEMO = sorted((DATA / "demo").glob("*.toml"))
OTHERS = sorted(ODD.glob("**/*.toml"))

CIRCUIT_FILES = TomlCircuitFiles([grade.name for grade in CsvTables().grades()])
HINT = re.compile(r"^( *)# (\w+) =( +#.*)?$", re.MULTILINE)
PART_WORDS = {"id", "kind", "screw", "layout", "wheel", "pistons_mm"}
LINE_WORDS = {"from", "to", "material", "via"}
NOT_QUANTITIES = {"name", "class", "other_brakes"} | PART_WORDS | LINE_WORDS


def bike_of(file: Path) -> Bike:
    return CIRCUIT_FILES.read(str(file))


def kinds_and_keys(raw: Mapping[str, Any]) -> Iterator[tuple[str, set[str]]]:
    yield BIKE, set(raw["bike"])
    for circuit in raw["circuit"]:
        for part in circuit["part"]:
            yield part["kind"], set(part)
            yield from ((SCREW, set(screw)) for screw in part.get("screw", []))
        yield from ((LINE, set(line)) for line in circuit["line"])


@pytest.mark.parametrize("file", [*OUTLINES, *DEMO, *OTHERS], ids=lambda file: file.stem)
def test_the_file_can_be_read(file: Path) -> None:
    bike = bike_of(file)
    assert bike.circuits
    assert all(circuit.of_kind(PartKind.RESERVOIR) for circuit in bike.circuits)


def test_each_class_has_its_outline() -> None:
    assert {file.stem for file in OUTLINES} == set(BikeClass)
    assert all(bike_of(file).bike_class == file.stem for file in OUTLINES)


@pytest.mark.parametrize("file", OUTLINES, ids=lambda file: file.stem)
def test_an_outline_measures_nothing_but_a_pot_on_its_cylinder(file: Path) -> None:
    for circuit in bike_of(file).circuits:
        given = [part.given for part in circuit.parts]
        given += [screw.given for part in circuit.parts for screw in part.screws]
        assert all(not quantities for quantities in given)
        for line in circuit.lines:
            assert not line.given or circuit.part(line.start).kind is PartKind.RESERVOIR


@pytest.mark.parametrize("file", OUTLINES, ids=lambda file: file.stem)
def test_every_hint_of_an_outline_is_a_key_that_may_be_filled_in(file: Path) -> None:
    text = file.read_text("utf-8")
    filled_in, hints = HINT.subn(r"\1\2 = 1\3", text)
    assert hints > 10
    for kind, keys in kinds_and_keys(tomllib.loads(filled_in)):
        assert keys - NOT_QUANTITIES <= set(keys_of(kind)), kind


@pytest.mark.parametrize("file", OUTLINES, ids=lambda file: file.stem)
def test_the_circuits_of_an_outline_fall_to_the_family_of_their_name(file: Path) -> None:
    for circuit in bike_of(file).circuits:
        assert circuit.family is Family(circuit.name)


def test_the_demo_workshop_is_what_the_tour_of_it_tells() -> None:
    skerry, limpet, dunlin, marram = (
        bike_of(DATA / "demo" / f"{name}.toml") for name in ("skerry", "limpet", "dunlin", "marram")
    )
    assert len(DEMO) == 4
    assert [circuit.name for circuit in skerry.circuits] == ["front", "rear", "clutch"]
    assert skerry.circuit("front").of_kind(PartKind.MODULATOR)
    assert limpet.other_brakes == ("rear drum",)
    assert not any(part.given for part in limpet.circuit("front").parts)
    assert sum(line.start == "master" for line in dunlin.circuit("front").lines) == 2
    assert marram.bike_class is BikeClass.OFF_ROAD


@pytest.mark.parametrize("file", [*DEMO, *OTHERS], ids=lambda file: file.stem)
def test_every_measured_reservoir_lies_within_its_prior(file: Path) -> None:
    # invented and taken numbers alike stay near the priors, or one of the two is wrong
    bike = bike_of(file)
    rows = [row for row in CsvTables().priors() if (row.kind, row.key) == ("reservoir", "max_ml")]
    for circuit in bike.circuits:
        row = next(
            row
            for row in rows
            if row.family == circuit.family and bike.bike_class in (row.classes or BikeClass)
        )
        given = circuit.of_kind(PartKind.RESERVOIR)[0].given.get("max_ml")
        assert given is None or isinstance(given, Exact)
        assert given is None or row.low <= given.value <= row.high
