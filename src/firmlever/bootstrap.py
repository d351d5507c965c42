# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The only place where concrete things are built; importing it opens nothing."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from firmlever.ports import CircuitFiles, Clock, Jobs, Levers, Looks, Machines, Phones, Tables

if TYPE_CHECKING:
    from firmlever.services.jobs import Bench
    from firmlever.services.level_looks import LookBook
    from firmlever.services.lever_tests import LeverBook
    from firmlever.services.machines import Shelf

HOME_VARIABLE = "FIRMLEVER_HOME"


@dataclass(frozen=True, slots=True)
class Workshop:
    """What the entry points work with."""

    files: CircuitFiles
    tables: Tables
    clock: Clock


@dataclass(frozen=True, slots=True)
class KeptWorkshop(Workshop):
    """A workshop that keeps its machines, jobs, phones, lever tests and looks.

    ``chance`` gives so many bytes that nobody can guess.
    """

    machines: Machines
    jobs: Jobs
    phones: Phones
    levers: Levers
    looks: Looks
    new_id: Callable[[], str]
    chance: Callable[[int], bytes]

    @property
    def bench(self) -> "Bench":
        """What the use cases of jobs need."""
        from firmlever.services.jobs import Bench

        return Bench(self.jobs, self.clock, self.new_id, self.chance)

    @property
    def lever_book(self) -> "LeverBook":
        """What the use cases of lever tests need."""
        from firmlever.services.lever_tests import LeverBook

        return LeverBook(self.levers, self.jobs, self.tables, self.clock)

    @property
    def look_book(self) -> "LookBook":
        """What the use cases of looks at a level need."""
        from firmlever.services.level_looks import LookBook

        return LookBook(self.looks, self.tables, self.clock)

    @property
    def shelf(self) -> "Shelf":
        """What the use cases of kept machines need."""
        from firmlever.services.machines import Shelf

        return Shelf(self.machines, self.files, self.clock, self.new_id)


class CalendarClock:
    """The date of this machine, where it stands."""

    def today(self) -> date:
        """Return the date of today."""
        return date.today()  # noqa: DTZ011 - the wall calendar of the bench is meant

    def now(self) -> datetime:
        """Return the time, in UTC."""
        return datetime.now(UTC)


def open_workshop() -> Workshop:
    """Build the workshop on the files and tables of this machine."""
    from firmlever.store.circuit_file import TomlCircuitFiles
    from firmlever.store.tables import CsvTables

    tables = CsvTables()
    grades = [grade.name for grade in tables.grades()]
    return Workshop(TomlCircuitFiles(grades), tables, CalendarClock())


def open_kept_workshop(home: str | None = None) -> KeptWorkshop:
    """Build the workshop with the machines kept in a folder.

    The folder is the one given, else what ``FIRMLEVER_HOME`` names, else where this system
    keeps the data of a user.

    Raises
    ------
    NotWrittenError, UnreadableFileError
        When the folder cannot be used.
    """
    from secrets import token_bytes, token_hex

    from firmlever.store.database import open_database

    bare = open_workshop()
    kept = open_database(Path(home or os.environ.get(HOME_VARIABLE) or _user_folder()))
    return KeptWorkshop(
        bare.files,
        bare.tables,
        bare.clock,
        kept.machines,
        kept.jobs,
        kept.phones,
        kept.levers,
        kept.looks,
        new_id=lambda: token_hex(6),
        chance=token_bytes,
    )


def _user_folder() -> str:
    from platformdirs import user_data_dir

    return user_data_dir("firmlever", appauthor=False)
