# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A full disk, or one that must not be written: said clearly, and nothing is acknowledged."""

import contextlib
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import event

from firmlever.bootstrap import KeptWorkshop, open_workshop
from firmlever.store.database import database_on
from firmlever.store.database.opening import FILE_NAME, sqlite_engine
from firmlever.web.app import create_app
from keeping.running import PATHS, kept_in, start_job
from keeping.taps import JOB, tap
from web.web_bench import HOME, browser_at

FIT = {"events": [tap(1, 0)]}
TOO_MUCH = {"events": [tap(1, number) for number in range(1, 200)]}


def browser_on(folder: Path, *settings: str) -> tuple[TestClient, Any]:
    """The app on a database under settings of SQLite; the engine is let go of by the caller."""
    engine = sqlite_engine(folder / FILE_NAME)

    def limit(raw: Any, _record: object) -> None:
        for setting in settings:
            raw.execute(f"PRAGMA {setting}")

    event.listen(engine, "connect", limit)
    bare, kept = open_workshop(), database_on(engine, FILE_NAME)
    workshop = KeptWorkshop(
        bare.files,
        bare.tables,
        bare.clock,
        kept.machines,
        kept.jobs,
        kept.phones,
        kept.levers,
        kept.looks,
        new_id=lambda: "new",
        chance=bytes,
    )
    return browser_at(HOME, create_app(workshop)), engine


def not_written(answer: Any, reason: str) -> None:
    assert answer.status_code == 507
    assert answer.json() == {
        "error": "not-written",
        "message": f"machines.db was not written ({reason}); what was there before is unchanged",
        "problems": [],
    }


@pytest.mark.parametrize(
    ("setting", "reason"),
    [
        ("max_page_count = 1", "database or disk is full"),
        ("query_only = ON", "attempt to write a readonly database"),
    ],
)
def test_what_cannot_be_written_is_kept_by_the_phone(
    tmp_path: Path, setting: str, reason: str
) -> None:
    """As SQLite itself meets a full disk and a read-only file; later the same batch goes in."""
    file = start_job(tmp_path)
    browser, engine = browser_on(tmp_path, setting)
    not_written(browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH), reason)
    assert browser.get(f"/api/jobs/{JOB}/events").json() == {"events": [], "arrival": 0}
    engine.dispose()
    assert kept_in(file) == {}
    browser, engine = browser_on(tmp_path)
    answer = browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH).json()
    engine.dispose()
    assert len(answer["accepted"]) == len(kept_in(file)) == 199


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of half a megabyte, some four times what an empty database takes."""
    mounted = tmp_path / "small"
    mounted.mkdir()
    command = ("mount", "-t", "tmpfs", "-o", "size=512k", "none", str(mounted))
    try:
        done = subprocess.run(command, capture_output=True, check=False)
    except FileNotFoundError:
        pytest.skip("NO REAL DISK FILLED: there is no mount here")
    if done.returncode:
        pytest.skip("NO REAL DISK FILLED: mounting one is not allowed here")
    yield mounted
    subprocess.run(("umount", "--lazy", str(mounted)), check=True)


def fill(rest: Path) -> None:
    """Take all the space that is left on a disk."""
    with rest.open("wb", buffering=0) as filling, contextlib.suppress(OSError):
        while True:
            filling.write(bytes(1024))


def test_a_disk_that_is_really_full(small_disk: Path) -> None:
    file = start_job(small_disk)
    rest = small_disk / "rest"
    browser, engine = browser_on(small_disk)
    assert browser.post(f"/api/jobs/{JOB}/events", json=FIT).status_code == 200
    fill(rest)
    not_written(browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH), "database or disk is full")
    # a phone that was answered before still reads
    assert len(browser.get(f"/api/jobs/{JOB}/events").json()["events"]) == 1
    rest.unlink()
    answer = browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH).json()
    engine.dispose()
    assert len(answer["accepted"]) == 199
    assert len(kept_in(file)) == 200


# A file may grow no further than so many bytes: what a quota does in the middle of a batch.
LIMITED = """
import json, resource, sys
from pathlib import Path
from keeping.test_full import FIT, JOB, TOO_MUCH, browser_on
browser, _ = browser_on(Path(sys.argv[1]))
browser.post(f"/api/jobs/{JOB}/events", json=FIT)
resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, resource.RLIM_INFINITY))
full = browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY,) * 2)
later = browser.post(f"/api/jobs/{JOB}/events", json=TOO_MUCH)
print(json.dumps([full.status_code, full.json(), later.status_code]))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="NO FILE LIMITED: this system has no limits")
def test_a_file_that_may_grow_no_further(tmp_path: Path) -> None:
    file = start_job(tmp_path)
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(tmp_path)],
        capture_output=True,
        text=True,
        check=True,
        env=PATHS,
    )
    status, said, later = json.loads(done.stdout)
    assert (status, said["error"], later) == (507, "not-written", 200)
    assert len(kept_in(file)) == 200
