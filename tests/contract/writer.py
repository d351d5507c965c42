# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Writes machines and plans without end, until somebody kills it; run as a program.

The text of each revision says its number in every line, so that half a write would show.
"""

import sys
from dataclasses import replace
from pathlib import Path

from contract.examples import machine, plan
from firmlever.store.database import open_database

LINES = 500


def text_of(revision: int) -> str:
    return f"# revision {revision}\n" * LINES


def write_for_ever(folder: Path) -> None:
    store = open_database(folder).machines
    sys.stdout.write("started\n")
    sys.stdout.flush()
    while True:
        read = store.get("m1").revision
        store.change(replace(machine(), text=text_of(read + 1), revision=read + 1), read)
        store.keep_plan(
            replace(plan(f"p{read + 1}"), machine_revision=read + 1, document=text_of(read + 1))
        )
        sys.stdout.write(f"{read + 1}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    write_for_ever(Path(sys.argv[1]))
