# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How paths and values of a circuit file are put into words."""

import json
from collections.abc import Mapping
from datetime import date, time
from typing import Any

from firmlever.domain.fault import Path

_LONGEST_SHOWN = 40

# lists of tables that have names
_NAMED = ("circuit", "part", "line", "screw")


def shown(value: object) -> str:
    r"""Return a value as a message shows it: short, in one line, as TOML writes it.

    >>> shown("a\nb"), shown(True), shown([1])
    ('"a\\nb"', 'true', 'a list')
    """
    if isinstance(value, str):
        return json.dumps(_cut(value), ensure_ascii=not value.isprintable())
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) >= 10**_LONGEST_SHOWN:
        return "a number of over 40 digits"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, date | time):
        return value.isoformat()
    return "a list" if isinstance(value, list) else "a table"


def place_of(raw: object, at: Path) -> str:
    """Say in words where a path leads, with the names the file gives.

    >>> place_of({"circuit": [{"name": "front"}]}, ("circuit", 0, "control"))
    'circuit "front", control'
    """
    words: list[str] = []
    here = raw
    for position, step in enumerate(at):
        here = _inside(here, step)
        if isinstance(step, str):
            words.append(step if step.isidentifier() else shown(step))
        elif at[position - 1] in _NAMED:
            words[-1] += f" {_name_of(here, step)}"
        else:
            words.append(f"number {step + 1}")
    return ", ".join(words) or "the file"


def _inside(here: Any, step: str | int) -> object:  # noqa: ANN401
    return here.get(step) if isinstance(step, str) else here[step]


def _name_of(table: object, index: int) -> str:
    if isinstance(table, Mapping):
        for key in ("name", "id"):
            if isinstance(table.get(key), str):
                return shown(table[key])
        ends = (table.get("from"), table.get("to"))
        if all(isinstance(end, str) for end in ends):
            return shown(f"{ends[0]} > {ends[1]}")
    return str(index + 1)


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST_SHOWN else f"{text[: _LONGEST_SHOWN - 1]}…"
