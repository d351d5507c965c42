# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Cuts TOML text into tokens, whether or not it is valid TOML."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

# a string that nobody closed ends with its line, or with the text
_TOKEN = re.compile(
    r"""
    (?P<string>
        \"\"\"(?:[^\\]|\\.)*?(?:\"{3,5}|\Z)
      | \'\'\'.*?(?:\'{3,5}|\Z)
      | "(?:[^"\\\n]|\\[^\n])*(?:"|(?=\n)|\\?\Z|\\)
      | '[^'\n]*(?:'|(?=\n)|\Z)
    )
  | (?P<comment>\#[^\n]*)
  | (?P<newline>\n)
  | (?P<space>[ \t\r\ufeff]+)
  | (?P<mark>[\[\]{}=,.])
  | (?P<bare>[^\s\[\]{}=,.\#"']+|[^\S\n])
    """,
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text: its kind, its words and where it starts and ends."""

    kind: str
    text: str
    start: int
    end: int


def tokens(text: str) -> Iterator[Token]:
    """Yield the pieces of a text in order; together they are the text."""
    for found in _TOKEN.finditer(text):
        yield Token(str(found.lastgroup), found.group(), found.start(), found.end())


def deepest_nesting(text: str) -> tuple[int, int]:
    r"""Return how deep brackets and dotted keys nest at most, and the line of it.

    Needs no valid TOML and no recursion, so nothing it is given can exhaust the stack.

    >>> deepest_nesting("a = 1\nb = [[1], [2, 3]]")
    (2, 2)
    """
    deepest, at_line = 0, 1
    open_brackets, dots, line = 0, 0, 1
    for token in tokens(text):
        if token.text == ".":
            dots += 1
        elif token.text in ("[", "{"):
            open_brackets += 1
        elif token.text in ("]", "}"):
            open_brackets = max(open_brackets - 1, 0)
        if token.text in ("=", ",", "\n", "[", "{", "]", "}"):
            dots = 0
        if open_brackets + dots > deepest:
            deepest, at_line = open_brackets + dots, line
        line += token.text.count("\n")
    return deepest, at_line
