# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
import json
from collections.abc import Iterator
from dataclasses import fields, replace
from pathlib import Path

import jsonschema
import pytest

from firmlever.domain.plan import FlushPlan
from firmlever.domain.quantity import Band
from firmlever.report.description_text import check_json
from firmlever.report.json import plan_json, plan_schema, schema_json
from snapshot import same_as_kept
from unit import plan_example

# the result contract of the design: these keys, first, in this order
CONTRACT = (
    "format", "kind", "bike", "circuit", "on", "work", "method", "left_old", "points",
    "reservoir", "through_ml", "pots_min_max", "buy_ml", "order_reason", "assumed", "narrow",
    "cautions", "sources",
)  # fmt: skip
POINT_CONTRACT = ("at", "volume_ml", "strokes", "topups", "minutes", "posture")


def test_a_plan_keeps_the_contract_and_the_snapshot() -> None:
    text = plan_json(plan_example.plan(findings=("the fluid is six years old",)))
    document = json.loads(text)
    assert tuple(document)[: len(CONTRACT)] == CONTRACT
    assert tuple(document["points"][0])[: len(POINT_CONTRACT)] == POINT_CONTRACT
    assert tuple(document["left_old"])[:3] == ("whole", "after_mixing", "parts")
    assert tuple(document["reservoir"])[:3] == ("usable_ml", "strokes_to_min", "fill_to_ml")
    assert tuple(document["assumed"][0])[:4] == ("name", "low", "high", "basis")
    assert tuple(document["narrow"][0])[:2] == ("name", "per_cent")
    same_as_kept("plan.json", text)


def test_every_field_of_a_plan_is_in_its_document() -> None:
    assert {field.name for field in fields(FlushPlan)} <= set(
        json.loads(plan_json(plan_example.plan()))
    )


def test_the_same_plan_gives_the_same_ascii_bytes() -> None:
    odd = replace(plan_example.plan(), bike="Möwe 前")
    assert plan_json(odd) == plan_json(replace(plan_example.plan(), bike="Möwe 前"))
    assert plan_json(odd).isascii()
    assert json.loads(plan_json(odd))["bike"] == "Möwe 前"


def test_numbers_carry_four_digits_and_no_minus_zero() -> None:
    plan = replace(plan_example.plan(), through_ml=Band(-1e-300 * 1e-300, 123.456, 1234567.0))
    document = json.loads(plan_json(plan))
    assert document["through_ml"] == {"p05": 0.0, "p50": 123.5, "p95": 1235000.0}
    assert "-0.0" not in plan_json(plan)


def test_no_number_is_refused_rather_than_written() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        plan_json(replace(plan_example.plan(), minutes=Band(0.0, float("nan"), 1.0)))


def test_the_schema_takes_a_plan_and_refuses_a_damaged_one() -> None:
    schema = plan_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    check = jsonschema.Draft202012Validator(schema)
    document = json.loads(plan_json(plan_example.plan()))
    check.validate(document)
    bare = replace(plan_example.plan(), points=(), tools=(), assumed=(), narrow=())
    check.validate(json.loads(plan_json(bare)))
    for damage in ({"kind": "check"}, {"buy_ml": 2.5}, {"surplus": 1}, {"minutes": {"p50": 1}}):
        assert not check.is_valid({**document, **damage}), damage
    assert not check.is_valid({key: document[key] for key in document if key != "cautions"})
    assert json.loads(schema_json(schema)) == schema


def test_every_key_is_in_the_reference(root: Path) -> None:
    page = (root / "docs" / "reference" / "result.md").read_text(encoding="utf-8")
    missing = [key for key in _keys(plan_schema()) if f"`{key}`" not in page]
    assert [key for key in missing if key not in ("p05", "p50", "p95")] == []


def _keys(schema: object) -> Iterator[str]:
    """Every key that a schema names, at any depth."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {})
    for inner in schema.values() if isinstance(schema, dict) else ():
        for entry in inner if isinstance(inner, list) else [inner]:
            yield from _keys(entry)


def test_a_check_says_how_much_is_known() -> None:
    # derived: counted by hand from the example and the table of quantities
    assert json.loads(check_json(plan_example.bike())) == {
        "format": 1,
        "kind": "check",
        "bike": "Skerry 1100",
        "class": "tourer",
        "circuits": [
            {"name": "front", "control": "lever", "family": "front",
             "known": 13, "of": 52, "as_a_range": 1},
            {"name": "rear", "control": "pedal", "family": "rear",
             "known": 0, "of": 26, "as_a_range": 0},
        ],
    }  # fmt: skip
