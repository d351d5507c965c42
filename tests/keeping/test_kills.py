# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The server is killed again and again while two phones tap: nothing is lost, nothing doubled."""

import json
import os
import random
import signal
from pathlib import Path
from threading import Event, Thread
from time import sleep

import pytest

from keeping.running import kept_in, nursery, start_job
from keeping.taps import Device, tap

# a round takes a third of a second on a quiet machine
KILLS, KILLS_DEEP = 10, 60
LONGEST_S = 0.06


def go_on_tapping(device: Device, is_over: Event, answered: Event) -> None:
    while not is_over.is_set():
        device.tap()
        if device.try_to_send():
            answered.set()
        else:
            sleep(0.005)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="NOT KILLED: this system cannot fork")
def test_kills_lose_no_tap_and_double_none(tmp_path: Path, pytestconfig: pytest.Config) -> None:
    kills = KILLS_DEEP if pytestconfig.getoption("--deep") else KILLS
    file, chance = start_job(tmp_path), random.Random(11)
    is_over, answered = Event(), Event()
    with nursery(tmp_path) as servers:
        devices = [Device(number, servers.port) for number in (1, 2)]
        phones = [
            Thread(target=go_on_tapping, args=(device, is_over, answered)) for device in devices
        ]
        for phone in phones:
            phone.start()
        for _ in range(kills):
            answered.clear()
            server = servers.next_server()
            assert answered.wait(30), "the server never answered"
            sleep(chance.uniform(0.0, LONGEST_S))
            os.kill(server, signal.SIGKILL)
            servers.wait_until_gone()
            told = set().union(*(set(device.told) for device in devices))
            assert told <= set(kept_in(file)), "a tap was acknowledged and is not there"
        is_over.set()
        server = servers.next_server()
        for phone in phones:
            phone.join()
        for device in devices:
            assert not device.outbox or device.try_to_send()
        os.kill(server, signal.SIGTERM)
        servers.wait_until_gone()
    tapped = {
        event["id"]: event
        for device in devices
        for event in (tap(device.number, number) for number in range(device.made))
    }
    kept = kept_in(file)
    assert {event_id: json.loads(body) for event_id, body in kept.items()} == tapped
    # a server killed before it took anything would prove little
    assert len(kept) >= kills
