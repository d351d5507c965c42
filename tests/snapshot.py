# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Texts kept under tests/snapshots (regression: our own output, looked at once).

FIRMLEVER_SNAPSHOTS=write writes them anew. Such a run fails, so that nobody takes it for
a passed one.
"""

import os
from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parent / "snapshots"


def same_as_kept(name: str, text: str) -> None:
    """Compare a text with the one kept under this name."""
    kept = FOLDER / name
    if os.environ.get("FIRMLEVER_SNAPSHOTS") == "write":
        kept.write_text(text, encoding="utf-8", newline="\n")
        pytest.fail(f"{name} was written anew: read it, then run without FIRMLEVER_SNAPSHOTS")
    assert text == kept.read_text(encoding="utf-8")
