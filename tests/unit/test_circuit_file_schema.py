# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The JSON Schema says the same as the reader, as far as a schema can."""

import copy
import math
import tomllib
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counts import examples
from firmlever.domain.quantities import SPECS
from firmlever.domain.quantity import Between, Exact
from firmlever.store.circuit_file import TomlCircuitFiles, models
from firmlever.store.circuit_file.models import Document
from firmlever.store.circuit_file.read import _format_faults
from firmlever.store.circuit_file.rules import QuantityRule, SayError
from unit.circuit_file_texts import GRADES, PACKAGED, SHORT
from unit.random_toml import TABLES

ALL_GRADES = (*GRADES, "ISO 6", "ISO 7")
SCHEMA: Any = TomlCircuitFiles(ALL_GRADES).schema()
VALIDATOR = jsonschema.Draft202012Validator(
    SCHEMA, format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
)
KEPT = Path(__file__).parents[1] / "formats" / "circuit_format_1.toml"


def as_json(value: Any) -> Any:
    """Return what a JSON document would hold for a TOML value."""
    if isinstance(value, dict):
        return {key: as_json(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_json(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value


def schema_takes(raw: Any) -> bool:
    return bool(VALIDATOR.is_valid(as_json(raw)))


def reader_takes(raw: Any) -> bool:
    if list(_format_faults(raw)):
        return False
    try:
        Document.model_validate(raw, context={"grades": ALL_GRADES})
    except ValueError:
        return False
    return True


def test_schema_is_a_schema_of_the_dialect_it_names() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("file", [*PACKAGED, KEPT], ids=lambda file: file.stem)
def test_files_fit_the_schema(file: Path) -> None:
    VALIDATOR.validate(as_json(tomllib.loads(file.read_text("utf-8"))))


def test_every_quantity_is_described_with_its_unit_and_bounds() -> None:
    tables = {**models.PART_MODELS, "bike": models.Bike}
    tables |= {"line": models.Line, "screw": models.Screw}
    for spec in SPECS:
        told = SCHEMA["$defs"][tables[spec.kind].__name__]["properties"][spec.key]
        assert (told["title"], told["unit"]) == (spec.words, spec.unit)
        assert told["description"] == f"to find out: {spec.measure}"
        number = {"type": "number", "minimum": spec.low, "maximum": spec.high}
        assert told["anyOf"][0] == number


def test_every_key_has_a_title_and_no_default_that_cannot_be_written() -> None:
    for table in (*SCHEMA["$defs"].values(), SCHEMA):
        for told in table["properties"].values():
            assert told.get("title")
            assert told.get("default", "") is not None


def test_grades_are_those_of_the_table() -> None:
    fluid = SCHEMA["$defs"]["FluidTable"]["properties"]
    assert fluid["required"]["items"]["enum"] == list(ALL_GRADES)
    assert fluid["filled"]["enum"] == [*ALL_GRADES, "unknown"]


ODD = (
    st.sampled_from([-1, 0, 1, 3.5, 1e9, True, "", " a", "a/b", "a" * 201, "DOT 4", "unknown"])
    | st.sampled_from([date(2024, 4, 20), [], {}, [1], [[300, 900]], [[1, 2, 3]], [{}]])
    | st.sampled_from([{"low": 9, "high": 11}, {"low": -1, "high": 1}, {"low": 1, "hi": 2}])
    | st.integers(-10, 3000)
    | TABLES
)


def spots(value: Any) -> Iterator[tuple[Any, Any]]:
    """Yield every (container, key) of a document."""
    keys = list(value) if isinstance(value, dict) else range(len(value))
    for key in keys:
        yield value, key
        if isinstance(value[key], dict | list):
            yield from spots(value[key])


DOCUMENTS = [tomllib.loads(text) for text in (SHORT, KEPT.read_text("utf-8"))]


@settings(deadline=None, max_examples=examples(100))
@given(st.data())
def test_what_the_reader_takes_the_schema_takes(data: Any) -> None:
    raw = copy.deepcopy(data.draw(st.sampled_from(DOCUMENTS)))
    container, key = data.draw(st.sampled_from(list(spots(raw))))
    if data.draw(st.booleans()):
        container[key] = data.draw(ODD)
    elif isinstance(container, dict):
        container[data.draw(st.sampled_from(["id", "max_ml", "wheel", "zzz"]))] = data.draw(ODD)
    assert schema_takes(raw) or not reader_takes(raw)


def broken(**changes: Any) -> dict[str, Any]:
    """Return the short document with values put in, by their path."""
    raw = copy.deepcopy(DOCUMENTS[0])
    for path, value in changes.items():
        here: Any = raw
        *way, last = path.split("__")
        for step in way:
            here = here[int(step) if step.isdigit() else step]
        here[last] = value
    return raw


POT = "circuit__0__part__0__"


@pytest.mark.parametrize(
    "raw",
    [
        {},
        {"format": 1},
        broken(format=2),
        broken(zzz=1),
        broken(disc=[]),
        broken(bike__class="moped"),
        broken(bike__name=""),
        broken(bike__name="a\tb"),
        broken(circuit=[]),
        broken(circuit__0__name="a/b"),
        broken(circuit__0__control=3),
        broken(circuit__0__fluid__filled="water"),
        broken(circuit__0__fluid__filled_on="yesterday"),
        broken(circuit__0__fluid__filled_on="2024-13-45"),
        broken(**{POT + "kind": "pump"}),
        broken(**{POT + "bore_mm": 12}),
        broken(**{POT + "max_ml": True}),
        broken(**{POT + "max_ml": "38"}),
        broken(**{POT + "max_ml": 501}),
        broken(**{POT + "max_ml": 1.9}),
        broken(**{POT + "max_ml": [10, 20]}),
        broken(**{POT + "max_ml": {"low": 10}}),
        broken(**{POT + "max_ml": {"low": 10, "high": 501}}),
        broken(**{POT + "max_ml": {"low": 10, "high": 20, "mid": 15}}),
        broken(circuit__0__part__2__pistons_mm=[]),
        broken(circuit__0__part__2__wheel="middle"),
        broken(circuit__0__line__0__via=[[1, 2, 3]]),
        broken(circuit__0__line__0__via=[[1]]),
    ],
    ids=range(28),
)
def test_what_the_schema_refuses_the_reader_refuses(raw: dict[str, Any]) -> None:
    assert not schema_takes(raw)
    assert not reader_takes(raw)


@given(st.sampled_from(SPECS), st.floats(allow_nan=False), st.booleans())
def test_bounds_are_the_same_for_both(spec: Any, value: float, is_range: bool) -> None:
    model = {**models.PART_MODELS, "line": models.Line, "screw": models.Screw}.get(spec.kind)
    if model is None:
        return
    inside = spec.low <= value <= spec.high
    written = {"low": value, "high": value} if is_range else value
    told = SCHEMA["$defs"][model.__name__]["properties"][spec.key]
    assert jsonschema.Draft202012Validator(told).is_valid(written) == inside


@pytest.mark.parametrize("spec", SPECS, ids=lambda spec: f"{spec.kind} {spec.key}")
def test_the_bounds_themselves_are_allowed_and_nothing_past_them(spec: Any) -> None:
    rule = QuantityRule(spec)
    info: Any = None
    assert rule.check(spec.low, info) == Exact(spec.low)
    assert rule.check({"low": spec.low, "high": spec.high}, info) == Between(spec.low, spec.high)
    for past in (math.nextafter(spec.low, -math.inf), math.nextafter(spec.high, math.inf)):
        with pytest.raises(SayError):
            rule.check(past, info)
