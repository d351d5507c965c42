# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Starts the app as a process, by itself or under something that watches it."""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from contract.examples import job
from firmlever.store.database import open_database
from firmlever.store.database.opening import FILE_NAME

_TESTS = Path(__file__).resolve().parents[1]
# the program of this very checkout, and the tests beside it
PATHS = {
    **os.environ,
    "PYTHONPATH": os.pathsep.join((str(_TESTS), str(_TESTS.parent / "src"))),
}


@dataclass
class Nursery:
    """A process that brings up one server after another, all at one port."""

    process: "subprocess.Popen[str]"
    port: int

    def next_server(self) -> int:
        """Start a server, and return the number of its process."""
        assert self.process.stdin is not None
        self.process.stdin.write("go\n")
        self.process.stdin.flush()
        return int(self._word("child"))

    def wait_until_gone(self) -> None:
        """Wait for the end of the server."""
        self._word("gone")

    def _word(self, wanted: str) -> str:
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        word, _, rest = line.strip().partition(" ")
        assert word == wanted, line
        return rest


@contextmanager
def nursery(folder: Path, before: Sequence[str] = ()) -> Iterator[Nursery]:
    """Have servers on what is kept in a folder; ``before`` is a command to run them under."""
    with subprocess.Popen(
        [*before, sys.executable, "-m", "keeping.app", str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=PATHS,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        port = int(process.stdout.readline().split()[1])
        yield Nursery(process, port)
        process.stdin.close()


def start_job(folder: Path) -> Path:
    """Keep an empty job, and return the file it is in; all of it is on the disk."""
    database = open_database(folder)
    database.jobs.start(job(), ())
    database.close()
    return folder / FILE_NAME


def kept_in(file: Path) -> dict[str, str]:
    """Return the body of each event of a database that must be sound, each there once."""
    with closing(sqlite3.connect(file)) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
        rows = raw.execute("SELECT id, body FROM bench_event").fetchall()
    kept = dict(rows)
    assert len(kept) == len(rows), "an event is there twice"
    return kept
