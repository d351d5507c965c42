# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lever tests of kept machines: judge what was read, keep it, and mark the good state.

What comes as lists passes the checks of a table of readings, row by row.
"""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.lever import Hold, LeverTest, Moment, Pace, Readings, ReadingSet
from firmlever.domain.lever_log import Baseline, KeptLeverTest
from firmlever.domain.machine import Machine
from firmlever.domain.readings import readings_in
from firmlever.errors import (
    OtherLeverTestError,
    OthersJobError,
    Problem,
    ReadingsError,
    UnknownLeverTestError,
)
from firmlever.ports import Clock, Jobs, Levers, Tables
from firmlever.services.feeling import LeverRequest, judge_lever

_SOURCE = "the readings"
_HOLD_NAMES = {Pace.SLOW: "hold", Pace.FAST: "hold fast"}
Numbered = tuple[int, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class LeverBook:
    """Where lever tests are kept, and what judging and keeping them needs."""

    levers: Levers
    jobs: Jobs
    tables: Tables
    clock: Clock


@dataclass(frozen=True, slots=True)
class SentReadings:
    """What was read at a lever, not checked yet; ``after`` is None for a test taken once.

    ``holds`` were read with the last of the two.
    """

    before: Sequence[ReadingSet]
    after: Sequence[ReadingSet] | None
    ruler_mm: float
    altitude_m: float
    holds: Sequence[Hold] = ()


@dataclass(frozen=True, slots=True)
class Keeper:
    """Who keeps a test, under which id, and for which job at the bench."""

    id: str
    who: str
    job_id: str | None


@dataclass(frozen=True, slots=True)
class Kept:
    """The tests of a circuit, oldest first, and the marks of the good one; the last counts."""

    tests: Sequence[KeptLeverTest]
    baselines: Sequence[Baseline]


def judge(book: LeverBook, bike: Bike, circuit: Circuit, sent: SentReadings) -> LeverTest:
    """Work out what readings say.

    Raises
    ------
    ReadingsError
        Naming everything that is wrong with them, by row, the first row being 1.
    ImpossibleOptionError
        When ruler or altitude cannot be, or the circuit is a clutch.
    """
    read = _checked(sent)
    asked = LeverRequest(book.clock.today(), read.sets, sent.ruler_mm, sent.altitude_m, read.holds)
    return judge_lever(bike, circuit, asked, book.tables)


def keep(
    book: LeverBook,
    machine: Machine,
    circuit: Circuit,
    sent: SentReadings,
    document: str,
    keeper: Keeper,
) -> KeptLeverTest:
    """Keep readings and what they say; the same once more changes nothing.

    Raises
    ------
    UnknownJobError
        When the job it was read for is not kept here.
    OthersJobError
        When that job is another circuit's.
    OtherLeverTestError
        When another test is kept under the id.
    NotWrittenError
        When the disk or a permission stands in the way.
    """
    _check_job(book.jobs, machine, circuit, keeper.job_id)
    test = KeptLeverTest(
        keeper.id,
        machine.id,
        machine.revision,
        circuit.name,
        book.clock.now(),
        keeper.who,
        keeper.job_id,
        _text(sent),
        document,
    )
    kept = book.levers.keep(test)
    if _content(kept) != _content(test):
        raise OtherLeverTestError(keeper.id)
    return kept


def kept_of(book: LeverBook, machine: Machine, circuit: Circuit) -> Kept:
    """Return what is kept of a circuit."""
    return Kept(
        book.levers.of_circuit(machine.id, circuit.name),
        book.levers.baselines(machine.id, circuit.name),
    )


def one_of(book: LeverBook, machine: Machine, circuit: Circuit, test_id: str) -> KeptLeverTest:
    """Return one test of a circuit.

    Raises
    ------
    UnknownLeverTestError
        When there is none of this id, or it is another circuit's.
    """
    kept = book.levers.get(test_id)
    if (kept.machine_id, kept.circuit) != (machine.id, circuit.name):
        raise UnknownLeverTestError(test_id)
    return kept


def mark_good(book: LeverBook, test: KeptLeverTest, who: str) -> None:
    """Mark a test as the good state of its circuit, unless it is that already.

    Raises
    ------
    NotWrittenError
        When the disk or a permission stands in the way.
    """
    marks = book.levers.baselines(test.machine_id, test.circuit)
    if not marks or marks[-1].test_id != test.id:
        now = book.clock.now()
        book.levers.mark(Baseline(test.id, test.machine_id, test.circuit, now, who))


def _check_job(jobs: Jobs, machine: Machine, circuit: Circuit, job_id: str | None) -> None:
    if job_id is None:
        return
    job = jobs.get(job_id)
    if (job.machine_id, job.circuit) != (machine.id, circuit.name):
        raise OthersJobError(job_id, job.circuit)


def _checked(sent: SentReadings) -> Readings:
    last = Moment.BEFORE if sent.after is None else Moment.AFTER
    sets: list[ReadingSet] = []
    holds: list[Hold] = []
    problems: list[Problem] = []
    first = 1
    for moment, given in ((Moment.BEFORE, sent.before), (Moment.AFTER, sent.after)):
        if given is None:
            continue
        cells = [*_cells_of_sets(given), *_cells_of_holds(sent.holds if moment is last else ())]
        rows: tuple[Numbered, ...] = tuple(enumerate(cells, first))
        first += len(rows)
        try:
            read = readings_in(_SOURCE, rows, moment)
        except ReadingsError as error:
            problems += error.problems
            continue
        sets += read.sets
        holds += read.holds
    if problems:
        raise ReadingsError(_SOURCE, problems)
    return Readings(tuple(sets), tuple(holds))


def _cells_of_sets(sets: Sequence[ReadingSet]) -> Iterator[tuple[str, ...]]:
    """Write sets out as the rows of a table; a second of a kind is its repeat."""
    for name, one in zip(_names([one.kind.value for one in sets]), sets, strict=True):
        for force_n, travel_mm in zip_longest(one.force_n, one.travel_mm, fillvalue=""):
            yield name, str(force_n), str(travel_mm)


def _cells_of_holds(holds: Sequence[Hold]) -> Iterator[tuple[str, ...]]:
    for name, one in zip(_names([_HOLD_NAMES[one.pace] for one in holds]), holds, strict=True):
        for second, travel_mm in zip_longest(one.seconds, one.travel_mm, fillvalue=""):
            yield name, str(one.force_n), str(travel_mm), str(second)


def _names(kinds: Sequence[str]) -> Sequence[str]:
    turns = [kinds[: place + 1].count(kind) for place, kind in enumerate(kinds)]
    return [
        kind if turn == 1 else f"{kind} {turn}" for kind, turn in zip(kinds, turns, strict=True)
    ]


def _content(test: KeptLeverTest) -> tuple[object, ...]:
    return test.machine_id, test.circuit, test.who, test.job_id, test.readings


def _text(sent: SentReadings) -> str:
    document = {
        "before": _written(sent.before),
        "after": None if sent.after is None else _written(sent.after),
        "ruler_mm": sent.ruler_mm,
        "altitude_m": sent.altitude_m,
        "holds": [
            {
                "pace": one.pace.value,
                "force_n": one.force_n,
                "seconds": one.seconds,
                "travel_mm": one.travel_mm,
            }
            for one in sent.holds
        ],
    }
    return json.dumps(document, separators=(",", ":"), allow_nan=False)


def _written(sets: Sequence[ReadingSet]) -> list[dict[str, object]]:
    return [
        {"kind": one.kind.value, "force_n": one.force_n, "travel_mm": one.travel_mm} for one in sets
    ]
