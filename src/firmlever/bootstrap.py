# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The only place where concrete things are built; importing it opens nothing."""

from dataclasses import dataclass
from datetime import UTC, date, datetime

from firmlever.ports import CircuitFiles, Clock, Tables


@dataclass(frozen=True, slots=True)
class Workshop:
    """What the entry points work with."""

    files: CircuitFiles
    tables: Tables
    clock: Clock


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
