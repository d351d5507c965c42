# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a figure with its band is written: never a digit that the band does not carry.

The rule: a band is rounded to the largest power of ten of which its half width holds at
least two. Both ends then stay apart and the rounding moves neither by more than a quarter
of the half width. A value without a band keeps two significant digits. Whole counts
stay as they are, since they were rounded away from harm when they were made.
"""

from math import floor, log10

from firmlever.domain.quantity import Band, CountBand

_STEPS_IN_HALF_WIDTH = 2
_DIGITS_WITHOUT_BAND = 2
_DASH = "–"


def _decimals(low: float, high: float) -> int:
    half_width = (high - low) / 2
    size = max(abs(low), abs(high))
    if half_width > 1e-9 * size:
        return -floor(log10(half_width / _STEPS_IN_HALF_WIDTH) + 1e-9)
    return _DIGITS_WITHOUT_BAND - 1 - floor(log10(size)) if size else 0


def _write(value: float, decimals: int) -> str:
    rounded = round(value, decimals) + 0.0
    return f"{rounded:.{max(decimals, 0)}f}"


def span(low: float, high: float) -> str:
    """Write a range, or one figure where both ends read the same.

    >>> span(64.2, 83.1)
    '64–83'
    >>> span(5.0, 5.0)
    '5.0'
    """
    decimals = _decimals(low, high)
    ends = (_write(low, decimals), _write(high, decimals))
    return ends[0] if ends[0] == ends[1] else _DASH.join(ends)


def band_range(band: Band) -> str:
    """Write a band as its range.

    >>> band_range(Band(111.0, 130.0, 163.0))
    '110–160'
    """
    return span(band.p05, band.p95)


def at_least(band: Band) -> str:
    """Write what a guard may count on: the low end, rounded down to two digits.

    >>> at_least(Band(20.9, 22.0, 24.0))
    '20'
    """
    decimals = _DIGITS_WITHOUT_BAND - 1 - floor(log10(band.p05)) if band.p05 > 0 else 0
    return _write(floor(band.p05 * 10.0**decimals) / 10.0**decimals, decimals)


def band_middle(band: Band) -> str:
    """Write the middle of a band with the digits its width carries.

    >>> band_middle(Band(5.4, 9.3, 17.2))
    '9'
    """
    return _write(band.p50, _decimals(band.p05, band.p95))


def in_per_cent(band: Band) -> Band:
    """Turn a band of shares into per cent."""
    return Band(100 * band.p05, 100 * band.p50, 100 * band.p95)


def per_cent(band: Band) -> str:
    """Write a band of shares as middle and range in per cent.

    >>> per_cent(Band(0.054, 0.093, 0.172))
    '9 % (5–17)'
    """
    hundredths = in_per_cent(band)
    middle, ends = band_middle(hundredths), band_range(hundredths)
    return f"{middle} %" if middle == ends else f"{middle} % ({ends})"


def count(band: CountBand) -> str:
    """Write a band of whole numbers.

    >>> count(CountBand(27, 31, 36))
    '27–36'
    >>> count(CountBand(3, 3, 3))
    '3'
    """
    return str(band.p05) if band.p05 == band.p95 else f"{band.p05}{_DASH}{band.p95}"


def times(band: CountBand) -> str:
    """Write how often something is done; a dash where it is never done.

    >>> times(CountBand(1, 2, 2)), times(CountBand(0, 0, 0))
    ('1–2', '-')
    """
    return count(band) if band.p95 else "-"


def counted(number: str, noun: str) -> str:
    """Put a figure before its noun, with the plural where it needs one.

    >>> counted("1", "stroke"), counted("27–36", "stroke")
    ('1 stroke', '27–36 strokes')
    """
    return f"{number} {noun}" if number == "1" else f"{number} {noun}s"


def plain(value: float) -> str:
    """Write a value somebody gave, as they would have written it.

    >>> plain(8.0), plain(3.25)
    ('8', '3.25')
    """
    return f"{value:.4g}"
