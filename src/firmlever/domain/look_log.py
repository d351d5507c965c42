# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at a level as they are kept: only added, and taken back by a note of its own."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class KeptLook:
    """One look somebody kept.

    ``id`` is made on the device; ``look`` is what was seen, as JSON text. A look outlives
    its machine.
    """

    id: str
    machine_id: str
    machine_revision: int
    circuit: str
    made_at: datetime
    who: str
    look: str


@dataclass(frozen=True, slots=True)
class TakenBack:
    """The note that a kept look does not count any more; the first one stands."""

    look_id: str
    machine_id: str
    circuit: str
    at: datetime
    who: str
