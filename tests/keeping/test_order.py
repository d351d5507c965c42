# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A tap is written, then synced, then acknowledged: shown by the system calls of the server."""

import os
import re
import shutil
import signal
import subprocess
from collections.abc import Sequence
from pathlib import Path
from random import Random
from threading import Thread
from typing import NamedTuple

import pytest

from firmlever.store.database.opening import FILE_NAME
from keeping.running import kept_in, nursery, start_job
from keeping.taps import Device
from keeping.trace import STRACE, Disk, Step, steps_in

# batches of each of two phones, and taps in each; the deep run fills the log of the database
# over and over, so that it is folded into the file meanwhile
USUAL, DEEP = (12, 2), (40, 150)
EVENT_ID = re.compile(rb"0197a3c0-[0-9a-f]{4}-7000-8000-[0-9a-f]{12}")


class Record(NamedTuple):
    """What was on the disk at first, what the server did, and who tapped."""

    before: Path
    folder: Path
    steps: tuple[Step, ...]
    devices: tuple[Device, ...]


def can_trace() -> bool:
    if not shutil.which("strace"):
        return False
    tried = subprocess.run([*STRACE, "true"], capture_output=True, check=False)
    return tried.returncode == 0


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory, pytestconfig: pytest.Config) -> Record:
    """Two phones that tap at a traced server."""
    if not can_trace():
        pytest.skip("ORDER OF WRITING NOT SHOWN: strace is absent or not allowed; install it")
    batches, taps = DEEP if pytestconfig.getoption("--deep") else USUAL
    room = tmp_path_factory.mktemp("traced")
    folder, trace = room / "kept", room / "trace"
    start_job(folder)
    before = shutil.copytree(folder, room / "before")
    with nursery(folder, (*STRACE, "-o", str(trace))) as servers:
        server = servers.next_server()
        devices = tuple(Device(number, servers.port) for number in (1, 2))

        def work(device: Device) -> None:
            for _ in range(batches):
                for _ in range(taps):
                    device.tap()
                device.send()

        phones = [Thread(target=work, args=(device,)) for device in devices]
        for phone in phones:
            phone.start()
        for phone in phones:
            phone.join()
        os.kill(server, signal.SIGKILL)
        servers.wait_until_gone()
    return Record(before, folder, tuple(steps_in(trace)), devices)


def test_each_tap_is_written_then_synced_then_acknowledged(record: Record) -> None:
    log = str(record.folder / f"{FILE_NAME}-wal")
    written = first_writes(record.steps, log)
    shown = 0
    for at, step in enumerate(record.steps):
        for event_id in step.ids if step.does == "acknowledge" else ():
            assert is_synced_between(record.steps, log, written[event_id], at), event_id
            shown += 1
    assert shown == sum(device.made for device in record.devices) > 40


def first_writes(steps: Sequence[Step], log: str) -> dict[str, int]:
    """Where each event first went into the log."""
    first: dict[str, int] = {}
    for at, step in enumerate(steps):
        if step.does == "write" and step.path == log:
            for found in EVENT_ID.findall(step.data):
                first.setdefault(found.decode(), at)
    return first


def is_synced_between(steps: Sequence[Step], log: str, first: int, last: int) -> bool:
    """Whether a sync of the log began after one step and ended before another."""
    begun: set[str] = set()
    for step in steps[first:last]:
        if step.path == log and step.does == "sync begins":
            begun.add(step.thread)
        if step.path == log and step.does == "sync ends" and step.thread in begun:
            return True
    return False


def losses(record: Record, room: Path, chance: Random | None, *, is_honest: bool = True) -> int:
    """Fail the power at each acknowledgement, and count the taps told of that are not there."""
    disk = Disk(record.before, is_honest=is_honest)
    moved = {str(record.folder): str(record.before)}
    told: set[str] = set()
    lost = 0
    for at, step in enumerate(record.steps):
        disk.take(relocated(step, moved))
        if step.does == "acknowledge":
            told |= set(step.ids)
            left = disk.after_power_failed(room / f"{at}", chance)
            lost += len(told - kept_in(left / FILE_NAME).keys())
            shutil.rmtree(left)
    assert told
    return lost


def relocated(step: Step, moved: dict[str, str]) -> Step:
    """The same step in the folder that is as it was at first."""
    for here, there in moved.items():
        if step.path == here or step.path.startswith(f"{here}/"):
            return step._replace(path=there + step.path[len(here) :])
    return step


def test_what_was_synced_holds_every_acknowledged_tap(record: Record, tmp_path: Path) -> None:
    """All that was written since the last sync is dropped, at each acknowledgement."""
    assert losses(record, tmp_path, chance=None) == 0


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_no_acknowledged_tap_is_lost_whatever_else_reached_the_disk(
    record: Record, tmp_path: Path, seed: int
) -> None:
    """Of what was written since the last sync each piece is there or not, by chance."""
    assert losses(record, tmp_path, Random(seed)) == 0


def test_a_disk_that_forgets_would_be_noticed(record: Record, tmp_path: Path) -> None:
    """The check itself can fail: without the syncs nothing that was told of is left."""
    assert losses(record, tmp_path, chance=None, is_honest=False) > 0
