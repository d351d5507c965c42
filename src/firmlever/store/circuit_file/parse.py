# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Turns the text of a circuit file into plain tables, whatever the text holds."""

import re
import tomllib
from typing import Any

from firmlever.errors import CircuitFileError, Problem
from firmlever.store.circuit_file.tokens import too_deep_at

DEEPEST_NESTING = 12
BYTE_ORDER_MARK = "\ufeff"

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)$")

# how the parser's message starts: (what was found, what would do)
_WORDS: dict[str, tuple[str, str]] = {
    "Cannot": ("a key or table is given twice", "each key once; a further part has two brackets"),
    "Duplicate": ("a key is given twice", "each key once"),
    "Expected '='": ("a key without an equals sign", "key = value"),
    "Expected ']": ("a heading is not closed", "[bike], [[circuit]] or [[circuit.part]]"),
    "Expected newline": (
        "something follows where the line should end",
        "one key = value in a line; text in quotation marks, decimals with a point",
    ),
    "Illegal character": (
        "a text is not closed, or a control character is in it",
        "text stands in one line between quotation marks",
    ),
    "Invalid date": ("this date does not exist", "a date as year-month-day: 2024-04-20"),
    "Invalid value": (
        "the value cannot be read",
        "a number, a date, or text in quotation marks",
    ),
    "Unclosed": ("a bracket is not closed", "as many closing as opening brackets"),
    "Unescaped": ("a backslash in a text", "write it twice: \\\\"),
    "Unterminated": ("a text is not closed", "a quotation mark at its end"),
}
_NO_TOML = ("this is not a circuit file", "lines of key = value under headings such as [bike]")


def parse(file: str, text: str) -> dict[str, Any]:
    """Return the tables of a TOML text.

    Raises
    ------
    CircuitFileError
        When the text nests too deep or is no TOML; it names the line.
    """
    line = too_deep_at(text, DEEPEST_NESTING)
    if line:
        problem = Problem(line, "brackets", "nested too deep", f"at most {DEEPEST_NESTING} levels")
        raise CircuitFileError(file, [problem])
    try:
        return tomllib.loads(text.removeprefix(BYTE_ORDER_MARK))
    except ValueError as error:
        raise CircuitFileError(file, [_problem(str(error), text)]) from None


def _problem(message: str, text: str) -> Problem:
    found, allowed = next(
        (words for start, words in _WORDS.items() if message.startswith(start)), _NO_TOML
    )
    place = _PLACE.search(message)
    if place is not None:
        return Problem(int(place[1]), f"column {place[2]}", found, allowed)
    if message.endswith("(at end of document)"):
        return Problem(text.count("\n") + 1, "the end of the file", found, allowed)
    return Problem(0, "the file", "a number has thousands of digits", "numbers of a usual length")
