# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lines and places of keys, checked against the parsers on documents made at random."""

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firmlever.domain.fault import Path
from firmlever.store.circuit_file.locate import locate
from firmlever.store.circuit_file.tokens import tokens, too_deep_at
from unit.circuit_file_texts import PACKAGED
from unit.random_toml import TABLES, toml_texts

HARD = '''\
# a = 1 [[not.this]]
top = "a # \\" [x]"   # b = 2
'quoted key' = 'c:\\dir'
"tab\\tkey".inner = { a = [1, { b = "}" }], "c d" = 1.5 }
long = """
[[circuit]]
key = \\"\\"\\" 5 """
literal = \'\'\'
it's # not a comment\'\'\'
dates = [ 2024-04-20, 2024-04-20 10:00:00, # ] closed?
  07:30:00, ]

  [ table . sub ]
  x = -1e3
  dotted.one = 1
  dotted.two = 2
[[list]]
[[list]] # second
  n = [[300, 1090], [
    600, 800]]
  [[list.part]]
  id = "a"
  [list.part.deep]
  z = true
  [[list.part]]
  id = ""'''

LINES: dict[Path, int] = {
    ("top",): 2,
    ("quoted key",): 3,
    ("tab\tkey",): 4,
    ("tab\tkey", "inner", "a", 1, "b"): 4,
    ("long",): 5,
    ("literal",): 8,
    ("dates",): 10,
    ("dates", 2): 11,
    ("table",): 13,
    ("table", "sub"): 13,
    ("table", "sub", "x"): 14,
    ("table", "sub", "dotted"): 15,
    ("table", "sub", "dotted", "two"): 16,
    ("list",): 17,
    ("list", 0): 17,
    ("list", 1): 18,
    ("list", 1, "n", 0): 19,
    ("list", 1, "n", 1): 19,
    ("list", 1, "n", 1, 1): 20,
    ("list", 1, "part", 0): 21,
    ("list", 1, "part", 0, "deep", "z"): 24,
    ("list", 1, "part", 1, "id"): 26,
    ("list", 1, "part", 1, "not there", 3): 25,
    ("nowhere",): 0,
}


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_lines_of_a_hard_text(line_end: str) -> None:
    layout = locate(HARD.replace("\n", line_end))
    assert {path: layout.line_of(path) for path in LINES} == LINES


def paths_in(value: object, path: Path = ()) -> Iterator[tuple[Path, object]]:
    steps: Iterator[tuple[str | int, object]] = iter(())
    if isinstance(value, dict):
        steps = iter(value.items())
    elif isinstance(value, list):
        steps = iter(enumerate(value))
    for step, inner in steps:
        yield (*path, step), inner
        yield from paths_in(inner, (*path, step))


def assert_values_stand_where_told(text: str) -> None:
    layout = locate(text)
    all_paths = dict(paths_in(tomllib.loads(text)))
    assert set(layout.lines) == set(all_paths)
    for path, span in layout.values.items():
        written = text[span.start : span.end]
        assert tomllib.loads(f"v = {written}")["v"] == all_paths[path], written
        assert layout.lines[path] <= 1 + text.count("\n", 0, span.start)
    scalars = {p for p, value in all_paths.items() if not isinstance(value, dict | list)}
    assert scalars <= set(layout.values)


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_values_of_a_hard_text(line_end: str) -> None:
    assert_values_stand_where_told(HARD.replace("\n", line_end))


@pytest.mark.parametrize("file", PACKAGED, ids=lambda file: file.stem)
def test_values_of_packaged_files(file: Any) -> None:
    assert_values_stand_where_told(file.read_text("utf-8"))


@settings(deadline=None)
@given(st.data())
def test_values_of_texts_at_random(data: Any) -> None:
    table = data.draw(TABLES)
    text = data.draw(toml_texts(table))
    assert tomllib.loads(text) == table
    assert_values_stand_where_told(text)


def numbered(value: object, count: Iterator[int]) -> object:
    """Put a number of its own in the place of every leaf."""
    if isinstance(value, dict):
        return {key: numbered(inner, count) for key, inner in value.items()}
    if isinstance(value, list):
        return [numbered(inner, count) for inner in value]
    return next(count)


@settings(deadline=None)
@given(st.data())
def test_line_of_a_leaf_is_the_line_that_shows_its_key(data: Any) -> None:
    table: Any = numbered(data.draw(TABLES), iter(range(1_000_001, 1_001_000)))
    text = data.draw(toml_texts(table))
    layout, lines = locate(text), text.split("\n")
    for path, value in paths_in(table):
        if isinstance(value, int):
            assert str(value) in lines[layout.line_of(path) - 1]


@given(st.text(st.sampled_from("a\"'\\[]{}=,.#\n\r\t \ufeff\x0b\xa0")) | st.text())
def test_tokens_are_the_text(text: str) -> None:
    assert "".join(token.text for token in tokens(text)) == text


@given(st.text(st.sampled_from("a\"'\\[]{}=,.#\n")) | st.text(), st.integers(0, 5))
def test_nesting_of_anything_is_told(text: str, limit: int) -> None:
    line = too_deep_at(text, limit)
    assert 0 <= line <= text.count("\n") + 1
    if line:
        assert set(text.split("\n")[line - 1]) & set("[{.")


def test_brackets_in_texts_and_comments_do_not_nest() -> None:
    text = "a = \"[[[\"\nb = '''\n[[[\n''' # [[[\n[c.d]\n"
    assert too_deep_at(text, 1) == 5
    assert too_deep_at(text, 2) == 0
