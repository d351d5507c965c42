# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The app on a workshop whose time and names stand still."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path
from random import Random

from fastapi import FastAPI
from fastapi.testclient import TestClient

from bench.histories import events_of, sheet_of
from contract.memory import MemoryDatabase
from firmlever.bootstrap import KeptWorkshop, open_workshop
from firmlever.domain.bench.reading import event_document
from firmlever.domain.bench.sheet import sheet_document
from firmlever.domain.job import KeptJob, SentEvent
from firmlever.ports import Clock
from firmlever.services.machines import furnish
from firmlever.web.app import create_app

HOME = "http://127.0.0.1:8017"


@dataclass
class SteadyClock:
    """A day that stays; each look at the time is a second later."""

    seconds: Iterator[int]

    def today(self) -> date:
        return date(2026, 5, 1)

    def now(self) -> datetime:
        return datetime(2026, 5, 1, 9, tzinfo=UTC) + timedelta(seconds=next(self.seconds))


def steady_workshop(*, furnished: bool = True, clock: Clock | None = None) -> KeptWorkshop:
    """A workshop that says the same at every run."""
    bare, numbers, kept = open_workshop(), count(1), MemoryDatabase()
    workshop = KeptWorkshop(
        bare.files,
        bare.tables,
        clock or SteadyClock(count()),
        kept.machines,
        kept.jobs,
        kept.phones,
        kept.levers,
        kept.looks,
        new_id=lambda: f"id-{next(numbers)}",
        chance=Random(4).randbytes,
    )
    if furnished:
        furnish(workshop.shelf)
    return workshop


def client(workshop: KeptWorkshop, dist_folder: Path = Path("no pages")) -> TestClient:
    """A browser on this machine."""
    return browser_at(HOME, create_app(workshop, dist_folder))


def browser_at(home: str, app: FastAPI) -> TestClient:
    """A browser that opens an app at an address."""
    return TestClient(app, base_url=home, raise_server_exceptions=False)


def keep_job(workshop: KeptWorkshop, job_id: str = "job-1") -> None:
    """A job that is under way, without planning it."""
    name = "skerry-worked"
    made_at = datetime(2026, 5, 1, 9, tzinfo=UTC)
    sheet = json.dumps(sheet_document(sheet_of(name)))
    first = [
        SentEvent(event.id, json.dumps(event_document(event), ensure_ascii=False))
        for event in events_of(name)
    ]
    workshop.jobs.start(KeptJob(job_id, "id-4", 1, "front", made_at, sheet), first)
