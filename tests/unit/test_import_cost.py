# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What each command imports: help needs next to nothing, a plan leaves scipy.stats alone."""

import subprocess
import sys
from importlib.resources import files

import pytest

DEMO = str(files("firmlever").joinpath("data", "demo", "skerry.toml"))
PLAN = ("plan", DEMO, "--circuit", "front", "--on", "2026-05-01")
RUN = """
import sys
from firmlever.__main__ import main
assert main() == 0
print(*sys.modules, file=sys.stderr)
"""


def modules_of(*words: str) -> set[str]:
    """The modules imported by a process that runs one command line."""
    command = [sys.executable, "-c", RUN, *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return set(done.stderr.split())


@pytest.mark.parametrize("words", [("--help",), ("plan", "--help")], ids=" ".join)
def test_help_imports_no_heavy_library(words: tuple[str, ...]) -> None:
    imported = modules_of(*words)
    assert "firmlever.cli.main" in imported
    assert not imported & {"numpy", "scipy", "pydantic", "rich"}


def test_a_plan_imports_nothing_slow_from_scipy() -> None:
    imported = modules_of(*PLAN)
    assert "firmlever.solve.flush" in imported
    slow = ("scipy.stats", "scipy.optimize", "scipy.integrate")
    assert not [name for name in imported if name.startswith(slow)]
