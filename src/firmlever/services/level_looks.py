# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at the levels of kept machines: keep one, take one back, judge those that count.

What comes as a document passes the checks of a table of looks.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.level import (
    LevelLook,
    LevelMeasure,
    LevelReport,
    LevelRequest,
    PadReading,
    Stand,
)
from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.domain.looks import looks_in
from firmlever.domain.machine import Machine
from firmlever.errors import OtherLookError, UnknownLookError
from firmlever.ports import Clock, Looks, Tables
from firmlever.services import levelling

_SOURCE = "the looks"


@dataclass(frozen=True, slots=True)
class LookBook:
    """Where looks are kept, and what judging and keeping them needs."""

    looks: Looks
    tables: Tables
    clock: Clock


@dataclass(frozen=True, slots=True)
class Fineness:
    """How finely level and pads are read, and how far apart the marks are, if measured."""

    ruler_mm: float = 0.5
    gauge_mm: float = 0.5
    marks_mm: float | None = None


@dataclass(frozen=True, slots=True)
class KeptLooks:
    """The looks of a circuit, earliest day first, and the notes that take some back."""

    looks: Sequence[KeptLook]
    taken_back: Sequence[TakenBack]

    @property
    def counting(self) -> Sequence[KeptLook]:
        """Those that were not taken back."""
        gone = {note.look_id for note in self.taken_back}
        return [look for look in self.looks if look.id not in gone]


def keep(
    book: LookBook, machine: Machine, circuit: Circuit, look: LevelLook, named: tuple[str, str]
) -> KeptLook:
    """Keep a look under its id by somebody (``named``); the same once more changes nothing.

    Raises
    ------
    LooksError
        Naming everything that is wrong with it beside those kept, by its number among them.
    OtherLookError
        When another look is kept under the id.
    NotWrittenError
        When the disk or a permission stands in the way.
    """
    own_id, who = named
    new = KeptLook(
        own_id,
        machine.id,
        machine.revision,
        circuit.name,
        book.clock.now(),
        who,
        _text(look),
    )
    there = kept_of(book, machine, circuit)
    if own_id not in {one.id for one in there.looks}:
        looks = sorted([*map(_seen, there.counting), look], key=lambda one: one.on)
        _checked(book, circuit, looks, Fineness())
    kept = book.looks.keep(new)
    if _content(kept) != _content(new):
        raise OtherLookError(own_id)
    return kept


def kept_of(book: LookBook, machine: Machine, circuit: Circuit) -> KeptLooks:
    """Return what is kept of a circuit."""
    looks = book.looks.of_circuit(machine.id, circuit.name)
    return KeptLooks(
        sorted(looks, key=lambda one: (_seen(one).on, one.made_at, one.id)),
        book.looks.taken_back(machine.id, circuit.name),
    )


def take_back(book: LookBook, machine: Machine, circuit: Circuit, look_id: str, who: str) -> None:
    """Note that a look does not count any more; it stays in the history.

    Raises
    ------
    UnknownLookError
        When the circuit has none of this id.
    NotWrittenError
        When the disk or a permission stands in the way.
    """
    kept = kept_of(book, machine, circuit)
    if look_id not in {one.id for one in kept.looks}:
        raise UnknownLookError(look_id)
    if look_id not in {note.look_id for note in kept.taken_back}:
        now = book.clock.now()
        book.looks.take_back(TakenBack(look_id, machine.id, circuit.name, now, who))


def judge(
    book: LookBook, machine: Machine, bike: Bike, circuit: Circuit, fineness: Fineness
) -> LevelReport | None:
    """Work out what the looks that count say; None where there is none.

    Raises
    ------
    LooksError
        When the looks do not fit the circuit any more, or each other that finely read.
    ImpossibleOptionError
        When ruler, gauge or marks cannot be what was given.
    """
    seen = [_seen(one) for one in kept_of(book, machine, circuit).counting]
    if not seen:
        return None
    request = LevelRequest(
        book.clock.today(),
        _checked(book, circuit, seen, fineness),
        fineness.ruler_mm,
        fineness.gauge_mm,
        fineness.marks_mm,
    )
    return levelling.judge(bike, circuit, request, book.tables)


def _checked(
    book: LookBook, circuit: Circuit, looks: Sequence[LevelLook], fineness: Fineness
) -> tuple[LevelLook, ...]:
    rows = [(number, _cells(look)) for number, look in enumerate(looks, 1)]
    return looks_in(_SOURCE, rows, circuit, book.clock.today(), fineness.gauge_mm)


def _cells(look: LevelLook) -> Mapping[str, str]:
    """Write a look out as a row of a table."""
    row = {"on": look.on.isoformat(), look.measure.value: f"{look.level}"}
    for name, pads in look.pads.items():
        sizes = [pads.thin_mm, *([] if pads.other_mm is None else [pads.other_mm])]
        row[f"pad_mm {name}"] = "/".join(map(str, sizes))
    row |= {f"disc_mm {name}": f"{size}" for name, size in look.discs_mm.items()}
    row["topped_up_ml"] = f"{look.topped_up_ml}"
    row |= {
        name: f"{value}"
        for name, value in (("km", look.km), ("degc", look.degc))
        if value is not None
    }
    return row | {"stand": look.stand.value, "new_pads": "yes" if look.new_pads else "no"}


def _content(look: KeptLook) -> tuple[str, ...]:
    return look.machine_id, look.circuit, look.who, look.look


def _text(look: LevelLook) -> str:
    document = {
        "on": look.on.isoformat(),
        "measure": look.measure.value,
        "level": look.level,
        "pads": {
            name: {"thin_mm": pads.thin_mm, "other_mm": pads.other_mm}
            for name, pads in look.pads.items()
        },
        "discs_mm": dict(look.discs_mm),
        "topped_up_ml": look.topped_up_ml,
        "km": look.km,
        "degc": look.degc,
        "stand": look.stand.value,
        "new_pads": look.new_pads,
    }
    return json.dumps(document, separators=(",", ":"), allow_nan=False)


def _seen(kept: KeptLook) -> LevelLook:
    said: dict[str, Any] = json.loads(kept.look)
    return LevelLook(
        **{
            **said,
            "on": date.fromisoformat(said["on"]),
            "measure": LevelMeasure(said["measure"]),
            "pads": {name: PadReading(**pads) for name, pads in said["pads"].items()},
            "stand": Stand(said["stand"]),
        }
    )
