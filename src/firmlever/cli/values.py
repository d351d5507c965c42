# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Turns the words of a command line into values, or says what they should have been."""

from collections.abc import Sequence
from datetime import date
from enum import StrEnum
from math import isfinite
from typing import TypeVar

from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.errors import ImpossibleOptionError, UnknownNameError

Choice = TypeVar("Choice", bound=StrEnum)

_RANGE = ".."


def choice(what: str, kinds: type[Choice], asked: str) -> Choice:
    """Return the member of this name.

    Raises
    ------
    UnknownNameError
        When there is none.
    """
    names = [kind.value for kind in kinds]
    if asked not in names:
        raise UnknownNameError(what, asked, names)
    return kinds(asked)


def number(option: str, text: str) -> float:
    """Read a number.

    Raises
    ------
    ImpossibleOptionError
        When it is none.
    """
    value = _number(text)
    if value is None:
        raise ImpossibleOptionError(option, f"“{text}”", "give a number, as 0.95")
    return value


def whole(option: str, text: str) -> int:
    """Read a whole number of zero or more.

    Raises
    ------
    ImpossibleOptionError
        When it is none.
    """
    if not (text.isascii() and text.isdecimal()):
        raise ImpossibleOptionError(option, f"“{text}”", "give a whole number, as 1")
    return int(text)


def day(option: str, text: str) -> date:
    """Read a date.

    Raises
    ------
    ImpossibleOptionError
        When it is none.
    """
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise ImpossibleOptionError(
            option, f"“{text}”", "give year, month and day, as 2026-05-01"
        ) from None


def quantities(texts: Sequence[str]) -> tuple[tuple[str, Quantity], ...]:
    """Read ``KEY=VALUE`` pairs; a value is a number or ``LOW..HIGH``.

    Raises
    ------
    ImpossibleOptionError
        Naming every pair that cannot be read.
    """
    read = [(text, _pair(text)) for text in texts]
    unread = [f"“{text}”" for text, pair in read if pair is None]
    if unread:
        raise ImpossibleOptionError(
            "KEY=VALUE",
            " or ".join(unread),
            "give a number or LOW..HIGH, as front/master/bore_mm=16 or "
            '"front/left caliper/volume_ml=11..15"',
        )
    return tuple(pair for _, pair in read if pair is not None)


def _pair(text: str) -> tuple[str, Quantity] | None:
    key, _, value = text.rpartition("=")
    quantity = _quantity(value)
    return (key.strip(), quantity) if key.strip() and quantity is not None else None


def _quantity(text: str) -> Quantity | None:
    if _RANGE not in text:
        value = _number(text)
        return None if value is None else Exact(value)
    low, high = (_number(end) for end in text.split(_RANGE, 1))
    if low is None or high is None or low >= high:
        return None
    return Between(low, high)


def _number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if isfinite(value) else None
