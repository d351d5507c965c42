# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A short circuit file to change one thing in, and what reading it says."""

from pathlib import Path

import pytest

import firmlever
from firmlever.errors import CircuitFileError
from firmlever.store.circuit_file.read import read_bike

GRADES = ("DOT 3", "DOT 4", "DOT 5", "DOT 5.1", "mineral oil")

SHORT = """\
format = 1
[bike]
name = "Skerry 250"
class = "small"
[[circuit]]
name = "front"
control = "lever"
fluid = { required = ["DOT 4"], filled = "unknown" }
  [[circuit.part]]
  id = "pot"
  kind = "reservoir"
  max_ml = 20
  [[circuit.part]]
  id = "master"
  kind = "master cylinder"
  [[circuit.part]]
  id = "caliper"
  kind = "caliper"
  pistons_mm = [27, 27]
  volume_ml = { low = 8, high = 12 }  # a guess
    [[circuit.part.screw]]
    id = "caliper"
    hex_mm = 8
  [[circuit.line]]
  from = "pot"
  to = "master"
  [[circuit.line]]
  from = "master"
  to = "caliper"
  length_mm = 900
"""

PACKAGED = sorted((Path(firmlever.__file__).parent / "data").glob("*/*.toml"))


def changed(old: str, new: str) -> str:
    """Return the short file with one stretch changed; the stretch must be there."""
    assert SHORT.count(old) >= 1, old
    return SHORT.replace(old, new, 1)


def said_of(text: str) -> list[str]:
    """Return every problem of a text, each as its one line."""
    with pytest.raises(CircuitFileError) as refused:
        read_bike("a.toml", text, GRADES)
    return [str(problem) for problem in refused.value.problems]
