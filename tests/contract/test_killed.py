# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A writer is killed in the middle of its work, sixty times; the database stays whole."""

import os
import random
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from time import sleep

import pytest

from contract.examples import machine
from contract.writer import text_of
from firmlever.store.database import open_database
from firmlever.store.database.opening import FILE_NAME

KILLS = 60

# One interpreter has everything imported and forks the writers, so that a round takes
# milliseconds and the kill always lands among writes.
NURSERY = """
import os, sys
from pathlib import Path
from contract.writer import write_for_ever
for _ in sys.stdin:
    child = os.fork()
    if not child:
        write_for_ever(Path(sys.argv[1]))
    print(f"child {child}", flush=True)
    os.waitpid(child, 0)
    print("gone", flush=True)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="NOT KILLED: this system cannot fork")
def test_sixty_kills_leave_whole_revisions(tmp_path: Path) -> None:
    database = open_database(tmp_path)
    database.machines.add(replace(machine(), text=text_of(1)))
    database.close()
    chance, seen = random.Random(3), [1]
    tests = Path(__file__).resolve().parents[1]
    nursery = subprocess.Popen(
        [sys.executable, "-c", NURSERY, str(tmp_path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join((str(tests), str(tests.parent / "src")))},
    )
    with nursery:
        assert nursery.stdin is not None
        assert nursery.stdout is not None
        for _ in range(KILLS):
            told = kill_one(nursery, chance.uniform(0.0, 0.03))
            check_whole(tmp_path, seen, told)
        nursery.stdin.close()
    # a writer that never wrote would prove nothing
    assert seen[-1] > KILLS


def kill_one(nursery: "subprocess.Popen[str]", after_s: float) -> int:
    """Let a writer work for a while, kill it, and return the last revision it told of."""
    assert nursery.stdin is not None
    assert nursery.stdout is not None
    nursery.stdin.write("go\n")
    nursery.stdin.flush()
    child = told = 0
    while not (child and told):
        word, *number = nursery.stdout.readline().split()
        if word == "child":
            child = int(number[0])
        elif word.isdecimal():
            told = int(word)
    sleep(after_s)
    os.kill(child, signal.SIGKILL)
    while (line := nursery.stdout.readline()) != "gone\n":
        told = int(line)
    return told


def check_whole(folder: Path, seen: list[int], told: int) -> None:
    """Nothing told of is lost, nothing is half there, and the file itself is sound."""
    with closing(sqlite3.connect(folder / FILE_NAME)) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    database = open_database(folder)
    store = database.machines
    kept = store.get("m1")
    assert kept.revision >= max(seen[-1], told)
    assert kept.text == text_of(kept.revision)
    plans = sorted(plan.machine_revision for plan in store.plans("m1"))
    # the plan of the last change may be the one that was cut off
    assert set(range(seen[-1] + 1, kept.revision)) <= set(plans)
    assert all(plan.document == text_of(plan.machine_revision) for plan in store.plans("m1"))
    database.close()
    seen.append(kept.revision)
