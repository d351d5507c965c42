# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Readings at a lever as people write them down: a table of set, force and travel."""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from firmlever.domain.lever import Hold, Moment, Pace, Readings, ReadingSet, SetKind
from firmlever.errors import Problem, ReadingsError

COLUMNS = ("set", "force_n", "travel_mm")
SECONDS = "seconds"
MOST_ROWS = 500
_MOST_LETTERS = 40
LEAST_READINGS = 4
_FORCE_N = (0.5, 400.0)
_TRAVEL_MM = (0.0, 200.0)
_GRIP_MM = 90.0
_SECONDS = (0.0, 600.0)
_NAME = re.compile(r"(first|pumped|wedged|hold fast|hold)(?: [2-9])?")
_NAMES = "a set is called first, pumped, wedged, hold or hold fast, a repeat as “wedged 2”"
LEAST_HELD, LEAST_HELD_S = 5, 30.0
# a hand holds its force to about so much of it
_HELD_SHARE = 0.15
# a reading may fall back by this much of the travel: a slip of the ruler, no mistake
_SLIP_MM = 2.0
# a hand pulls more than this many newtons to move a lever that far
_WEAK_N, _FAR_MM = 14.0, 20.0


Line = tuple[int, Sequence[str]]
"""The cells of a row and the number it is called by."""


@dataclass(frozen=True, slots=True)
class _Row:
    line: int
    name: str
    force_n: float
    travel_mm: float
    second: float = 0.0


def readings_of(file: str, text: str, moment: Moment = Moment.BEFORE) -> Readings:
    """Read a table of readings, columns ``set,force_n,travel_mm[,seconds]``.

    A set is called first, pumped or wedged, a hold is called hold or hold fast; a repeat
    carries a number, as "wedged 2".

    Raises
    ------
    ReadingsError
        Naming everything that is wrong with it, by line.
    """
    lines = list(_lines(text))
    if not lines:
        raise ReadingsError(file, [Problem(1, "the heading", "the file is empty", _HEADING)])
    number, head = lines[0]
    if tuple(head[: len(COLUMNS)]) != COLUMNS:
        found = _quoted(",".join(head))
        raise ReadingsError(file, [Problem(number, "the heading", found, _HEADING)])
    return readings_in(file, lines[1:], moment)


def readings_in(source: str, lines: Sequence[Line], moment: Moment = Moment.BEFORE) -> Readings:
    """Read rows of set, force, travel and seconds, each under the number it is called by.

    Raises
    ------
    ReadingsError
        Naming everything that is wrong with them, by that number.
    """
    if len(lines) > MOST_ROWS:
        found = f"{len(lines)} rows"
        raise ReadingsError(source, [Problem(0, "the table", found, f"{MOST_ROWS} at most")])
    problems: list[Problem] = []
    rows = list(_rows(lines, problems))
    if not problems:
        problems.extend(_of_the_whole(rows))
    if problems:
        raise ReadingsError(source, problems)
    by_name = {name: [row for row in rows if row.name == name] for name in _names(rows)}
    return Readings(
        tuple(_set(name, of, moment) for name, of in by_name.items() if not _is_hold(name)),
        tuple(_hold(name, of) for name, of in by_name.items() if _is_hold(name)),
    )


_HEADING = f"it starts with {','.join(COLUMNS)}"


def _names(rows: Sequence[_Row]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.name for row in rows))


def _is_hold(name: str) -> bool:
    return name.startswith("hold")


def _set(name: str, rows: Sequence[_Row], moment: Moment) -> ReadingSet:
    force_n = tuple(row.force_n for row in rows)
    return ReadingSet(
        SetKind(name.split(maxsplit=1)[0]), force_n, tuple(row.travel_mm for row in rows), moment
    )


def _hold(name: str, rows: Sequence[_Row]) -> Hold:
    return Hold(
        Pace.FAST if name.startswith("hold fast") else Pace.SLOW,
        sum(row.force_n for row in rows) / len(rows),
        tuple(row.second for row in rows),
        tuple(row.travel_mm for row in rows),
    )


def _lines(text: str) -> Iterator[Line]:
    """The cells of each line with its number; empty lines and notes, which start with #, go."""
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        cells = [cell.strip(' \t"') for cell in line.split(",")]
        if any(cells) and not cells[0].startswith("#"):
            yield number, cells


def _quoted(text: str) -> str:
    return f"“{text if len(text) <= _MOST_LETTERS else text[:_MOST_LETTERS] + '…'}”"


def _rows(lines: Sequence[Line], problems: list[Problem]) -> Iterator[_Row]:
    for number, cells in lines:
        padded = [*cells, *[""] * (len(COLUMNS) + 1)]
        name = padded[0]
        if not _NAME.fullmatch(name):
            problems.append(Problem(number, "set", _quoted(name), _NAMES))
        force = _number(number, "force_n", padded[1], _FORCE_N, problems)
        travel = _number(number, "travel_mm", padded[2], _TRAVEL_MM, problems)
        second: float | None = 0.0
        if _is_hold(name):
            second = _number(number, SECONDS, padded[3], _SECONDS, problems)
        if _NAME.fullmatch(name) and None not in (force, travel, second):
            yield _Row(number, name, force or 0.0, travel or 0.0, second or 0.0)


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
    names = _names(rows)
    if not rows:
        yield Problem(0, "the table", "no readings", "at least one set of readings")
    elif all(_is_hold(name) for name in names):
        allowed = "a slow pull beside it, set first; a hold tells of sinking, not of air"
        yield Problem(0, "the table", "holds only", allowed)
    for name in names:
        own = [row for row in rows if row.name == name]
        yield from _of_a_hold(name, own) if _is_hold(name) else _of_a_set(name, own)


def _of_a_hold(name: str, rows: Sequence[_Row]) -> Iterator[Problem]:
    lasted = rows[-1].second - rows[0].second
    if len(rows) < LEAST_HELD or lasted < LEAST_HELD_S:
        found = f"{_counted(len(rows))} in {lasted:g} s"
        allowed = f"at least {LEAST_HELD} readings over {LEAST_HELD_S:g} s or more"
        yield Problem(rows[0].line, name, found, allowed)
    for before, row in pairwise(rows):
        if row.second <= before.second:
            found = f"the clock goes from {before.second:g} to {row.second:g} s"
            yield Problem(row.line, name, found, "seconds go up; a repeat is a hold of its own")
        if abs(row.force_n - rows[0].force_n) > _HELD_SHARE * rows[0].force_n:
            found = f"the force goes from {rows[0].force_n:g} to {row.force_n:g} N"
            yield Problem(row.line, name, found, "a hold keeps to one force")
    yield from _beyond_the_grip(name, rows)


def _beyond_the_grip(name: str, rows: Sequence[_Row]) -> Iterator[Problem]:
    far = max(row.travel_mm for row in rows)
    if far > _GRIP_MM:
        allowed = f"a lever meets the grip before {_GRIP_MM:g} mm; read from where it rests"
        yield Problem(rows[0].line, name, f"a travel of {far:g} mm", allowed)


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
    yield from _beyond_the_grip(name, rows)
    if far == min(row.travel_mm for row in rows):
        yield Problem(rows[0].line, name, "the travel never changes", "read it at each force")
    elif max(row.force_n for row in rows) < _WEAK_N and far > _FAR_MM:
        found = f"{far:g} mm with at most {max(row.force_n for row in rows):g} N"
        allowed = "that looks like kilograms; newtons are ten times as many"
        yield Problem(rows[0].line, name, found, allowed)


def _counted(count: int) -> str:
    return "1 reading" if count == 1 else f"{count} readings"
