# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Options, counts and places shared by every test."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

import sizes
from counts import DEEP, USUAL

ROOT = Path(__file__).resolve().parent.parent

# The clock says nothing about correctness: no deadline. A fixed seed keeps a run repeatable.
settings.register_profile("usual", max_examples=USUAL, deadline=None, derandomize=True)
settings.register_profile("deep", max_examples=DEEP, deadline=None, derandomize=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--deep", action="store_true", help="run the full counts")


def pytest_configure(config: pytest.Config) -> None:
    settings.load_profile("deep" if config.getoption("--deep") else "usual")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave tests marked deep out of an ordinary run, and say how many."""
    if config.getoption("--deep"):
        return
    deep = [item for item in items if item.get_closest_marker("deep")]
    config.hook.pytest_deselected(items=deep)
    items[:] = [item for item in items if item not in deep]


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    """Print the sizes of modules and functions after a whole run; they fail nothing."""
    if config.args_source is not pytest.Config.ArgsSource.TESTPATHS:
        return
    terminalreporter.section("sizes, to look at")
    for line in sizes.table(ROOT):
        terminalreporter.write_line(line)


@pytest.fixture
def root() -> Path:
    """The root of the checkout."""
    return ROOT


@pytest.fixture
def open_data() -> Path:
    """The folder of open measurements that some reference tests read.

    FIRMLEVER_DATA names it; otherwise it is looked for beside the checkout. A test that needs it
    is skipped with these words where it is absent, so that the summary shows it.
    """
    folder = Path(os.environ.get("FIRMLEVER_DATA", ROOT.parent / "shared" / "data"))
    if not folder.is_dir():
        pytest.skip("NOT COMPARED WITH OPEN DATA: set FIRMLEVER_DATA to the folder that holds it")
    return folder
