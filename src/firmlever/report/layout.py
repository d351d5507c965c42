# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lines of a page for a terminal or a pipe: wrapping, columns, plain letters."""

import re
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from unicodedata import category, east_asian_width

COLUMNS = 78
_FIXED_BLANK = "\N{NO-BREAK SPACE}"
_ONE_WORD = re.compile(r"[\w./\\:-]+")
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=%|ml\b|mm\b|min)")


class Role(StrEnum):
    """What a line is for; a terminal may show it by colour as well."""

    TEXT = "text"
    TITLE = "title"
    HEADLINE = "headline"
    HEADING = "heading"
    ATTENTION = "attention"
    FAINT = "faint"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a page."""

    text: str = ""
    role: Role = Role.TEXT


Page = tuple[Line, ...]

_ASCII = str.maketrans(
    {
        "–": "-",
        "−": "-",
        "─": "-",
        "│": "|",
        "┌": "+",
        "┐": "+",
        "└": "+",
        "┘": "+",
        "├": "+",
        "┤": "+",
        "┬": "+",
        "┴": "+",
        "┼": "+",
        "●": "@",
        "∩": "^",
        "⬡": "o",
        "▒": "#",
        "░": ".",
        "…": "~",
        "≈": "~",
        "“": '"',
        "”": '"',
        "’": "'",
        "°": " deg ",
    }
)


def in_ascii(text: str) -> str:
    """Write a text with ASCII letters only; what has no stand-in becomes a question mark."""
    return text.translate(_ASCII).encode("ascii", "replace").decode("ascii")


def printable(text: str) -> str:
    """Take out control characters, which could steer a terminal."""
    return "".join("?" if category(letter) == "Cc" else letter for letter in text)


def quoted(word: str) -> str:
    """Write a word so that a shell takes it as one.

    >>> quoted("skerry.toml"), quoted("my bike.toml")
    ('skerry.toml', '"my bike.toml"')
    """
    return word if _ONE_WORD.fullmatch(word) else f'"{word}"'


def width(text: str) -> int:
    """Count the columns a text takes; wide letters take two."""
    return sum(2 if east_asian_width(letter) in "WF" else 1 for letter in text)


def cut(text: str, columns: int) -> str:
    """Shorten a text to so many columns."""
    if width(text) <= columns:
        return text
    while text and width(text) > columns - 1:
        text = text[:-1]
    return f"{text}…"


def pad(text: str, columns: int) -> str:
    """Fill a text with blanks to so many columns."""
    return text + " " * (columns - width(text))


def paragraph(text: str, indent: str = "", hang: str | None = None, role: Role = Role.TEXT) -> Page:
    """Wrap a text to the width of the page; ``hang`` indents all lines but the first."""
    lines = textwrap.wrap(
        _BEFORE_UNIT.sub(_FIXED_BLANK, printable(text)),
        COLUMNS,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return tuple(Line(line.replace(_FIXED_BLANK, " "), role) for line in lines)


def heading(text: str) -> Page:
    """A heading with an empty line above it."""
    return (Line(), Line(text, Role.HEADING))


def bullets(texts: Iterable[str]) -> Page:
    """A list, one item after the other."""
    return tuple(line for text in texts for line in paragraph(text, "  - ", "    "))


def columns(rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> tuple[str, ...]:
    """Set rows in columns two blanks apart; those in ``right`` stand to the right."""
    clean = [[printable(cell) for cell in row] for row in rows]
    widths = [max(width(cell) for cell in column) for column in zip(*clean, strict=True)]
    return tuple(
        "  ".join(
            " " * (wide - width(cell)) + cell if place in right else pad(cell, wide)
            for place, (cell, wide) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in clean
    )
