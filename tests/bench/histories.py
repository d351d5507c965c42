# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The histories under tests/vectors/bench, which the browser folds too.

Events stand in the order in which they arrive. ``expect`` was worked out by hand, as
``about`` says; ``state`` is regression: our own output.
"""

import json
import os
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from firmlever.domain.bench.events import Event
from firmlever.domain.bench.fold import fold
from firmlever.domain.bench.reading import read_event
from firmlever.domain.bench.sheet import JobSheet, read_sheet
from firmlever.domain.bench.state import state_document

FOLDER = Path(__file__).resolve().parents[1] / "vectors" / "bench"
NAMES = sorted(path.stem for path in FOLDER.glob("*.json") if path.stem != "reading")
SHEETS = sorted(path.stem for path in (FOLDER / "sheets").glob("*.json"))
# two languages may differ in the last digits of exp, log and sqrt; figures worked out by
# hand carry at least seven digits
SAME = 1e-9
BY_HAND = 1e-6


@cache
def sheet(name: str) -> JobSheet:
    return read_sheet(json.loads((FOLDER / "sheets" / f"{name}.json").read_text("utf-8")))


@cache
def history(name: str) -> dict[str, Any]:
    kept: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    return kept


def sheet_of(name: str) -> JobSheet:
    return sheet(Path(history(name)["sheet"]).stem)


def events_of(name: str) -> tuple[Event, ...]:
    return tuple(read_event(event) for event in history(name)["events"])


def state_of(name: str) -> dict[str, Any]:
    at = sheet_of(name)
    plain: dict[str, Any] = json.loads(json.dumps(state_document(at, fold(at, events_of(name)))))
    return plain


def at_path(state: Any, path: str) -> Any:
    """The value a dotted path leads to; a number is a place in a list."""
    for step in path.split("."):
        state = state[int(step)] if isinstance(state, list) else state[step]
    return state


def compared(value: Any, tolerance: float) -> Any:
    """A value that compares with another within a tolerance, key by key and in order."""
    match value:
        case dict():
            return [(key, compared(one, tolerance)) for key, one in value.items()]
        case list():
            return [compared(one, tolerance) for one in value]
        case bool() | str() | None:
            return value
        case _:
            return pytest.approx(value, rel=tolerance, abs=tolerance)


def as_pairs(value: Any) -> Any:
    """The same value with every object as a list of pairs."""
    match value:
        case dict():
            return [(key, as_pairs(one)) for key, one in value.items()]
        case list():
            return [as_pairs(one) for one in value]
        case _:
            return value


def same_as_kept(name: str, state: dict[str, Any]) -> None:
    """Compare a whole state with the kept one, or write it anew and fail."""
    if os.environ.get("FIRMLEVER_SNAPSHOTS") == "write":
        path = FOLDER / f"{name}.json"
        path.write_text(written({**history(name), "state": state}), encoding="utf-8", newline="\n")
        pytest.fail(f"{name} was written anew: read it, then run without FIRMLEVER_SNAPSHOTS")
    assert as_pairs(state) == compared(history(name)["state"], SAME)


def written(kept: dict[str, Any]) -> str:
    """One key, one event and one expected value a line."""
    events = ",\n  ".join(_line(event) for event in kept["events"])
    expect = ",\n  ".join(f"{_line(path)}: {_line(one)}" for path, one in kept["expect"].items())
    state = ",\n  ".join(f"{_line(key)}: {_line(one)}" for key, one in kept["state"].items())
    head = f'"about": {_line(kept["about"])},\n "sheet": {_line(kept["sheet"])}'
    return (
        f'{{{head},\n "events": [\n  {events}],\n "expect": {{\n  {expect}}},\n '
        f'"state": {{\n  {state}}}}}\n'
    )


def _line(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
