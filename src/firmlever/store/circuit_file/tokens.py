# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Cuts TOML text into tokens, whether or not it is valid TOML."""

import re
from collections.abc import Iterator
from typing import NamedTuple

# a string that nobody closed ends with its line, or with the text
_STRING = r"""
    (?P<string>
        \"\"\"(?:[^\\]|\\.)*?(?:\"{3,5}|\Z)
      | \'\'\'.*?(?:\'{3,5}|\Z)
      | "(?:[^"\\\n]|\\[^\n])*(?:"|(?=\n)|\\?\Z|\\)
      | '[^'\n]*(?:'|(?=\n)|\Z)
    )
  | (?P<comment>\#[^\n]*)
"""
_TOKEN = re.compile(
    rf"""{_STRING}
  | (?P<newline>\n[ \t\r\n]*)
  | (?P<space>[ \t\r\ufeff]+)
  | (?P<mark>[\[\]{{}}=,.])
  | (?P<bare>[^\s\[\]{{}}=,.\#"']+|[^\S\n])
    """,
    re.VERBOSE | re.DOTALL,
)
_MARK = re.compile(rf"{_STRING} | (?P<mark>[\[\]{{}}=,.\n])", re.VERBOSE | re.DOTALL)


class Token(NamedTuple):
    """A piece of the text: its kind, its words and where it starts and ends."""

    kind: str
    text: str
    start: int
    end: int


def tokens(text: str) -> Iterator[Token]:
    """Yield the pieces of a text in order; together they are the text."""
    for found in _TOKEN.finditer(text):
        yield Token(str(found.lastgroup), found.group(), *found.span())


def too_deep_at(text: str, limit: int) -> int:
    r"""Return the line where brackets and dotted keys first nest deeper than a limit, or 0.

    Needs no valid TOML and no recursion, so nothing it is given can exhaust the stack.

    >>> too_deep_at("a = 1\nb = [[1], [2, 3]]", 1)
    2
    >>> too_deep_at("a = 1\nb = [[1], [2, 3]]", 2)
    0
    """
    open_brackets, dots = 0, 0
    for mark in _MARK.finditer(text):
        sign = mark.group("mark")
        if sign is None:
            continue
        if sign == ".":
            dots += 1
        else:
            dots = 0
            if sign in "[{":
                open_brackets += 1
            elif sign in "]}":
                open_brackets = max(open_brackets - 1, 0)
        if open_brackets + dots > limit:
            return text.count("\n", 0, mark.start()) + 1
    return 0
