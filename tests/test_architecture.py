# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Faults planted in a copy of the package: the import contracts must find and name each."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "src" / "firmlever"
LINT = "from importlinter.cli import lint_imports_command as lint; lint()"

DIRECTION = "one direction only"
ARITHMETIC = "physics is arithmetic only"
NO_IO = "inner rings do no I/O"
ENTRY = "entry points reach store, solve and physics only through services"
STORE = "the store does no computing"
OUTSIDE = "only the store speaks to a database, only the web to a browser"
CYCLES = "no cycles"


# Where the fault is planted, what it imports, and the contract that must object.
FAULTS = [
    ("physics", "json", ARITHMETIC),
    ("physics", "datetime", ARITHMETIC),
    ("physics", "firmlever.units", ARITHMETIC),
    ("domain", "firmlever.physics", DIRECTION),
    ("solve", "firmlever.services", DIRECTION),
    ("store", "firmlever.services", DIRECTION),
    ("domain", "os", NO_IO),
    ("services", "sqlite3", NO_IO),
    ("report", "pathlib", NO_IO),
    ("cli", "firmlever.store", ENTRY),
    ("cli", "firmlever.physics", ENTRY),
    ("store", "firmlever.solve", STORE),
    ("web", "firmlever.store", ENTRY),
    ("web", "firmlever.cli", DIRECTION),
    ("services", "sqlalchemy", NO_IO),
    ("report", "fastapi", NO_IO),
    ("cli", "uvicorn", OUTSIDE),
]


class Verdict(NamedTuple):
    """What the check ended with, and what it said of each broken contract."""

    code: int
    broken: dict[str, str]


def copy_package(folder: Path) -> Path:
    """The package, copied to where it may be spoilt."""
    return shutil.copytree(
        PACKAGE, folder / "firmlever", ignore=shutil.ignore_patterns("__pycache__", "data")
    )


def lint(copy: Path) -> Verdict:
    """Check the copied package against the contracts of this project."""
    settings = str(ROOT / "pyproject.toml")
    done = subprocess.run(
        [sys.executable, "-c", LINT, "--no-cache", "--no-logo", "--config", settings],
        cwd=copy.parent,
        env=os.environ | {"PYTHONPATH": str(copy.parent), "COLUMNS": "500"},
        capture_output=True,
        check=False,
        text=True,
    )
    assert "Contracts: " in done.stdout, done.stdout + done.stderr
    # Each broken contract is explained under its underlined name after this heading.
    explained = done.stdout.partition("Broken contracts")[2]
    parts = re.split(r"^(.+)\n-{3,}$", explained, flags=re.MULTILINE)
    return Verdict(done.returncode, dict(zip(parts[1::2], parts[2::2], strict=True)))


@pytest.fixture(scope="module")
def spoilt(tmp_path_factory: pytest.TempPathFactory) -> Verdict:
    """The verdict on a copy with every fault planted, and a folder nobody listed."""
    copy = copy_package(tmp_path_factory.mktemp("spoilt"))
    for number, (room, imported, _) in enumerate(FAULTS):
        (copy / room / f"planted_{number}.py").write_text(f"import {imported}\n", encoding="utf-8")
    (copy / "attic").mkdir()
    (copy / "attic" / "__init__.py").touch()
    return lint(copy)


def test_the_package_as_it_stands_keeps_every_contract(tmp_path: Path) -> None:
    assert lint(copy_package(tmp_path)) == Verdict(0, {})


@pytest.mark.parametrize("number", range(len(FAULTS)), ids=[f"{f[0]} {f[1]}" for f in FAULTS])
def test_a_planted_import_is_found_and_named(spoilt: Verdict, number: int) -> None:
    room, imported, contract = FAULTS[number]
    assert spoilt.code == 1
    assert f"firmlever.{room}.planted_{number} -> {imported} (l.1)" in spoilt.broken[contract]


def test_an_unlisted_folder_is_found_and_named(spoilt: Verdict) -> None:
    assert re.search(r"\battic\b", spoilt.broken[DIRECTION])


def test_a_planted_cycle_is_found_and_named(tmp_path: Path) -> None:
    copy = copy_package(tmp_path)
    (copy / "domain" / "hen.py").write_text("import firmlever.domain.egg\n", encoding="utf-8")
    (copy / "domain" / "egg.py").write_text("import firmlever.domain.hen\n", encoding="utf-8")
    verdict = lint(copy)
    assert set(verdict.broken) == {CYCLES}
    assert "hen" in verdict.broken[CYCLES]
    assert "egg" in verdict.broken[CYCLES]


def test_every_room_stands_under_the_contracts_meant_for_it() -> None:
    """A room built later must be added, or it would escape."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = {
        contract["name"]: set(contract.get("source_modules", ()))
        for contract in settings["tool"]["importlinter"]["contracts"]
    }
    built = {path.stem for path in PACKAGE.iterdir()}
    meant = {
        ENTRY: {"cli", "web"},
        NO_IO: {"domain", "ports", "solve", "services", "report"},
    }
    for name, rooms in meant.items():
        assert contracts[name] == {f"firmlever.{room}" for room in rooms & built}
