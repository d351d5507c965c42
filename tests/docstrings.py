# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Reading a docstring in sections, as far as the house rules need it."""

import inspect
import re
from collections.abc import Callable


def sections(function: Callable[..., object]) -> dict[str, str]:
    """The text of each underlined section; the summary stands under the empty name."""
    lines = (inspect.getdoc(function) or "").splitlines()
    found: dict[str, list[str]] = {"": []}
    name = ""
    for position, line in enumerate(lines):
        following = lines[position + 1] if position + 1 < len(lines) else ""
        if line.strip() and re.fullmatch(r"-{3,}", following.strip()):
            name = line.strip()
            found[name] = []
        elif not re.fullmatch(r"-{3,}", line.strip()):
            found[name].append(line)
    return {name: "\n".join(text).strip() for name, text in found.items()}


def parameters(text: str) -> dict[str, str]:
    """Name and description of each entry of a Parameters section; "a, b : float" is two."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in text.splitlines():
        if line and not line[0].isspace():
            listed, _, kind = line.partition(" : ")
            names = [name.strip() for name in listed.split(",")]
            found |= dict.fromkeys(names, kind)
        else:
            found |= {name: f"{found[name]} {line.strip()}" for name in names}
    return found


def units(text: str) -> list[str]:
    """What stands in square brackets."""
    return re.findall(r"\[([^\[\]]+)\]", text)
