# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The words of the bench, British and American, in one table.

Texts are written in British words. ``Speaker`` turns them into another set before they are
laid out, and leaves the names people gave their parts as they are.
"""

import re
from collections.abc import Iterable
from enum import StrEnum


class WordSet(StrEnum):
    """Whose words are used."""

    UK = "uk"
    US = "us"


# British: American. A plural "s" is carried over; a capital first letter too.
_AMERICAN = {
    "bleed nipple": "bleeder screw",
    "nipple": "bleeder",
    "ring spanner": "box-end wrench",
    "spanner": "wrench",
    "tyre": "tire",
    "disc": "rotor",
    "hose": "line",
    "calliper": "caliper gauge",
    "millimetre": "millimeter",
    "millilitre": "milliliter",
    "litre": "liter",
    "colour": "color",
    "centre": "center",
    "pressurised": "pressurized",
    "nip up": "snug",
}


class Speaker:
    """Says a British text in the words asked for, keeping given names untouched.

    >>> Speaker(WordSet.US, keep=["disc hose"])("Spanner on the nipples of “disc hose”")
    'Wrench on the bleeders of “disc hose”'
    """

    def __init__(self, words: WordSet = WordSet.UK, keep: Iterable[str] = ()) -> None:
        self._table = _AMERICAN if words is WordSet.US else {}
        kept = sorted((re.escape(name) for name in set(keep) if name), key=len, reverse=True)
        known = sorted(self._table, key=len, reverse=True)
        self._pattern = re.compile(
            rf"(?P<kept>{'|'.join(kept) or '(?!)'})|\b(?P<word>{'|'.join(known)})(?P<s>s?)\b",
            re.IGNORECASE,
        )

    def __call__(self, text: str) -> str:
        """Return the text in the words asked for."""
        return self._pattern.sub(self._swap, text) if self._table else text

    def _swap(self, found: re.Match[str]) -> str:
        if found["kept"]:
            return found[0]
        said = _with_plural(self._table[found["word"].lower()], found["s"])
        return said[0].upper() + said[1:] if found["word"][0].isupper() else said


def _with_plural(word: str, s: str) -> str:
    return f"{word}e{s}" if s and word.endswith(("ch", "sh", "s", "x")) else word + s
