# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lever tests as they are kept: only added, and of each circuit one that was good."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class KeptLeverTest:
    """One lever test somebody kept.

    ``id`` is made on the device. ``readings`` is what was sent and ``document`` what it
    says, both JSON text; ``job_id`` names the job at the bench it was read for. A test
    outlives its machine.
    """

    id: str
    machine_id: str
    machine_revision: int
    circuit: str
    made_at: datetime
    who: str
    job_id: str | None
    readings: str
    document: str


@dataclass(frozen=True, slots=True)
class Baseline:
    """The mark that a kept test shows a machine's good state; the last one counts."""

    test_id: str
    machine_id: str
    circuit: str
    marked_at: datetime
    who: str
