# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Readings at a lever as people write them down: a table of set, force and travel."""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from firmlever.domain.lever import Moment, ReadingSet, SetKind
from firmlever.errors import Problem, ReadingsError

COLUMNS = ("set", "force_n", "travel_mm")
MOST_ROWS = 500
_MOST_LETTERS = 40
LEAST_READINGS = 4
_FORCE_N = (0.5, 400.0)
_TRAVEL_MM = (0.0, 200.0)
_GRIP_MM = 90.0
_NAME = re.compile(r"(first|pumped|wedged)(?: [2-9])?")
# a reading may fall back by this much of the travel: a slip of the ruler, no mistake
_SLIP_MM = 2.0
# a hand pulls more than this many newtons to move a lever that far
_WEAK_N, _FAR_MM = 14.0, 20.0


@dataclass(frozen=True, slots=True)
class _Row:
    line: int
    name: str
    force_n: float
    travel_mm: float


def readings_of(file: str, text: str, moment: Moment = Moment.BEFORE) -> tuple[ReadingSet, ...]:
    """Read a table of readings, columns ``set,force_n,travel_mm``.

    A set is called first, pumped or wedged; a repeat carries a number, as "wedged 2".

    Raises
    ------
    ReadingsError
        Naming everything that is wrong with it, by line.
    """
    lines = [_cells(line) for line in text.removeprefix("\ufeff").splitlines()]
    if not lines:
        raise ReadingsError(file, [Problem(1, "the heading", "the file is empty", _HEADING)])
    if tuple(lines[0][: len(COLUMNS)]) != COLUMNS:
        found = _quoted(",".join(lines[0]))
        raise ReadingsError(file, [Problem(1, "the heading", found, _HEADING)])
    if len(lines) - 1 > MOST_ROWS:
        found = f"{len(lines) - 1} rows"
        raise ReadingsError(file, [Problem(0, "the table", found, f"{MOST_ROWS} at most")])
    problems: list[Problem] = []
    rows = [row for row in _rows(lines, problems) if row is not None]
    if not problems:
        problems.extend(_of_the_whole(rows))
    if problems:
        raise ReadingsError(file, problems)
    return tuple(
        ReadingSet(
            SetKind(name.split()[0]),
            tuple(row.force_n for row in rows if row.name == name),
            tuple(row.travel_mm for row in rows if row.name == name),
            moment,
        )
        for name in dict.fromkeys(row.name for row in rows)
    )


_HEADING = f"it starts with {','.join(COLUMNS)}"


def _cells(line: str) -> list[str]:
    return [cell.strip(' \t"') for cell in line.split(",")]


def _quoted(text: str) -> str:
    return f"“{text if len(text) <= _MOST_LETTERS else text[:_MOST_LETTERS] + '…'}”"


def _rows(lines: Sequence[Sequence[str]], problems: list[Problem]) -> Iterator[_Row | None]:
    for number, cells in enumerate(lines[1:], start=2):
        if not any(cells):
            continue
        padded = [*cells, *[""] * len(COLUMNS)]
        name = padded[0]
        if not _NAME.fullmatch(name):
            allowed = "a set is called first, pumped or wedged, a repeat as “wedged 2”"
            problems.append(Problem(number, "set", _quoted(name), allowed))
        force = _number(number, "force_n", padded[1], _FORCE_N, problems)
        travel = _number(number, "travel_mm", padded[2], _TRAVEL_MM, problems)
        good = _NAME.fullmatch(name) and force is not None and travel is not None
        yield _Row(number, name, force or 0.0, travel or 0.0) if good else None


def _number(
    line: int, place: str, text: str, bounds: tuple[float, float], problems: list[Problem]
) -> float | None:
    low, high = bounds
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if low <= value <= high:
        return value
    problems.append(Problem(line, place, _quoted(text), f"a number from {low:g} to {high:g}"))
    return None


def _of_the_whole(rows: Sequence[_Row]) -> Iterator[Problem]:
    if not rows:
        yield Problem(0, "the table", "no readings", "at least one set of readings")
    for name in dict.fromkeys(row.name for row in rows):
        yield from _of_a_set(name, [row for row in rows if row.name == name])


def _of_a_set(name: str, rows: Sequence[_Row]) -> Iterator[Problem]:
    if len(rows) < LEAST_READINGS:
        allowed = f"at least {LEAST_READINGS}, from a light pull to a firm one"
        yield Problem(rows[0].line, name, _counted(len(rows)), allowed)
    for before, row in pairwise(rows):
        if row.force_n <= before.force_n:
            found = f"the force goes from {before.force_n:g} to {row.force_n:g} N"
            yield Problem(
                row.line, name, found, "readings go up only; a repeat is a set of its own"
            )
        if row.travel_mm < before.travel_mm - _SLIP_MM:
            found = f"the travel goes back from {before.travel_mm:g} to {row.travel_mm:g} mm"
            yield Problem(row.line, name, found, "more force moves a lever further")
    far = max(row.travel_mm for row in rows)
    if far > _GRIP_MM:
        allowed = f"a lever meets the grip before {_GRIP_MM:g} mm; read from where it rests"
        yield Problem(rows[0].line, name, f"a travel of {far:g} mm", allowed)
    if far == min(row.travel_mm for row in rows):
        yield Problem(rows[0].line, name, "the travel never changes", "read it at each force")
    elif max(row.force_n for row in rows) < _WEAK_N and far > _FAR_MM:
        found = f"{far:g} mm with at most {max(row.force_n for row in rows):g} N"
        allowed = "that looks like kilograms; newtons are ten times as many"
        yield Problem(rows[0].line, name, found, allowed)


def _counted(count: int) -> str:
    return "1 reading" if count == 1 else f"{count} readings"
