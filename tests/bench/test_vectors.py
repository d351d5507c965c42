# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every kept history comes to its state, and to what was worked out for it by hand."""

import json

import pytest

from bench.histories import (
    BY_HAND,
    FOLDER,
    NAMES,
    SHEETS,
    as_pairs,
    at_path,
    compared,
    events_of,
    history,
    same_as_kept,
    sheet,
    state_of,
)
from firmlever.domain.bench.events import DEEDS
from firmlever.domain.bench.reading import event_document
from firmlever.domain.bench.sheet import sheet_document


@pytest.mark.parametrize("name", NAMES)
def test_a_history_comes_to_what_was_worked_out_by_hand(name: str) -> None:
    state = state_of(name)
    expected = history(name)["expect"]
    assert expected
    found = {path: at_path(state, path) for path in expected}
    assert as_pairs(found) == compared(expected, BY_HAND)


@pytest.mark.parametrize("name", NAMES)
def test_a_history_comes_to_its_whole_state(name: str) -> None:
    same_as_kept(name, state_of(name))


def test_there_are_enough_histories_and_every_kind_of_event_is_in_them() -> None:
    events = [event for name in NAMES for event in events_of(name)]
    assert len(NAMES) >= 60
    assert {event.kind for event in events} == set(DEEDS)
    assert set(SHEETS) == {history(name)["sheet"][7:-5] for name in NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_events_are_written_back_as_they_were_read(name: str) -> None:
    assert [event_document(event) for event in events_of(name)] == history(name)["events"]


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_written_back_as_it_was_read(name: str) -> None:
    """One kept before there were bleeds and fills lacks their keys, and reads all the same."""
    kept = json.loads((FOLDER / "sheets" / f"{name}.json").read_text("utf-8"))
    kept = kept | {"air": kept.get("air", []), "froth_minutes": kept.get("froth_minutes")}
    kept["gates"] = [{"point": None, "see": None, "stop": None} | one for one in kept["gates"]]
    assert json.loads(json.dumps(sheet_document(sheet(name)))) == kept
