# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Invented machines and plans to keep."""

from datetime import UTC, datetime, timedelta

from firmlever.domain.circuit import BikeClass
from firmlever.domain.machine import KeptPlan, Machine

START = datetime(2026, 5, 1, 9, 30, 15, 250_000, tzinfo=UTC)
# line ends, a byte order mark, letters of every width, spaces at the end
TEXT = '\ufeffformat = 1\r\n# “Skerry” 摩 🛵 \t\n[bike]\nname = "S"  \n\n\n'


def machine(machine_id: str = "m1", name: str = "Skerry 1100", minutes: int = 0) -> Machine:
    time = START + timedelta(minutes=minutes)
    return Machine(machine_id, name, BikeClass.TOURER, TEXT, 1, START, time)


def plan(plan_id: str = "p1", machine_id: str = "m1", minutes: int = 0) -> KeptPlan:
    made_at = START + timedelta(minutes=minutes)
    return KeptPlan(plan_id, machine_id, 1, "front", made_at, '{"headline": "9 % – old"}\n')
