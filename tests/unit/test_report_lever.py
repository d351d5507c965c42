# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A lever test as a document and as a page."""

import json
from dataclasses import fields, replace
from pathlib import Path

import jsonschema

from firmlever.domain.lever import LeverTest
from firmlever.report.json import lever_json, lever_schema
from firmlever.report.layout import COLUMNS, width
from firmlever.report.lever_text import lever_page
from snapshot import same_as_kept
from unit.lever_example import lever_test


def test_a_lever_test_keeps_its_document() -> None:
    text = lever_json(lever_test())
    assert {field.name for field in fields(LeverTest)} | {"format", "kind"} == set(json.loads(text))
    same_as_kept("lever.json", text)


def test_the_schema_takes_a_lever_test_and_refuses_a_damaged_one() -> None:
    schema = lever_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    check = jsonschema.Draft202012Validator(schema)
    document = json.loads(lever_json(lever_test()))
    check.validate(document)
    check.validate(json.loads(lever_json(replace(lever_test(), left_ml=None, next_sets=()))))
    for damage in ({"kind": "plan"}, {"air_ml": None}, {"surplus": 1}, {"together": "much"}):
        assert not check.is_valid({**document, **damage}), damage


def test_every_key_is_in_the_reference(root: Path) -> None:
    page = (root / "docs" / "reference" / "lever-test.md").read_text(encoding="utf-8")
    keys = json.loads(lever_json(lever_test())).keys()
    assert not [key for key in keys if f"`{key}`" not in page]


def test_a_lever_test_as_a_page() -> None:
    page = lever_page(lever_test())
    assert [line.text for line in page if width(line.text) > COLUMNS] == []
    same_as_kept("lever.txt", "".join(f"{line.text}\n" for line in page))


def test_what_there_is_not_has_no_heading() -> None:
    bare = replace(lever_test(), cannot_tell=(), next_sets=(), assumed=(), sources=())
    words = "\n".join(line.text for line in lever_page(bare))
    for heading in ("cannot tell", "would tell more", "Assumed", "Sources"):
        assert heading not in words
        assert heading in "\n".join(line.text for line in lever_page(lever_test()))
