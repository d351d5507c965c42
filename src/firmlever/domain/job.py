# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Jobs at the bench as they are kept: a sheet that stays, and events that are only added."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class KeptJob:
    """One job.

    ``sheet`` is the document it was started with, ``machine_revision`` what the machine was
    at then. A job outlives its machine.
    """

    id: str
    machine_id: str
    machine_revision: int
    circuit: str
    made_at: datetime
    sheet: str


@dataclass(frozen=True, slots=True)
class SentEvent:
    """An event on its way in: its id, made on the device, and its body as JSON text."""

    id: str
    body: str


@dataclass(frozen=True, slots=True)
class KeptEvent:
    """An event as it is kept; ``arrival`` grows with each one that comes in."""

    arrival: int
    id: str
    body: str


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of events that were sent.

    ``accepted`` are the ids that are kept now, whether they came this time or before;
    ``differing`` those under which something else is kept, which stays. ``arrival`` is the
    last arrival of the job.
    """

    accepted: tuple[str, ...]
    differing: tuple[str, ...]
    arrival: int
