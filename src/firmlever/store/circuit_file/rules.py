# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What single values of a circuit file may be: each rule checks one and describes itself.

A rule is put into a Pydantic annotation. It raises all it has to say in one error
of type ``ours``, so that no wording but ours exists for single values.
"""

import math
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any, Protocol

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from firmlever.domain.quantity import Between, Exact, QuantitySpec
from firmlever.store.circuit_file.words import shown

LONGEST_TEXT = 200
UNKNOWN_FLUID = "unknown"
NOT_IN_NAMES = "/:>"

Said = tuple[str, str]
Schema = dict[str, Any]


class SayError(PydanticCustomError):
    """The one error of the rules; ``context["said"]`` lists (found, allowed)."""

    def __new__(cls, *said: Said) -> "SayError":
        """Build it from what there is to say."""
        return super().__new__(cls, "ours", "see said", {"said": said})


class Rule(Protocol):
    """Checks one value and describes itself."""

    def check(self, value: object, info: ValidationInfo) -> object:
        """Return what the value becomes, or raise `SayError`."""

    def schema(self) -> Schema:
        """Return the JSON Schema of the value."""


class _Ruled:
    """Hooks a rule into Pydantic."""

    def __get_pydantic_core_schema__(
        self: Rule, _source: object, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(
        self: Rule, _core: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> Schema:
        return self.schema()


@dataclass(frozen=True)
class TextRule(_Ruled):
    """A short line of text; a name has no marks that addresses are made with."""

    is_name: bool = False

    def check(self, value: object, _info: ValidationInfo) -> str:
        """Return the text."""
        if not isinstance(value, str):
            raise SayError((f"{shown(value)} is not text", "text in quotation marks"))
        said = tuple(text_faults(value, is_name=self.is_name))
        if said:
            raise SayError(*said)
        return value

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        barred = f"{NOT_IN_NAMES}" if self.is_name else ""
        return {
            "type": "string",
            "minLength": 1,
            "maxLength": LONGEST_TEXT,
            "pattern": rf"^[^\u0000-\u001f\u007f-\u009f{barred}]*$",
        }


def text_faults(text: str, *, is_name: bool) -> Iterator[Said]:
    """Yield what is wrong with a text."""
    if not text.strip():
        yield "the text is empty", "at least one letter or digit"
    elif text != text.strip():
        yield f"{shown(text)} starts or ends with a space", "no space at either end"
    if len(text) > LONGEST_TEXT:
        yield f"the text has {len(text)} characters", f"at most {LONGEST_TEXT} characters"
    if any(unicodedata.category(mark) in ("Cc", "Cs", "Zl", "Zp") for mark in text):
        yield f"{shown(text)} holds a control character", "plain text in one line"
    barred = [mark for mark in NOT_IN_NAMES if mark in text]
    if is_name and barred:
        yield f'{shown(text)} holds "{barred[0]}"', "a name without / : >"


@dataclass(frozen=True)
class ChoiceRule(_Ruled):
    """One of a few words."""

    choices: tuple[str, ...]
    become: Callable[[str], StrEnum] | None = None

    def check(self, value: object, _info: ValidationInfo) -> object:
        """Return the choice."""
        chosen = _choice(value, self.choices)
        return chosen if self.become is None else self.become(chosen)

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        return {"type": "string", "enum": list(self.choices)}


@dataclass(frozen=True)
class GradeRule(_Ruled):
    """A grade of fluid; which there are comes in the validation context."""

    may_be_unknown: bool = False

    def check(self, value: object, info: ValidationInfo) -> str | None:
        """Return the grade, or None when it is unknown."""
        context: dict[str, Any] = info.context or {}
        chosen = _choice(value, self.choices(context["grades"]))
        return None if chosen == UNKNOWN_FLUID else chosen

    def choices(self, grades: Sequence[str]) -> tuple[str, ...]:
        """Return what may be written."""
        return (*grades, UNKNOWN_FLUID) if self.may_be_unknown else tuple(grades)

    def schema(self) -> Schema:
        """Return the JSON Schema; the grades are put in where they are known."""
        return {"type": "string", "enum": ["grade", *([UNKNOWN_FLUID] * self.may_be_unknown)]}


@dataclass(frozen=True)
class DateRule(_Ruled):
    """A date without a time."""

    def check(self, value: object, _info: ValidationInfo) -> date:
        """Return the date."""
        if not isinstance(value, date) or isinstance(value, datetime):
            raise SayError(
                (f"{shown(value)} is not a date", "a date without quotation marks: 2024-04-20")
            )
        return value

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        return {"type": "string", "format": "date", "pattern": r"^\d{4}-\d{2}-\d{2}$"}


@dataclass(frozen=True)
class NumberRule(_Ruled):
    """A number within bounds."""

    low: float
    high: float
    unit: str

    def check(self, value: object, _info: ValidationInfo) -> float:
        """Return the number."""
        return checked_number(value, self.low, self.high, self.unit)

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        return _number_schema(self.low, self.high)


@dataclass(frozen=True)
class QuantityRule(_Ruled):
    """A number, or a range of low and high, within the bounds of its spec."""

    spec: QuantitySpec

    def check(self, value: object, _info: ValidationInfo) -> Exact | Between:
        """Return the quantity."""
        if isinstance(value, dict):
            return self._range(value)
        spec = self.spec
        return Exact(checked_number(value, spec.low, spec.high, spec.unit, may_be_range=True))

    def _range(self, table: dict[str, object]) -> Between:
        said: list[Said] = [
            (f"{shown(key)} has no place in a range", "a range has low and high")
            for key in table
            if key not in ("low", "high")
        ]
        ends: dict[str, float] = {}
        for key in ("low", "high"):
            if key not in table:
                said.append((f"the range has no {key}", "a range has low and high"))
                continue
            try:
                ends[key] = checked_number(
                    table[key], self.spec.low, self.spec.high, self.spec.unit
                )
            except SayError as error:
                said.extend((f"{key} = {found}", allowed) for found, allowed in said_by(error))
        if len(ends) == 2:
            said.extend(_misordered(ends["low"], ends["high"]))
        if said:
            raise SayError(*said)
        return Between(ends["low"], ends["high"])

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        number = _number_schema(self.spec.low, self.spec.high)
        return {
            "unit": self.spec.unit,
            "anyOf": [
                number,
                {
                    "type": "object",
                    "properties": {"low": number, "high": number},
                    "required": ["low", "high"],
                    "additionalProperties": False,
                },
            ],
        }


@dataclass(frozen=True)
class TurnsRule(_Ruled):
    """Turning points of a line: pairs of distance and height."""

    distance: NumberRule
    height: NumberRule
    most: int

    def check(self, value: object, info: ValidationInfo) -> tuple[tuple[float, float], ...]:
        """Return the turning points."""
        if not isinstance(value, list):
            raise SayError((f"{shown(value)} is not a list", "a list of [distance, height] pairs"))
        if len(value) > self.most:
            raise SayError((f"{len(value)} turning points", f"at most {self.most}"))
        said: list[Said] = []
        turns: list[tuple[float, float]] = []
        for number, pair in enumerate(value, start=1):
            if not isinstance(pair, list) or len(pair) != 2:
                said.append((f"turning point {number} is not a pair", "[distance mm, height mm]"))
                continue
            try:
                turns.append((self.distance.check(pair[0], info), self.height.check(pair[1], info)))
            except SayError as error:
                said.extend((f"turning point {number}: {f}", a) for f, a in said_by(error))
        if said:
            raise SayError(*said)
        return tuple(turns)

    def schema(self) -> Schema:
        """Return the JSON Schema."""
        return {
            "type": "array",
            "maxItems": self.most,
            "items": {
                "type": "array",
                "prefixItems": [self.distance.schema(), self.height.schema()],
                "items": False,
                "minItems": 2,
            },
        }


def said_by(error: SayError) -> tuple[Said, ...]:
    """Return what an error of a rule has to say."""
    context: dict[str, Any] = error.context or {}
    return tuple(context["said"])


def checked_number(
    value: object, low: float, high: float, unit: str, *, may_be_range: bool = False
) -> float:
    """Return a number that lies within bounds.

    Raises
    ------
    SayError
        When it is none, or lies outside.
    """
    spread = f"from {low:g} to {high:g} {unit}".rstrip()
    wanted = f"a number {spread}" + (", or { low = ..., high = ... }" if may_be_range else "")
    if isinstance(value, list) and may_be_range:
        raise SayError(("a list is never a range", wanted))
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise SayError((f"{shown(value)} is not a number", wanted))
    if isinstance(value, float) and not math.isfinite(value):
        raise SayError((f"{value} is not a finite number", wanted))
    if value < low:
        raise SayError((f"{shown(value)} is too low", spread))
    if value > high:
        raise SayError((f"{shown(value)} is too high", spread))
    return float(value)


def _misordered(low: float, high: float) -> Iterator[Said]:
    if low > high:
        yield f"low = {low:g} is above high = {high:g}", "the lower end is low"
    if low == high:
        yield f"low and high are both {low:g}", f"write {low:g} alone for an exact value"


def _choice(value: object, choices: Sequence[str]) -> str:
    if not isinstance(value, str):
        raise SayError((f"{shown(value)} is not text", "one of: " + ", ".join(choices)))
    if value not in choices:
        raise SayError((f"{shown(value)} is not known here", "one of: " + ", ".join(choices)))
    return value


def _number_schema(low: float, high: float) -> Schema:
    return {"type": "number", "minimum": low, "maximum": high}
