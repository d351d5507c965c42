# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Finds the line of every key in TOML text, and the place of every value.

The text must already have been accepted by the parser and nest only a few levels.
"""

import tomllib
from dataclasses import dataclass, field

from firmlever.domain.fault import Path
from firmlever.store.circuit_file.tokens import Token, tokens


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the text."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Layout:
    """Where things stand in a text.

    ``lines`` has every key, table and list element; ``values`` has what stands to the
    right of an equals sign or in a list; ``entries`` has key and value together;
    ``last_entry`` tells, for a table under a heading, the stretch of its heading or of its
    last own key.
    """

    lines: dict[Path, int] = field(default_factory=dict)
    values: dict[Path, Span] = field(default_factory=dict)
    entries: dict[Path, Span] = field(default_factory=dict)
    last_entry: dict[Path, Span] = field(default_factory=dict)

    def line_of(self, path: Path) -> int:
        r"""Return the line of a path, or of the nearest thing above it that has one.

        >>> locate("[bike]\nname = 'Skerry'").line_of(("bike", "class"))
        1
        """
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 0)


def locate(text: str) -> Layout:
    """Return where everything stands in a valid TOML text."""
    return _Walk(text).run()


class _Walk:
    """One pass over the tokens; each method leaves ``at`` behind what it has read."""

    def __init__(self, text: str) -> None:
        self.tokens = [token for token in tokens(text) if token.kind != "space"]
        self.at = 0
        self.line = 1
        self.layout = Layout()
        self.counts: dict[Path, int] = {}

    def run(self) -> Layout:
        table: Path = ()
        while self.here is not None:
            start = self.here.start
            if self.here.kind in ("newline", "comment"):
                self.step()
                continue
            if self.here.text == "[":
                table = self.heading()
            else:
                self.entry(table)
            self.layout.last_entry[table] = Span(start, self.tokens[self.at - 1].end)
        return self.layout

    @property
    def here(self) -> Token | None:
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def step(self) -> Token:
        token = self.tokens[self.at]
        self.line += token.text.count("\n")
        self.at += 1
        return token

    def ahead(self, *texts: str) -> bool:
        return self.here is not None and self.here.text in texts

    def note(self, path: Path) -> None:
        self.layout.lines.setdefault(path, self.line)

    def heading(self) -> Path:
        self.step()
        is_list = self.ahead("[")
        if is_list:
            self.step()
        path: Path = ()
        names = self.dotted_key()
        for position, name in enumerate(names):
            path = (*path, name)
            self.note(path)
            last = position == len(names) - 1
            if last and is_list:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
                self.note(path)
        for _ in range(2 if is_list else 1):
            self.step()
        return path

    def dotted_key(self) -> list[str]:
        names = [_key_name(self.step().text)]
        while self.ahead("."):
            self.step()
            names.append(_key_name(self.step().text))
        return names

    def entry(self, table: Path) -> None:
        path, start = table, self.tokens[self.at].start
        for name in self.dotted_key():
            path = (*path, name)
            self.note(path)
        self.step()
        self.value(path)
        self.layout.entries[path] = Span(start, self.layout.values[path].end)

    def value(self, path: Path) -> None:
        start = self.tokens[self.at].start
        if self.ahead("["):
            self.array(path)
        elif self.ahead("{"):
            self.inline_table(path)
        else:
            self.scalar()
        self.layout.values[path] = Span(start, self.tokens[self.at - 1].end)

    def array(self, path: Path) -> None:
        self.step()
        index = 0
        while not self.ahead("]"):
            if self.ahead(",") or self.between_lines():
                self.step()
                continue
            self.note((*path, index))
            self.value((*path, index))
            index += 1
        self.step()

    def inline_table(self, path: Path) -> None:
        self.step()
        while not self.ahead("}"):
            if self.ahead(",") or self.between_lines():
                self.step()
                continue
            self.entry(path)
        self.step()

    def scalar(self) -> None:
        self.step()
        while self.here is not None and not self.ahead(",", "]", "}") and not self.between_lines():
            self.step()

    def between_lines(self) -> bool:
        return self.here is not None and self.here.kind in ("newline", "comment")


def _key_name(text: str) -> str:
    if text[0] in "\"'":
        return next(iter(tomllib.loads(f"{text} = 0")))
    return text
