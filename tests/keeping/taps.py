# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A device that taps: it keeps what it tapped until the server names it, as the phone does."""

import http.client
import json
from dataclasses import dataclass, field
from typing import Any

JOB = "j1"
_PATIENCE_S = 10


def tap(device: int, number: int) -> dict[str, Any]:
    """One event, its id its own for ever."""
    return {
        "id": f"0197a3c0-{number:04x}-7000-8000-{device:012x}",
        "at": "2026-05-01T09:30:00.000Z",
        "who": "Ann",
        "device": f"phone {device}",
        "kind": "set_done",
        "point": 0,
        "count": 1 + number % 5000,
    }


@dataclass
class Device:
    """A phone with its outbox."""

    number: int
    port: int
    made: int = 0
    outbox: dict[str, dict[str, Any]] = field(default_factory=dict)
    told: set[str] = field(default_factory=set)

    def tap(self) -> None:
        """Tap once more; nothing is sent yet."""
        event = tap(self.number, self.made)
        self.made += 1
        self.outbox[event["id"]] = event

    def send(self) -> tuple[int, dict[str, Any]]:
        """Send all that waits; what the answer names waits no longer."""
        body = json.dumps({"events": list(self.outbox.values())})
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=_PATIENCE_S)
        try:
            headers = {"content-type": "application/json"}
            connection.request("POST", f"/api/jobs/{JOB}/events", body, headers)
            answer = connection.getresponse()
            said = json.loads(answer.read())
        finally:
            connection.close()
        for event_id in said.get("accepted", ()):
            del self.outbox[event_id]
            self.told.add(event_id)
        return answer.status, said

    def try_to_send(self) -> bool:
        """Send, whether there is a server or not; an answer cut short counts for nothing."""
        try:
            status, _ = self.send()
        except (OSError, http.client.HTTPException, json.JSONDecodeError):
            return False
        return status == http.client.OK
