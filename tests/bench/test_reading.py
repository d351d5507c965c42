# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Events are read strictly; the browser reads the same list."""

import json
import math
from typing import Any

import pytest

from bench.histories import FOLDER
from firmlever.domain.bench.reading import event_document, read_event
from firmlever.errors import MalformedEventError

CASES: list[dict[str, Any]] = json.loads((FOLDER / "reading.json").read_text("utf-8"))
RIGHT: dict[str, Any] = CASES[0]["event"]


def wrong_in(document: object) -> list[str]:
    """Where an event is wrong; nowhere if it can be read."""
    try:
        read_event(document)
    except MalformedEventError as error:
        return [problem.place for problem in error.problems]
    return []


@pytest.mark.parametrize("case", CASES, ids=[case["about"] for case in CASES])
def test_an_event_is_refused_for_all_that_is_wrong_with_it(case: dict[str, Any]) -> None:
    assert wrong_in(case["event"]) == case["wrong"]


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf, 10**400])
def test_a_number_is_finite(number: float) -> None:
    assert wrong_in({**RIGHT, "count": number}) == ["count"]


def test_half_a_character_is_refused_and_shown_safely() -> None:
    with pytest.raises(MalformedEventError) as raised:
        read_event({**RIGHT, "who": "\ud800", "\udfff": 1})
    assert str(raised.value).encode()
    assert [problem.place for problem in raised.value.problems] == ["who", "\\udfff"]


def test_a_count_is_kept_as_a_whole_number() -> None:
    kept = event_document(read_event({**RIGHT, "count": 5.0}))
    assert type(kept["count"]) is int


def test_a_refusal_says_what_was_found_and_what_would_do() -> None:
    with pytest.raises(MalformedEventError) as raised:
        read_event({**RIGHT, "who": "x" * 61, "count": 0, "x": 1})
    assert str(raised.value) == (
        "this entry of the bench log cannot be used and was not kept\n"
        f"  who: '{'x' * 56}...; a text of 1 to 60 characters\n"
        "  count: 0; a whole number from 1 to 5000\n"
        "  x: not a key of this event; leave it out"
    )
