# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The app on a workshop whose time and names stand still."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path
from random import Random

from fastapi.testclient import TestClient

from contract.memory import MemoryDatabase
from firmlever.bootstrap import KeptWorkshop, open_workshop
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


def steady_workshop(*, furnished: bool = True) -> KeptWorkshop:
    """A workshop that says the same at every run."""
    bare, numbers, kept = open_workshop(), count(1), MemoryDatabase()
    workshop = KeptWorkshop(
        bare.files,
        bare.tables,
        SteadyClock(count()),
        kept.machines,
        kept.jobs,
        kept.phones,
        new_id=lambda: f"id-{next(numbers)}",
        chance=Random(4).randbytes,
    )
    if furnished:
        furnish(workshop.shelf)
    return workshop


def client(workshop: KeptWorkshop, dist_folder: Path = Path("no pages")) -> TestClient:
    """A browser on this machine."""
    app = create_app(workshop, dist_folder)
    return TestClient(app, base_url=HOME, raise_server_exceptions=False)
