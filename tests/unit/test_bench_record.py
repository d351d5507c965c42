# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The record told from a log; the logs are kept histories, the figures worked out by hand."""

import json

import jsonschema
import pytest

from bench.histories import NAMES, events_of, sheet_of
from firmlever.domain.bench.record import Record, record_of
from firmlever.report.record_json import RECORD, record_json
from firmlever.report.record_text import record_text
from snapshot import same_as_kept

VALIDATOR = jsonschema.Draft202012Validator(RECORD.schema)


def record(name: str) -> Record:
    return record_of(sheet_of(name), events_of(name))


def test_a_closed_job_says_who_did_what_and_that_nothing_is_open() -> None:
    told = record("closed")
    assert (told.phase, told.open, told.signed_by) == ("closed", (), "Ada Fenn")
    assert told.people == ("Ada Fenn", "Ben Marsh")
    assert (told.began_at, told.last_at) == ("2026-05-01T09:00:00.000Z", "2026-05-01T22:53:22.000Z")
    assert [end.end for end in told.ends] == ["ready to roll", "first stop done", "closed"]
    assert told.ends[1].who == "Ben Marsh"
    assert [(one.answer, one.reason) for one in told.follow_ups] == [
        ("firm", None),
        ("waived", "machine sold"),
    ]
    assert (told.corrected, told.corrections, told.taken_back) == ((), (), ())


def test_what_comes_after_an_end_is_a_correction_and_overwrites_nothing() -> None:
    told = record("corrected-after-closing")
    # 18 ml in the cup of the right caliper, told after closing: 18 / 0.925 = 19.4595 out
    assert told.screws[1].cup_ml is None
    assert told.screws[1].out_ml.p50 == 20.0
    assert told.corrected[-1].cup_ml == 18
    assert told.corrected[-1].out_ml.p50 == pytest.approx(18 / 0.925)
    assert [(one.kind, one.said) for one in told.corrections] == [
        ("caught", "point right caliper, ml 18"),
        ("note", "text the cup was read late"),
        ("measured", "what lever travel, value 31.5, unit mm"),
        ("photo", "name screw.jpg"),
    ]
    assert told.screws == record("closed").screws


def test_an_end_taken_back_is_still_told() -> None:
    told = record("end-taken-back")
    assert [(one.kind, one.said) for one in told.taken_back] == [("ended", "end ready to roll")]
    assert [one.kind for one in told.corrections] == ["undone", "at_screw", "set_done"]
    assert told.ends == ()
    assert told.screws[0].count == 22


def test_an_undo_that_was_taken_back_took_nothing_back() -> None:
    assert record("undo-of-undo").taken_back == ()
    assert [one.kind for one in record("undo-three-deep").taken_back] == ["set_done"]


def test_top_ups_are_counted_at_the_screw_they_were_needed_at() -> None:
    told = record("skerry-worked")
    # by hand: one before the first screw, then eight at the left and four at the right
    assert [screw.topups for screw in told.screws] == [8, 4]
    assert told.topups == 13


def test_a_refused_event_is_no_part_of_the_record() -> None:
    told = record("given-up")
    assert [(end.end, end.reason) for end in told.ends] == [("given up", "the seat is damaged")]


def test_bubbles_marks_and_evidence_stand_at_their_screw() -> None:
    screw = record("bubbles-late").screws[0]
    assert screw.bubbles == 1
    assert [(one.id, one.says) for one in screw.evidence] == [
        ("share", "yes"), ("look", "unknown"), ("bubbles", "no"),
    ]  # fmt: skip
    assert not screw.agrees


def test_gates_not_answered_are_told_as_open() -> None:
    told = record("gate-overridden")
    assert [(gate.id, gate.answer, gate.who) for gate in told.gates] == [
        ("screws turn", "overridden", "Ada Fenn"),
        ("fluid", "does not apply", "Ada Fenn"),
        ("firm", None, None),
        ("dry", None, None),
    ]


@pytest.mark.parametrize(
    ("kept", "name"),
    # with an empty log, too, every section stands
    [("record.txt", "corrected-after-closing"), ("record-empty.txt", "nothing-yet")],
)
def test_the_print_view_is_as_kept(kept: str, name: str) -> None:
    same_as_kept(kept, record_text(record(name)))


@pytest.mark.parametrize("name", ["corrected-after-closing", "skerry-worked"])
def test_the_document_is_as_kept_for_the_app_to_show(name: str) -> None:
    same_as_kept(f"record-{name}.json", record_json(record(name)))


def test_the_cautions_of_the_sheet_stand_in_the_record() -> None:
    cautions = sheet_of("skerry-worked").cautions
    told = record("skerry-worked")
    # who comes first stands by itself
    assert (*told.cautions, told.says) == cautions


@pytest.mark.parametrize("name", NAMES)
def test_a_record_keeps_to_its_schema_and_passes_no_verdict(name: str) -> None:
    text = record_json(record(name))
    document = json.loads(text)
    VALIDATOR.validate(document)
    assert document["kind"] == "record"
    assert len(document["screws"]) == len(sheet_of(name).points)
    assert "safe to ride" not in (text + record_text(record(name))).lower()


def test_the_bottles_stand_in_the_record() -> None:
    told = record("bottle")
    assert [(one.fluid, one.batch, one.opened_on) for one in told.bottles] == [
        ("DOT 4", "L-204", "2026-04-30"),
        ("DOT 4", None, None),
    ]
    lines = record_text(told).splitlines()
    at = lines.index("FLUID FROM")
    assert lines[at + 1 : at + 3] == [
        "  DOT 4, batch L-204, opened on 2026-04-30",
        "  DOT 4, batch not told, day of opening not told",
    ]


def test_a_bleed_tells_its_places_and_its_own_evidence() -> None:
    told = record("bleed-bubbles-second-place")
    assert [(one.id, one.says) for one in told.air] == [
        ("peak of hose", "open"),
        ("abs unit", "seen out"),
        ("dead end switch", "open"),
    ]
    assert ("posture 1", "screw", "yes") in [(one.id, one.before, one.answer) for one in told.gates]
    lines = record_text(told).splitlines()
    at = lines.index("AIR")
    assert lines[at + 1 : at + 4] == [
        "  the hose's arch: open",
        "  the ABS unit: seen out",
        "  the brake light switch: open",
    ]
    assert "    by volume and bubbles: volume no, bubbles yes; they contradict each other" in lines
    assert "AIR" not in record_text(record("closed")).splitlines()
