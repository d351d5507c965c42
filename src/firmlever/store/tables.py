# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The data tables of the package, read from their CSV files and checked strictly."""

import csv
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from enum import StrEnum
from functools import cached_property
from importlib.resources import files
from importlib.resources.abc import Traversable
from itertools import combinations
from typing import TypeVar

from firmlever.domain.circuit import BikeClass, Family
from firmlever.domain.tables import Basis, FluidBase, FluidGrade, Method, Prior, Technique, Work
from firmlever.errors import DamagedTableError, Problem
from firmlever.units import to_si

ANY_FAMILY = "any"
CLASS_MARK = ";"
STEP_MARK = " | "
FAMILIES = (*Family, ANY_FAMILY)
BACK_SUCTION = ("none", "possible", "likely")
_RANGES = ("delivered", "seconds", "drive_kpa", "air_held")

Record = TypeVar("Record")
Choice = TypeVar("Choice", bound=StrEnum)


class CsvTables:
    """The port ``Tables`` on the CSV files of the package.

    ``folder`` stands in for the package's own folder of data.
    """

    def __init__(self, folder: Traversable | None = None) -> None:
        self._folder = folder or files("firmlever").joinpath("data")

    def priors(self) -> Sequence[Prior]:
        """Class priors, most special rows first.

        Raises
        ------
        DamagedTableError
            When the file is not as it was shipped.
        """
        return self._priors

    def grades(self) -> Sequence[FluidGrade]:
        """Fluid grades.

        Raises
        ------
        DamagedTableError
            When the file is not as it was shipped.
        """
        return self._grades

    def techniques(self) -> Sequence[Technique]:
        """Ways of working each method; the first of a method is its default.

        Raises
        ------
        DamagedTableError
            When the file is not as it was shipped.
        """
        return self._techniques

    @cached_property
    def _priors(self) -> tuple[Prior, ...]:
        priors = _read(self._folder, "priors.csv", _columns(Prior), _prior, _same_prior)
        return tuple(sorted(priors, key=lambda row: (row.family == ANY_FAMILY, not row.classes)))

    @cached_property
    def _grades(self) -> tuple[FluidGrade, ...]:
        return _read(self._folder, "grades.csv", _columns(FluidGrade), _grade, _same_grade)

    @cached_property
    def _techniques(self) -> tuple[Technique, ...]:
        return _read(
            self._folder, "techniques.csv", _columns(Technique), _technique, _same_technique
        )


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of a table; faults of its cells gather in ``problems``."""

    line: int
    cells: Mapping[str, str]
    problems: list[Problem] = field(default_factory=list)

    def fault(self, column: str, found: str, allowed: str) -> None:
        self.problems.append(Problem(self.line, column, found, allowed))

    def text(self, column: str) -> str:
        return self.cells[column].strip()

    def word(self, column: str) -> str:
        word = self.text(column)
        if not word:
            self.fault(column, "empty", "it must not be")
        return word

    def one_of(self, column: str, known: Iterable[str]) -> str:
        word = self.text(column)
        if word not in known:
            self.fault(column, f"“{word}”", f"one of {', '.join(known)}")
        return word

    def choice(self, column: str, kind: type[Choice]) -> Choice:
        word = self.one_of(column, tuple(kind))
        return kind(word) if word in tuple(kind) else next(iter(kind))

    def choices(self, column: str, kind: type[Choice], mark: str) -> tuple[Choice, ...]:
        words = self.many(column, mark)
        wrong = [word for word in words if word not in tuple(kind)]
        if wrong or not words:
            found = f"“{wrong[0]}”" if wrong else "empty"
            self.fault(column, found, f"one or several of {', '.join(kind)}")
            return ()
        return tuple(kind(word) for word in words)

    def many(self, column: str, mark: str) -> tuple[str, ...]:
        text = self.text(column)
        return tuple(part.strip() for part in text.split(mark)) if text else ()

    def unit(self, column: str) -> str:
        unit = self.text(column)
        try:
            to_si(0.0, unit)
        except KeyError:
            self.fault(column, f"“{unit}”", "a unit known to firmlever")
        return unit

    def number(self, column: str) -> float:
        text = self.text(column)
        try:
            number = float(text)
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            self.fault(column, f"“{text}”", "a number")
        return number

    def number_or_none(self, column: str) -> float | None:
        return self.number(column) if self.text(column) else None

    def whole(self, column: str) -> int:
        number = self.number(column)
        if math.isfinite(number) and number != int(number):
            self.fault(column, f"“{self.text(column)}”", "a whole number")
        return int(number) if math.isfinite(number) else 0

    def band(self, low: str, high: str) -> tuple[float, float]:
        pair = self.number(low), self.number(high)
        if pair[0] > pair[1]:
            self.fault(low, f"{self.text(low)} above {self.text(high)}", f"at most {high}")
        return pair

    def band_or_none(self, low: str, high: str) -> tuple[float, float] | None:
        return self.band(low, high) if self.text(low) or self.text(high) else None


def _prior(row: _Row) -> Prior:
    classes = row.many("classes", CLASS_MARK)
    for name in classes:
        if name not in tuple(BikeClass):
            row.fault("classes", f"“{name}”", f"some of {', '.join(BikeClass)}")
    low, high = row.band("low", "high")
    return Prior(
        kind=row.word("kind"),
        key=row.word("key"),
        family=row.one_of("family", FAMILIES),
        classes=classes,
        unit=row.unit("unit"),
        low=low,
        high=high,
        basis=row.choice("basis", Basis),
        source=row.word("source"),
        note=row.text("note"),
    )


def _grade(row: _Row) -> FluidGrade:
    return FluidGrade(
        name=row.word("name"),
        base=row.choice("base", FluidBase),
        rank=row.whole("rank"),
        dry_boiling_min_degc=row.number_or_none("dry_boiling_min_degc"),
        wet_boiling_min_degc=row.number_or_none("wet_boiling_min_degc"),
        cold_viscosity_max_mm2_s=row.number_or_none("cold_viscosity_max_mm2_s"),
        hot_viscosity_min_mm2_s=row.number_or_none("hot_viscosity_min_mm2_s"),
        typical_cold_viscosity_mm2_s=row.number("typical_cold_viscosity_mm2_s"),
        typical_hot_viscosity_mm2_s=row.number("typical_hot_viscosity_mm2_s"),
        density_kg_m3=row.number("density_kg_m3"),
        expansion_1_k=row.number("expansion_1_k"),
        air_held=row.band("air_held_low", "air_held_high"),
        basis=row.choice("basis", Basis),
        source=row.word("source"),
    )


def _technique(row: _Row) -> Technique:
    row.word("steps")
    return Technique(
        method=row.choice("method", Method),
        name=row.word("name"),
        works=row.choices("works", Work, STEP_MARK),
        delivered=row.band_or_none("delivered_low", "delivered_high"),
        seconds=row.band_or_none("seconds_low", "seconds_high"),
        drive_kpa=row.band_or_none("drive_kpa_low", "drive_kpa_high"),
        back_suction=row.one_of("back_suction", BACK_SUCTION),
        steps=row.many("steps", STEP_MARK),
        basis=row.choice("basis", Basis),
        source=row.word("source"),
    )


def _same_prior(one: Prior, other: Prior) -> bool:
    if (one.kind, one.key, one.family) != (other.kind, other.key, other.family):
        return False
    if one.classes and other.classes:
        return not set(one.classes).isdisjoint(other.classes)
    return one.classes == other.classes


def _same_grade(one: FluidGrade, other: FluidGrade) -> bool:
    return one.name == other.name


def _same_technique(one: Technique, other: Technique) -> bool:
    return (one.method, one.name) == (other.method, other.name)


def _columns(record: type[Prior] | type[FluidGrade] | type[Technique]) -> tuple[str, ...]:
    """Return the columns of a record; a range has one for each end."""
    names = (one.name for one in fields(record))
    return tuple(
        column
        for name in names
        for column in ((f"{name}_low", f"{name}_high") if name in _RANGES else (name,))
    )


def _read(
    folder: Traversable,
    table: str,
    columns: tuple[str, ...],
    build: Callable[[_Row], Record],
    same: Callable[[Record, Record], bool],
) -> tuple[Record, ...]:
    rows = _rows(folder, table, columns)
    records = [build(row) for row in rows]
    problems = [problem for row in rows for problem in row.problems]
    numbered = zip((row.line for row in rows), records, strict=True)
    problems += [
        Problem(line, "whole row", f"says the same as line {first_line}", "one of them must go")
        for (first_line, first), (line, second) in combinations(numbered, 2)
        if same(first, second)
    ]
    if problems:
        raise DamagedTableError(table, problems)
    return tuple(records)


def _rows(folder: Traversable, table: str, columns: tuple[str, ...]) -> list[_Row]:
    try:
        text = folder.joinpath(table).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        raise DamagedTableError(
            table, [Problem(0, "the file", "absent or not text", "it belongs to the package")]
        ) from None
    reader = csv.reader(text.splitlines(keepends=True), strict=True)
    try:
        lines = [(reader.line_num, cells) for cells in reader]
    except csv.Error as error:
        raise DamagedTableError(
            table, [Problem(reader.line_num, "the line", str(error), "a line of a CSV table")]
        ) from None
    header = tuple(lines[0][1]) if lines else ()
    problems = _header_problems(header, columns)
    problems += [
        Problem(line, "whole row", f"{len(cells)} cells", f"{len(columns)}, one for each column")
        for line, cells in lines[1:]
        if len(cells) != len(columns)
    ]
    if problems:
        raise DamagedTableError(table, problems)
    return [_Row(line, dict(zip(header, cells, strict=True))) for line, cells in lines[1:]]


def _header_problems(header: tuple[str, ...], columns: tuple[str, ...]) -> list[Problem]:
    unknown = [
        Problem(1, name, "a column not known here", f"the columns are {', '.join(columns)}")
        for name in header
        if name not in columns
    ]
    missing = [
        Problem(1, name, "a column is missing", "it must be there")
        for name in columns
        if name not in header
    ]
    twice = [
        Problem(1, name, "a column stands there twice", "once is right")
        for name in columns
        if header.count(name) > 1
    ]
    return unknown + missing + twice
