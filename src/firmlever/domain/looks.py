# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at the level as people write them down: a table with one row a day."""

import csv
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from io import StringIO
from itertools import pairwise

from firmlever.domain.circuit import Circuit, PartKind
from firmlever.domain.level import LevelLook, LevelMeasure, PadReading, Stand
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.errors import LooksError, Problem

MOST_LOOKS = 60
_EARLIEST = date(1950, 1, 1)
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_LEVELS = tuple(LevelMeasure)
_BARE = ("on", *_LEVELS, "topped_up_ml", "km", "degc", "stand", "new_pads")
_OF_CALIPER = ("pad_mm", "disc_mm")
_BOUNDS: Mapping[str, tuple[float, float]] = {
    "level_ml": (0.0, 500.0),
    "level_share": (-2.0, 1.0),
    "below_max_mm": (0.0, 100.0),
    "topped_up_ml": (-500.0, 500.0),
    "km": (0.0, 2e6),
    "degc": (-40.0, 60.0),
    "pad_mm": (0.0, 15.0),
    "disc_mm": (1.0, 12.0),
}
# stands for cells beyond the last column
_BEYOND = ""
_YES = {"yes": True, "no": False, "": False}
# a pad or disc may read thicker than before by so many times what a reading can be out
_SLIP = 3.0


@dataclass(slots=True)
class _Table:
    """A table while it is read: problems gather as they are found."""

    circuit: Circuit
    on: date
    gauge_mm: float
    columns: dict[str, int] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    @property
    def calipers(self) -> tuple[str, ...]:
        return tuple(part.id for part in self.circuit.of_kind(PartKind.CALIPER))

    @property
    def measures(self) -> list[LevelMeasure]:
        return [one for one in _LEVELS if one in self.columns]

    def fault(self, line: int, place: str, found: str, allowed: str) -> None:
        self.problems.append(Problem(line, place, found, allowed))


def looks_of(
    file: str, text: str, circuit: Circuit, on: date, gauge_mm: float = 0.5
) -> tuple[LevelLook, ...]:
    """Read a table of looks at the reservoir of a circuit.

    The first line names the columns, in any order: ``on``; one of ``level_ml``,
    ``level_share``, ``below_max_mm``; for a brake ``pad_mm`` with the name of a caliper
    behind it where there are several; and, where known, ``disc_mm``, ``topped_up_ml``,
    ``km``, ``degc``, ``stand``, ``new_pads``.

    Raises
    ------
    LooksError
        Naming everything that is wrong with it, by line.
    """
    table = _Table(circuit, on, gauge_mm)
    lines = _lines(table, text)
    _read_heading(table, lines[0] if lines else ())
    rows = [(number, cells) for number, cells in enumerate(lines[1:], 2) if any(cells)]
    if not rows and not table.problems:
        table.fault(0, "the table", "no looks", "one row for each day somebody looked")
    return _story(file, table, [(number, _by_column(table, cells)) for number, cells in rows])


def looks_in(
    source: str,
    rows: Sequence[tuple[int, Mapping[str, str]]],
    circuit: Circuit,
    on: date,
    gauge_mm: float = 0.5,
) -> tuple[LevelLook, ...]:
    """Check looks that come without a table, earliest first, each with columns of its own.

    Raises
    ------
    LooksError
        Naming everything that is wrong with them, by the number of the look.
    """
    table = _Table(circuit, on, gauge_mm)
    for number, row in rows:
        for name in row:
            if name.startswith(_OF_CALIPER):
                _column(table, name, (number, name))
        if table.calipers and not any(name.startswith("pad_mm ") for name in row):
            table.fault(number, "pads", "no pads", _without_pads(table))
    return _story(source, table, rows)


def _story(
    source: str, table: _Table, rows: Sequence[tuple[int, Mapping[str, str]]]
) -> tuple[LevelLook, ...]:
    if len(rows) > MOST_LOOKS:
        table.fault(0, "the table", f"{len(rows)} looks", f"{MOST_LOOKS} at most")
    whole: list[tuple[int, LevelLook]] = []
    if not table.problems:
        looks = [(number, _look(table, number, cells)) for number, cells in rows]
        whole = [(number, look) for number, look in looks if look is not None]
        _check_story(table, whole)
    if table.problems:
        raise LooksError(source, table.problems)
    return tuple(look for _, look in whole)


def _by_column(table: _Table, cells: Sequence[str]) -> Mapping[str, str]:
    """Return a row by its columns; what stands beyond them keeps a place without a name."""
    row = {name: cells[at] if at < len(cells) else "" for name, at in table.columns.items()}
    return {**row, **({_BEYOND: f"{len(cells)}"} if len(cells) > len(table.columns) else {})}


def _lines(table: _Table, text: str) -> list[list[str]]:
    try:
        lines = list(csv.reader(StringIO(text.removeprefix("\ufeff"))))
    except csv.Error:
        table.fault(0, "the table", "a cell that never ends", "short cells with commas between")
        return []
    return [[cell.strip() for cell in line] for line in lines]


def _read_heading(table: _Table, cells: Sequence[str]) -> None:
    for place, name in enumerate(cells):
        column = _column(table, name)
        if column is None:
            continue
        if column in table.columns:
            table.fault(1, "the heading", f"“{name}” twice", "each column once")
        table.columns[column] = place
    if table.problems:
        return
    if "on" not in table.columns:
        table.fault(1, "the heading", "no column “on”", "the day of each look, as 2026-05-01")
    if len(table.measures) != 1:
        found = " and ".join(f"“{one}”" for one in table.measures) or "no level"
        table.fault(1, "the heading", found, f"one column out of {', '.join(_LEVELS)}")
    if table.calipers and not any(one.startswith("pad_mm ") for one in table.columns):
        table.fault(1, "the heading", "no pads", _without_pads(table))


def _without_pads(table: _Table) -> str:
    wanted = " or ".join(f"“pad_mm {name}”" for name in table.calipers)
    return f"without them wear explains nothing: {wanted}"


def _column(table: _Table, name: str, at: tuple[int, str] = (1, "the heading")) -> str | None:
    """Return the full name of a column; ``pad_mm`` alone is that of the only caliper."""
    if name in _BARE:
        return name
    what, _, owner = name.partition(" ")
    calipers = table.calipers
    if what in _OF_CALIPER and not calipers:
        table.fault(*at, f"“{name}”", "this circuit has no caliper")
        return None
    if what in _OF_CALIPER and not owner and len(calipers) == 1:
        return f"{what} {calipers[0]}"
    if what in _OF_CALIPER:
        if owner in calipers:
            return name
        known = ", ".join(f"{what} {one}" for one in calipers)
        table.fault(*at, f"“{name}”", f"it names a caliper: {known}")
        return None
    near = get_close_matches(name, (*_BARE, *_OF_CALIPER), 1)
    hint = f"did you mean “{near[0]}”? " if near else ""
    known = ", ".join((*_BARE, *_OF_CALIPER))
    table.fault(*at, f"“{name}”", f"{hint}known: {known}")
    return None


def _look(table: _Table, line: int, cells: Mapping[str, str]) -> LevelLook | None:
    before = len(table.problems)
    if _BEYOND in cells:
        table.fault(line, "the row", f"{cells[_BEYOND]} cells", f"{len(table.columns)} at most")
        return None
    row = _Row(table, line, cells)
    [measure] = [one for one in _LEVELS if one in cells]
    day = row.day()
    look = LevelLook(
        on=day,
        measure=measure,
        level=row.number(measure, measure) or 0.0,
        pads=row.pads(),
        discs_mm=row.discs(),
        topped_up_ml=row.number("topped_up_ml", "topped_up_ml", needed=False) or 0.0,
        km=row.number("km", "km", needed=False),
        degc=row.number("degc", "degc", needed=False),
        stand=row.stand(),
        new_pads=row.new_pads(),
    )
    return look if len(table.problems) == before else None


@dataclass(frozen=True, slots=True)
class _Row:
    table: _Table
    line: int
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        return self.cells.get(column, "")

    def number(self, column: str, kind: str, *, needed: bool = True) -> float | None:
        text = self.text(column)
        return None if not text and not needed else self._checked(column, kind, text)

    def _checked(self, column: str, kind: str, text: str) -> float | None:
        low, high = _BOUNDS[kind]
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if low <= value <= high:
            return value
        found = f"“{text[:40]}”" if text else "empty"
        self.table.fault(self.line, column, found, f"a number from {low:g} to {high:g}")
        return None

    def day(self) -> date:
        text, table = self.text("on"), self.table
        try:
            day = date.fromisoformat(text) if _DAY.fullmatch(text) else None
        except ValueError:
            day = None
        if day is None:
            found = f"“{text[:40]}”" if text else "empty"
            table.fault(self.line, "on", found, "year, month and day, as 2026-05-01")
            return table.on
        if not _EARLIEST <= day <= table.on:
            table.fault(self.line, "on", f"{day}", f"a day from {_EARLIEST} to {table.on}")
        return day

    def pads(self) -> dict[str, PadReading]:
        found = {}
        for name in self.table.calipers:
            column = f"pad_mm {name}"
            if column not in self.cells:
                continue
            parts = [one.strip() for one in self.text(column).split("/")]
            if len(parts) > 2:
                said = "one number, or two with a stroke between, as 3.2/3.6"
                self.table.fault(self.line, column, f"“{self.text(column)[:40]}”", said)
                continue
            sizes = [self._checked(column, "pad_mm", one) for one in parts]
            known = sorted(size for size in sizes if size is not None)
            if len(known) == len(parts):
                found[name] = PadReading(known[0], known[1] if len(known) == 2 else None)
        return found

    def discs(self) -> dict[str, float]:
        found = {}
        for name in self.table.calipers:
            column = f"disc_mm {name}"
            if column in self.cells:
                size = self.number(column, "disc_mm", needed=False)
                if size is not None:
                    found[name] = size
        return found

    def stand(self) -> Stand:
        text = self.text("stand") or Stand.LEVEL
        if text not in tuple(Stand):
            self.table.fault(self.line, "stand", f"“{text[:40]}”", f"one of {', '.join(Stand)}")
            return Stand.LEVEL
        return Stand(text)

    def new_pads(self) -> bool:
        text = self.text("new_pads")
        if text not in _YES:
            self.table.fault(self.line, "new_pads", f"“{text[:40]}”", "yes, no or empty")
        return _YES.get(text, False)


def _check_story(table: _Table, looks: Sequence[tuple[int, LevelLook]]) -> None:
    for line, look in looks:
        _check_level(table, line, look)
        _check_new(table, line, look)
    for (_, before), (line, look) in pairwise(looks):
        if look.on == before.on:
            allowed = "one look a day: keep the better one"
            table.fault(line, "on", f"{look.on} again", allowed)
        elif look.on < before.on:
            table.fault(line, "on", f"{look.on} after {before.on}", "earliest day first")
        if look.km is not None and before.km is not None and look.km < before.km:
            found = f"{look.km:g} after {before.km:g}"
            table.fault(line, "km", found, "the odometer only goes up")
        for name in sorted(look.pads.keys() ^ before.pads.keys()):
            found = "read at one look and not at the next"
            table.fault(line, f"pad_mm {name}", found, "the same calipers at every look")
        _check_thickness(table, line, before, look)


def _check_level(table: _Table, line: int, look: LevelLook) -> None:
    [pot] = table.circuit.of_kind(PartKind.RESERVOIR)
    most = _at_most(pot.given.get("max_ml"))
    if look.measure is LevelMeasure.CONTENT and most is not None and look.level > most:
        allowed = "draw off down to MAX, look again and note it in topped_up_ml, below zero"
        table.fault(line, "level_ml", f"{look.level:g} is above MAX ({most:g} ml)", allowed)


def _check_new(table: _Table, line: int, look: LevelLook) -> None:
    for name, pads in look.pads.items():
        most = _at_most(table.circuit.part(name).given.get("pad_new_mm"))
        thick = pads.other_mm or pads.thin_mm
        if most is not None and thick > most + table.gauge_mm:
            found = f"{thick:g} mm, and a new pad has {most:g}"
            allowed = "friction material only, without the backing; or set pad_new_mm"
            table.fault(line, f"pad_mm {name}", found, allowed)


def _check_thickness(table: _Table, line: int, before: LevelLook, look: LevelLook) -> None:
    slip = _SLIP * table.gauge_mm
    if not look.new_pads:
        for name in look.pads.keys() & before.pads.keys():
            grown = look.pads[name].thin_mm - before.pads[name].thin_mm
            if grown > slip:
                found = f"{grown:.3g} mm thicker than at the look before"
                allowed = "pads only wear; put yes under new_pads if they were changed"
                table.fault(line, f"pad_mm {name}", found, allowed)
    for name in look.discs_mm.keys() & before.discs_mm.keys():
        grown = look.discs_mm[name] - before.discs_mm[name]
        if grown > slip:
            found = f"{grown:.3g} mm thicker than at the look before"
            allowed = "a new disc starts a new table"
            table.fault(line, f"disc_mm {name}", found, allowed)


def _at_most(quantity: Quantity | None) -> float | None:
    match quantity:
        case Exact(value):
            return value
        case Between(_, high):
            return high
        case None:
            return None
