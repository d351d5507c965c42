# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Shapes of JSON values: each writes a value and knows its own schema, so neither drifts."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from operator import attrgetter
from typing import Any

from firmlever.units import significant

Schema = dict[str, object]


@dataclass(frozen=True, slots=True)
class Shape:
    """How a value is written and what a reader may expect."""

    write: Callable[[Any], object]
    schema: Schema


def _number(value: float) -> float:
    return significant(value) + 0.0


def _day(value: date) -> str:
    return value.isoformat()


NUMBER = Shape(_number, {"type": "number"})
WHOLE = Shape(int, {"type": "integer"})
TEXT = Shape(str, {"type": "string"})
YES_NO = Shape(bool, {"type": "boolean"})
DAY = Shape(_day, {"type": "string", "format": "date"})


def constant(value: object) -> Shape:
    """A value that never changes."""
    return Shape(lambda _: value, {"const": value})


def or_null(shape: Shape) -> Shape:
    """The shape, or null where there is none."""
    return Shape(
        lambda value: None if value is None else shape.write(value),
        {"anyOf": [shape.schema, {"type": "null"}]},
    )


def list_of(shape: Shape) -> Shape:
    """A list, every item of the same shape."""
    return Shape(
        lambda values: [shape.write(value) for value in values],
        {"type": "array", "items": shape.schema},
    )


def map_of(shape: Shape) -> Shape:
    """An object with names of the machine as keys, every value of the same shape."""
    return Shape(
        lambda values: {name: shape.write(value) for name, value in values.items()},
        {"type": "object", "additionalProperties": shape.schema},
    )


def record(*fields: tuple[str, Shape] | tuple[str, Shape, str]) -> Shape:
    """An object with fixed keys: each key, its shape, and the attribute where it differs.

    An attribute of "" hands the whole value on.
    """
    readers = [(key, shape, _reader(rest[0] if rest else key)) for key, shape, *rest in fields]
    return Shape(
        lambda value: {key: shape.write(read(value)) for key, shape, read in readers},
        {
            "type": "object",
            "properties": {key: shape.schema for key, shape, _ in readers},
            "required": [key for key, _, _ in readers],
            "additionalProperties": False,
        },
    )


def _reader(attribute: str) -> Callable[[Any], Any]:
    return attrgetter(attribute) if attribute else lambda value: value


BAND = record(("p05", NUMBER), ("p50", NUMBER), ("p95", NUMBER))
COUNT = record(("p05", WHOLE), ("p50", WHOLE), ("p95", WHOLE))
