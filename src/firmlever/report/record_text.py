# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The record of a job as plain text, to print and to sign."""

from collections.abc import Iterable, Iterator

from firmlever.domain.bench.facts import Bottle
from firmlever.domain.bench.record import GateEntry, LogEntry, Record, ScrewEntry
from firmlever.domain.quantity import Band

_NONE = "none"


def record_text(record: Record) -> str:
    """Return the record with a section for each thing a reader asks for."""
    return "\n".join(line.rstrip() for line in _lines(record)) + "\n"


def _lines(record: Record) -> Iterator[str]:
    yield f"RECORD  {record.bike}, {record.circuit}: {record.work} with {record.fluid}"
    yield f"By {record.method} ({record.technique}); planned on {record.made_on}"
    if record.work_why:
        yield f"Became a {record.work}: {record.work_why}"
    yield f"From {record.began_at or '-'} to {record.last_at or '-'}"
    yield f"Hands: {_listed(record.people)}"
    yield f"Stands at: {record.phase}"
    yield f"Still open: {_listed(record.open)}"
    yield from _section("SCREWS", (line for one in record.screws for line in _screw(one, record)))
    yield f"Top-ups in all: {record.topups}; ABS unit run: {_listed(record.cycled)}"
    yield from _section("FLUID FROM", (_bottle(one) for one in record.bottles))
    if record.air:
        yield from _section("AIR", (f"{one.words}: {one.says}" for one in record.air))
    corrected = (line for one in record.corrected for line in _screw(one, record))
    yield from _section("SCREWS AS CORRECTED SINCE", corrected)
    yield from _section("GATES", (_gate(gate) for gate in record.gates))
    ends = (f"{one.end}: {one.at}, {one.who}{_because(one.reason)}" for one in record.ends)
    yield from _section("ENDS", ends)
    follow_ups = (
        f"{one.id}: {one.answer or 'not answered'}{_because(one.reason)}; due {one.due_at or '-'}"
        for one in record.follow_ups
    )
    yield from _section("LOOKED AT AGAIN", follow_ups)
    measured = (f"{one.what}: {one.value:g} {one.unit}" for one in record.measured)
    yield from _section("MEASURED", measured)
    yield from _section("NOTES", (one.text for one in record.notes))
    yield from _section("PHOTOS", (one.name for one in record.photos))
    yield from _section("DOUBTS", (one.code for one in record.doubts))
    yield from _section("CORRECTIONS AFTER AN END", (_entry(one) for one in record.corrections))
    yield from _section("TAKEN BACK", (_entry(one) for one in record.taken_back))
    signatures = (f"{one.at}, {one.who}" for one in record.signatures)
    yield from _section("SIGNED", signatures)
    yield from _section("CAUTIONS", record.cautions)
    yield ""
    yield f"Signed by: {record.signed_by or '____________________'}"
    yield record.says


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    yield ""
    yield title
    said = list(lines)
    yield from (f"  {line}" for line in said or [_NONE])


def _screw(screw: ScrewEntry, record: Record) -> Iterator[str]:
    done = "shut, done" if screw.is_done else "shut, not done" if screw.is_shut else "open"
    yield f"{screw.at}: {done}{_because(screw.reason)}"
    sample = f", sample {screw.sample_ml:g} ml" if screw.sample_ml else ""
    cup = "not read" if screw.cup_ml is None else f"{screw.cup_ml:g} ml"
    yield (
        f"  {screw.count} {record.unit}s, {_band(screw.out_ml, 1.0)} ml out; cup {cup}{sample}; "
        f"top-ups {screw.topups}, bubbles seen {screw.bubbles}"
    )
    says = ", ".join(f"{one.id} {one.says}" for one in screw.evidence)
    contrary = "" if screw.agrees else "; they contradict each other"
    if any(one.id == "share" for one in screw.evidence):
        share = f"new {_band(screw.new_share, 100.0)} % of {100.0 * record.target:g}"
    else:
        share = "by volume and bubbles"
    yield f"  {share}: {says}{contrary}"
    if screw.tube:
        yield f"  tube tested: {screw.tube}"
    for mark in screw.marks:
        against = f"; {mark.disagrees}" if mark.disagrees else ""
        where = " or ".join(mark.named)
        yield f"  {mark.look} at {_band(mark.at_ml, 1.0)} ml: from {where}{against}"


def _bottle(bottle: Bottle) -> str:
    batch = f"batch {bottle.batch}" if bottle.batch else "batch not told"
    opened = f"opened on {bottle.opened_on}" if bottle.opened_on else "day of opening not told"
    return f"{bottle.fluid}, {batch}, {opened}"


def _gate(gate: GateEntry) -> str:
    if gate.answer is None:
        return f"not answered: {gate.words}"
    return f"{gate.answer}{_because(gate.reason)} ({gate.who}, {gate.at}): {gate.words}"


def _entry(entry: LogEntry) -> str:
    said = f", {entry.said}" if entry.said else ""
    return f"{entry.at}, {entry.who}: {entry.kind.replace('_', ' ')}{said}"


def _band(band: Band, factor: float) -> str:
    low, middle, high = (round(factor * end, 1) for end in (band.p05, band.p50, band.p95))
    return f"{middle:g} ({low:g} to {high:g})"


def _because(reason: str | None) -> str:
    return f", {reason}" if reason else ""


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words) or _NONE
