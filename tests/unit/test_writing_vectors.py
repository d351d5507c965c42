# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Figures and words are written by one rule in two languages: both are held to these examples.

Regression: tests/data/writing.json holds what the rules give; the app's own tests read it too.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from firmlever.domain.quantity import Band, CountBand
from firmlever.report import figures, words

ROOT = Path(__file__).resolve().parent.parent.parent
VECTORS: dict[str, Any] = json.loads(
    (ROOT / "tests" / "data" / "writing.json").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("vector", VECTORS["span"], ids=lambda vector: vector["written"])
def test_a_range(vector: dict[str, Any]) -> None:
    assert figures.span(vector["low"], vector["high"]) == vector["written"]


@pytest.mark.parametrize("vector", VECTORS["band"], ids=lambda vector: vector["per_cent"])
def test_a_band(vector: dict[str, Any]) -> None:
    points = (vector["p05"], vector["p50"], vector["p95"])
    band = Band(*points)
    assert figures.band_range(band) == vector["range"]
    assert figures.band_middle(band) == vector["middle"]
    assert figures.at_least(band) == vector["at_least"]
    assert figures.per_cent(Band(*(point / 100 for point in points))) == vector["per_cent"]


@pytest.mark.parametrize("vector", VECTORS["count"], ids=lambda vector: vector["written"])
def test_a_count(vector: dict[str, Any]) -> None:
    band = CountBand(vector["p05"], vector["p50"], vector["p95"])
    assert figures.count(band) == vector["written"]
    assert figures.times(band) == vector["times"]
    assert figures.counted(figures.count(band), "stroke") == vector["strokes"]


@pytest.mark.parametrize("vector", VECTORS["plain"], ids=lambda vector: vector["written"])
def test_a_value_somebody_gave(vector: dict[str, Any]) -> None:
    assert figures.plain(vector["value"]) == vector["written"]


@pytest.mark.parametrize("vector", VECTORS["american"], ids=lambda vector: vector["said"])
def test_american_words(vector: dict[str, Any]) -> None:
    speaker = words.Speaker(words.WordSet.US, keep=vector["keep"])
    assert speaker(vector["text"]) == vector["said"]


def test_the_app_has_the_same_table_of_words() -> None:
    table = json.loads((ROOT / "frontend/src/lib/american.json").read_text(encoding="utf-8"))
    assert table == words._AMERICAN
