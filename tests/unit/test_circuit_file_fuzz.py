# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whatever a file holds: a machine, or an error that a person can act on."""

import copy
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counts import examples
from firmlever.domain.circuit import Bike
from firmlever.errors import InputError
from firmlever.store.circuit_file import TomlCircuitFiles
from firmlever.store.circuit_file.read import read_bike
from unit.circuit_file_texts import GRADES, SHORT
from unit.random_toml import TABLES, toml_texts
from unit.test_circuit_file_schema import DOCUMENTS, ODD, spots

# words of the libraries beneath, which must not reach anybody
NOT_OURS = ("Input should", "validation error", "Extra inputs", "at line ", "Traceback", "ctx")


def outcome(text: str) -> str:
    """Read a text and return what was said; anything but our errors comes through."""
    said = ""
    try:
        assert isinstance(read_bike("a.toml", text, GRADES), Bike)
    except InputError as error:
        said = str(error)
    assert not any(word in said for word in NOT_OURS)
    return said


@settings(
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
    max_examples=examples(150),
)
@given(content=st.binary() | st.binary().map(lambda junk: SHORT.encode() + junk))
def test_any_bytes(content: bytes, tmp_path: Path) -> None:
    file = tmp_path / "a.toml"
    file.write_bytes(content)
    said = str(file)
    try:
        TomlCircuitFiles(GRADES).read(str(file))
    except InputError as error:
        said = str(error)
    assert said.startswith(str(file))
    assert file.read_bytes() == content


@settings(deadline=None)
@given(st.text() | st.text(st.sampled_from("a\"'\\[]{}=,.#\n1 ")))
def test_any_text(text: str) -> None:
    assert outcome(text)


@settings(deadline=None, max_examples=examples(200))
@given(st.integers(0, len(SHORT)), st.integers(0, 30), st.text("\"'\\[]{}=,.#\n1 a", max_size=4))
def test_short_file_with_a_stretch_exchanged(start: int, gone: int, put_in: str) -> None:
    outcome(SHORT[:start] + put_in + SHORT[start + gone :])


@settings(deadline=None, max_examples=examples(60))
@given(st.data())
def test_sound_file_with_values_exchanged(data: Any) -> None:
    raw = copy.deepcopy(data.draw(st.sampled_from(DOCUMENTS)))
    for _ in range(data.draw(st.integers(1, 4))):
        container, key = data.draw(st.sampled_from(list(spots(raw))))
        if data.draw(st.booleans()):
            del container[key]
        else:
            container[key] = data.draw(ODD | TABLES)
        if not raw:
            return
    outcome(data.draw(toml_texts(raw)))


@settings(deadline=None)
@given(st.data())
def test_any_tables_after_the_format(data: Any) -> None:
    assert outcome("format = 1\n" + data.draw(toml_texts(data.draw(TABLES))))


@settings(deadline=None)
@given(st.data())
def test_lines_joined_at_random(data: Any) -> None:
    text = SHORT[: SHORT.index("  [[circuit.line]]")]
    names = st.sampled_from(["pot", "master", "caliper"])
    for start, end in data.draw(st.lists(st.tuples(names, names), max_size=6)):
        text += f'[[circuit.line]]\nfrom = "{start}"\nto = "{end}"\n'
    said = outcome(text)
    lines = {(x["from"], x["to"]) for x in tomllib.loads(text)["circuit"][0].get("line", [])}
    count = text.count("[[circuit.line]]")
    is_chain = count == 2 and lines == {("pot", "master"), ("master", "caliper")}
    assert (said == "") == is_chain


@pytest.mark.parametrize(
    "text",
    [
        "[" * 900_000,
        "{" * 900_000,
        "a=" + "[{a=" * 200_000,
        "a." * 400_000,
        '"' * 900_000,
        "'''" * 300_000,
        '"""' + "\\" * 900_000,
        "\n" * 90_000,
        "[[circuit]]\n" * 8_000,
        "format = 1\n" + "\n".join(f"k{i} = 1" for i in range(6_000)),
        "format = 1\na = " + "9" * 900_000,
        "format = 1\na = [" + "1," * 40_000 + "]",
        "format = 1\nbike = { name = '" + "x" * 900_000 + "' }",
    ],
    ids=range(13),
)
def test_bombs_come_to_nothing(text: str) -> None:
    assert outcome(text)
