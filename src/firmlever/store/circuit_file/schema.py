# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The JSON Schema of circuit file format 1, taken from the models."""

from collections.abc import Sequence
from typing import Any

from firmlever.store.circuit_file.models import Document
from firmlever.store.circuit_file.rules import GradeRule

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def circuit_schema(grades: Sequence[str]) -> dict[str, object]:
    """Return the schema with the grades of fluid that are known.

    It cannot say everything: what only shows between keys (low above high, a loop, a
    name that leads nowhere) is left to the reader.
    """
    schema = Document.model_json_schema()
    fluid = schema["$defs"]["FluidTable"]["properties"]
    fluid["required"]["items"]["enum"] = list(GradeRule().choices(grades))
    fluid["filled"]["enum"] = list(GradeRule(may_be_unknown=True).choices(grades))
    return {
        "$schema": DIALECT,
        **_without_null_defaults(schema),
        "title": "circuit file, format 1",
    }


def _without_null_defaults(node: Any) -> Any:  # noqa: ANN401
    """Drop ``default: null``: a file leaves a key out, it has no word for nothing."""
    if isinstance(node, dict):
        return {
            key: _without_null_defaults(value)
            for key, value in node.items()
            if not (key == "default" and value is None)
        }
    if isinstance(node, list):
        return [_without_null_defaults(item) for item in node]
    return node
