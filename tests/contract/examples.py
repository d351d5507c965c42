# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Invented machines, plans, jobs and phones to keep."""

from datetime import UTC, datetime, timedelta

from firmlever.domain.circuit import BikeClass
from firmlever.domain.job import KeptJob, SentEvent
from firmlever.domain.lever_log import Baseline, KeptLeverTest
from firmlever.domain.machine import KeptPlan, Machine
from firmlever.domain.phone import Phone

START = datetime(2026, 5, 1, 9, 30, 15, 250_000, tzinfo=UTC)
# line ends, a byte order mark, letters of every width, spaces at the end
TEXT = '\ufeffformat = 1\r\n# “Skerry” 摩 🛵 \t\n[bike]\nname = "S"  \n\n\n'


def machine(machine_id: str = "m1", name: str = "Skerry 1100", minutes: int = 0) -> Machine:
    time = START + timedelta(minutes=minutes)
    return Machine(machine_id, name, BikeClass.TOURER, TEXT, 1, START, time)


def plan(plan_id: str = "p1", machine_id: str = "m1", minutes: int = 0) -> KeptPlan:
    made_at = START + timedelta(minutes=minutes)
    return KeptPlan(plan_id, machine_id, 1, "front", made_at, '{"headline": "9 % – old"}\n')


def job(job_id: str = "j1", machine_id: str = "m1", minutes: int = 0) -> KeptJob:
    made_at = START + timedelta(minutes=minutes)
    return KeptJob(job_id, machine_id, 3, "front", made_at, '{"bike": "Skerry 1100"}')


def event_id(number: int) -> str:
    """An id as devices make them: the time first, then a counter."""
    return f"0197a3c0-{number:04x}-7000-8000-00000000abcd"


def event(number: int = 1, kind: str = "paused") -> SentEvent:
    """An event whose text no table may bend."""
    event_text = f'{{"id":"{event_id(number)}","kind":"{kind}","who":"Ann \\u0000 “摩 🛵” "}}'
    return SentEvent(event_id(number), event_text)


def phone(phone_id: str = "f1", minutes: int = 0) -> Phone:
    made_at = START + timedelta(minutes=minutes)
    return Phone(phone_id, "the red one", f"hash of {phone_id}", made_at, made_at)


def lever_test(number: int = 1, machine_id: str = "m1", circuit: str = "front") -> KeptLeverTest:
    made_at = START + timedelta(minutes=number)
    return KeptLeverTest(
        event_id(number),
        machine_id,
        3,
        circuit,
        made_at,
        "Ann “摩 🛵” ",
        None if number % 2 else "j1",
        '{"before":[]}',
        '{"kind": "lever test"}\n',
    )


def baseline(number: int = 1, minutes: int = 0) -> Baseline:
    marked_at = START + timedelta(minutes=minutes)
    return Baseline(event_id(number), "m1", "front", marked_at, "Ben")
