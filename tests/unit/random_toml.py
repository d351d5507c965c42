# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Tables at random, and TOML texts of a table in as many styles as TOML has."""

import json
import re
from collections.abc import Callable
from datetime import date, time
from random import Random
from typing import Any

from hypothesis import strategies as st

_KEYS = st.text(st.sampled_from('ab_-9.# "[é'), min_size=1, max_size=6)
_SCALARS = (
    st.integers(-9, 99)
    | st.text(st.sampled_from("ab #[]{}=,'\"\\.\t\né"), max_size=8)
    | st.floats(allow_nan=False)
    | st.booleans()
    | st.dates()
    | st.datetimes()
    | st.times()
)
_VALUES = st.recursive(
    _SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(_KEYS, inner, max_size=3)
        | st.lists(st.dictionaries(_KEYS, inner, max_size=2), min_size=1, max_size=3)
    ),
    max_leaves=12,
)
TABLES: st.SearchStrategy[dict[str, Any]] = st.dictionaries(_KEYS, _VALUES, max_size=5)

Pick = Callable[[list[str]], str]


@st.composite
def toml_texts(draw: st.DrawFn, table: dict[str, Any]) -> str:
    """Return a text of a table: styles, order of headings, comments and indents at random."""
    chance = Random(draw(st.integers(0, 2**32)))
    text = "".join(_entries("", table, chance.choice))
    return text.replace("\n", chance.choice(["\n", "\r\n"]))


def _entries(above: str, table: dict[str, Any], pick: Pick) -> list[str]:
    """Return the lines of a table; what gets a heading of its own comes last."""
    lines: list[str] = []
    headed: list[str] = []
    for name, value in table.items():
        key = _key(name, pick)
        path = f"{above}.{key}" if above else key
        is_list = isinstance(value, list) and value and all(isinstance(v, dict) for v in value)
        style = pick(["heading", "dotted", "inline"])
        if style == "heading" and is_list:
            for element in value:
                headed += [pick(["", "# [[x]]\n"]), f"[[{path}]]\n", *_entries(path, element, pick)]
        elif style == "heading" and isinstance(value, dict):
            headed += [f"  [ {path} ]  # x = [\n", *_entries(path, value, pick)]
        elif style == "dotted" and isinstance(value, dict) and value:
            lines += [f"{key} . {_key(n, pick)}={_value(v, pick)}\n" for n, v in value.items()]
        else:
            indent, end = pick(["", "\t"]), pick(["", " # } ]", "\n"])
            lines.append(f"{indent}{key} = {_value(value, pick)}{end}\n")
    return lines + headed


def _key(name: str, pick: Pick) -> str:
    if re.fullmatch(r"[A-Za-z0-9_-]+", name) and pick(["bare", "quoted"]) == "bare":
        return name
    return f"'{name}'" if pick(["literal", "basic"]) == "literal" else json.dumps(name)


def _value(value: object, pick: Pick) -> str:
    if isinstance(value, str):
        return _text(value, pick)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, dict):
        inside = ", ".join(f"{_key(n, pick)} = {_value(v, pick)}" for n, v in value.items())
        return f"{{ {inside} }}"
    if isinstance(value, list):
        gap = pick(["", " ", "\n", " # ], \n"])
        return f"[{gap}{f',{gap}'.join(_value(v, pick) for v in value)}{gap}]"
    return repr(value)


def _text(value: str, pick: Pick) -> str:
    style = pick(["basic", "literal", "long", "long literal"])
    if style == "literal" and not set(value) & set("'\n"):
        return f"'{value}'"
    if style == "long":
        return '"""\n' + value.replace("\\", "\\\\").replace('"', '\\"') + '"""'
    if style == "long literal" and "'" not in value:
        return f"'''\n{value}'''"
    return json.dumps(value)
