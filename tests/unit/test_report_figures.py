# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Expected texts here are derived by hand from the rule in the module."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.domain.quantity import Band, CountBand
from firmlever.report.figures import (
    at_least,
    band_middle,
    band_range,
    count,
    counted,
    per_cent,
    plain,
    span,
    times,
)


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (64.2, 83.1, "64–83"),  # half width 9.4: units
        (111.0, 163.0, "110–160"),  # half width 26: tens
        (103.0, 143.0, "100–140"),  # half width 20: exactly two tens
        (103.0, 142.9, "103–143"),  # just under: units
        (1100.0, 1900.0, "1100–1900"),  # half width 400: hundreds
        (5.6, 6.6, "5.6–6.6"),
        (1.0, 1.03, "1.000–1.030"),
        (0.0, 0.0, "0"),
        (5.0, 5.0, "5.0"),
        (1234.0, 1234.0, "1200"),
        (-0.4, 7.2, "0–7"),
        (-8.0, 8.0, "-8–8"),
    ],
)
def test_a_range_keeps_the_digits_its_half_width_holds_twice(
    low: float, high: float, text: str
) -> None:
    assert span(low, high) == text


@given(
    st.floats(0, 1e5),
    st.floats(1e-2, 1e6),
)
def test_rounding_moves_an_end_by_at_most_a_quarter_of_the_half_width(
    low: float, breadth: float
) -> None:
    high = low + breadth
    first, last = (float(end) for end in _split(span(low, high)))
    for end, written in ((low, first), (high, last)):
        assert abs(written - end) <= breadth / 8 * (1 + 1e-6)
    assert first < last


def _split(text: str) -> tuple[str, str]:
    low, _, high = text.partition("–")
    return low, high


def test_a_band_is_written_by_its_ends_and_its_middle_alike() -> None:
    band = Band(5.4, 9.3, 17.2)
    assert (band_range(band), band_middle(band)) == ("5–17", "9")
    assert per_cent(Band(0.0513, 0.0912, 0.1704)) == "9 % (5–17)"
    assert per_cent(Band(0.09, 0.09, 0.09)) == "9.0 %"


@pytest.mark.parametrize(
    ("low", "text"), [(20.9, "20"), (9.99, "9.9"), (0.0, "0"), (129.0, "120"), (0.0456, "0.045")]
)
def test_a_guard_is_rounded_down(low: float, text: str) -> None:
    assert at_least(Band(low, low + 1, low + 2)) == text


def test_counts_stay_whole_and_take_their_nouns() -> None:
    assert count(CountBand(27, 31, 36)) == "27–36"
    assert count(CountBand(3, 3, 3)) == "3"
    assert times(CountBand(0, 0, 1)) == "0–1"
    assert times(CountBand(0, 0, 0)) == "-"
    assert counted("1", "stroke") == "1 stroke"
    assert counted("1–2", "stroke") == "1–2 strokes"
    assert plain(8.0) == "8"
    assert plain(3.125) == "3.125"
