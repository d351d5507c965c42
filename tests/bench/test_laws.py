# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Laws of the fold on random logs, and a literal reading of the same logs beside it."""

import json
from functools import reduce
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.histories import FOLDER, NAMES, events_of, history, sheet, sheet_of
from bench.random_logs import Document, event_id, logs
from firmlever.domain.bench.events import Event
from firmlever.domain.bench.facts import nothing_yet
from firmlever.domain.bench.fold import apply, fold
from firmlever.domain.bench.ordering import effective, in_order
from firmlever.domain.bench.reading import read_event
from firmlever.domain.bench.readings import Cup, corrected_unit, prior_unit
from firmlever.domain.bench.state import state_document
from oracle.bench_log import Run, run

Log = tuple[str, list[Document]]


def events(log: Log) -> list[Event]:
    return [read_event(event) for event in log[1]]


def state(name: str, of: list[Event]) -> dict[str, Any]:
    return state_document(sheet(name), fold(sheet(name), of))


@given(logs(), st.randoms(use_true_random=False))
def test_the_order_of_arrival_does_not_matter(log: Log, chance: Any) -> None:
    told = events(log)
    mixed = told.copy()
    chance.shuffle(mixed)
    assert state(log[0], mixed) == state(log[0], told)


@given(logs(), st.data())
def test_repeats_do_not_matter(log: Log, data: st.DataObject) -> None:
    told = events(log)
    again = data.draw(st.lists(st.sampled_from(told))) if told else []
    assert state(log[0], [*told, *again]) == state(log[0], told)


@given(logs(), st.data())
def test_undone_and_redone_is_as_if_nothing_was(log: Log, data: st.DataObject) -> None:
    told = events(log)
    if not told:
        return
    target = data.draw(st.sampled_from(told)).id
    stamp = {"at": "2026-05-02T09:00:00.000Z", "who": "Ada Fenn", "device": "phone"}
    ids = [event_id(number, "phone") for number in (60_000, 60_001)]
    undo = {"id": ids[0], **stamp, "kind": "undone", "target": target}
    redo = {"id": ids[1], **stamp, "kind": "undone", "target": ids[0]}
    both = [*told, read_event(undo), read_event(redo)]
    assert state(log[0], both) == state(log[0], told)


@given(logs(), st.data())
def test_an_event_that_was_undone_might_never_have_been(log: Log, data: st.DataObject) -> None:
    told = [event for event in events(log) if event.kind != "undone"]
    if not told:
        return
    target = data.draw(st.sampled_from(told))
    stamp = {"at": "2026-05-02T09:00:00.000Z", "who": "Ada Fenn", "device": "phone"}
    undo = read_event(
        {"id": event_id(60_000, "phone"), **stamp, "kind": "undone", "target": target.id}
    )
    without = [event for event in told if event is not target]
    assert state(log[0], [*told, undo]) == state(log[0], without)


@given(logs(undos=False), st.data())
def test_a_fold_goes_on_from_where_it_stood(log: Log, data: st.DataObject) -> None:
    told, at = events(log), sheet(log[0])
    cut = data.draw(st.integers(0, len(told)))
    on = reduce(lambda facts, event: apply(at, facts, event), told[cut:], fold(at, told[:cut]))
    assert on == fold(at, told)


@given(logs())
def test_what_is_told_stays_within_its_bounds(log: Log) -> None:
    told = state(log[0], events(log))
    pot = told["pot"]
    assert pot["counts_left"] >= pot["next_set"] or pot["call"] == "watch"
    assert pot["next_set"] >= 0
    assert pot["left_ml"] >= 0.0
    assert pot["since_look"] <= pot["since_fill"]
    for turn in told["turns"]:
        assert turn["count"] >= 0
        assert 0.0 <= turn["out_ml"]["p05"] <= turn["out_ml"]["p50"] <= turn["out_ml"]["p95"]
        assert all(0.0 <= share <= 1.0 for share in turn["new_share"].values())
        total = turn["total_count"]
        assert (turn["cup_at"] or 0) <= total["p05"] <= total["p50"] <= total["p95"]
        assert all(1 <= len(mark["named"]) <= 2 for mark in turn["marks"])
    json.dumps(told, allow_nan=False)


@given(logs())
def test_between_fillings_and_looks_the_pot_only_falls(log: Log) -> None:
    at = sheet(log[0])
    facts, before = nothing_yet(at), None
    for event in effective(in_order(events(log))):
        facts = apply(at, facts, event)
        told = state_document(at, facts)["pot"]
        if event.kind == "set_done" and before:
            assert told["counts_left"] <= before["counts_left"]
            assert told["left_ml"] <= before["left_ml"]
        before = told


@given(
    st.sampled_from(["plain", "plain-seconds", "skerry-front"]),
    st.lists(st.tuples(st.floats(0.0, 300.0), st.integers(1, 400)), max_size=6),
)
def test_every_cup_narrows_what_a_count_brings(name: str, read: list[tuple[float, int]]) -> None:
    cups = [Cup(ml, 0.0, at) for ml, at in read]
    widths = [corrected_unit(sheet(name), cups[:upto]).sd for upto in range(len(cups) + 1)]
    assert widths[0] == prior_unit(sheet(name)).sd
    assert all(later < earlier for earlier, later in pairwise(widths))


def close(value: Any) -> Any:
    return pytest.approx(value, rel=1e-9, abs=1e-9)


def compare_with_literal_reading(told: dict[str, Any], other: Run) -> None:
    """Everything that the literal reading keeps, in its own words."""
    assert told["phase"] == other.phase()
    assert told["open"] == other.still_open()
    assert [(one["event"], one["why"]) for one in told["refused"]] == other.refused
    assert [(one["code"], one["event"]) for one in told["doubts"]] == other.doubts
    assert {gate: one["answer"] for gate, one in told["gates"].items()} == other.gates
    heading = ("posture", "leader", "point", "work", "work_why", "is_paused", "suction")
    assert [told[key] for key in heading] == [
        other.posture, other.leader, other.at, other.work, other.why, other.paused, other.suction,
    ]  # fmt: skip
    assert list(told["unit_ml"].values()) == close(list(other.unit(other.at)))
    assert [one["due_at"] for one in told["follow_ups"]] == other.due()
    for at, (turn, one) in enumerate(zip(told["turns"], other.screws, strict=True)):
        flags = ("count", "sample_ml", "is_begun", "is_shut", "is_done", "reason")
        words = ("n", "sample", "begun", "shut", "done", "reason")
        assert [turn[key] for key in flags] == [one[key] for key in words]
        assert list(turn["out_ml"].values()) == close(list(other.out(at, one["n"])))
        assert tuple(turn["total_count"].values()) == other.total(at)
        assert list(turn["new_share"].values()) == close(list(other.new_share(at)))
        marks = [(mark["look"], list(mark["named"])) for mark in turn["marks"]]
        assert marks == [(look, other.named(at, count)) for look, count in one["marks"]]
        outs = [list(mark["at_ml"].values()) for mark in turn["marks"]]
        assert outs == [close(list(other.out(at, count))) for _, count in one["marks"]]
    compare_pots(told["pot"], other)


def compare_pots(pot: dict[str, Any], other: Run) -> None:
    assert (pot["call"], pot["counts_left"], pot["next_set"]) == other.call()
    if other.pot is None:
        assert pot["share"] is None
        assert pot["above_min_ml"] is None
        return
    kept = [pot["share"], pot["from_share"], pot["since_look"], pot["since_fill"]]
    assert kept == close([other.pot[key] for key in "sfkq"])
    looks = [pot["looks"]["number"], pot["looks"]["counts"], pot["looks"]["drop"]]
    learned = [len(other.looks), sum(n for n, _ in other.looks), sum(d for _, d in other.looks)]
    assert looks == close(learned)
    if other.below is None:
        left = max(0.0, other.safe() - other.pot["k"]) * other.unit(other.at)[0]
        assert pot["left_ml"] == close(left)


@given(logs())
def test_a_literal_reading_comes_to_the_same(log: Log) -> None:
    name, told = log
    plain = json.loads((FOLDER / "sheets" / f"{name}.json").read_text("utf-8"))
    compare_with_literal_reading(state(name, events(log)), run(plain, told))


@pytest.mark.parametrize("name", NAMES)
def test_a_literal_reading_of_each_history_comes_to_the_same(name: str) -> None:
    at = sheet_of(name)
    plain = json.loads((FOLDER / history(name)["sheet"]).read_text("utf-8"))
    told = state_document(at, fold(at, events_of(name)))
    compare_with_literal_reading(told, run(plain, history(name)["events"]))
