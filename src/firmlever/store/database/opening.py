# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Opens the database, sets SQLite up, and brings it up to date."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DatabaseError

from firmlever.errors import NotWrittenError, UnreadableFileError
from firmlever.store.database.jobs import SqlJobs
from firmlever.store.database.levers import SqlLevers
from firmlever.store.database.looks import SqlLooks
from firmlever.store.database.machines import SqlMachines
from firmlever.store.database.migrations import due_steps, go_through
from firmlever.store.database.phones import SqlPhones
from firmlever.store.database.writing import WRITES, reason_of

FILE_NAME = "machines.db"
_PATIENCE_S = 10


@dataclass(frozen=True, slots=True)
class Database:
    """All that is kept in one database."""

    machines: SqlMachines
    jobs: SqlJobs
    phones: SqlPhones
    levers: SqlLevers
    looks: SqlLooks
    engine: Engine

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def database_on(engine: Engine, where: str) -> Database:
    """Return what is kept in a database that has gone through every step."""
    return Database(
        SqlMachines(engine, where),
        SqlJobs(engine, where),
        SqlPhones(engine, where),
        SqlLevers(engine, where),
        SqlLooks(engine, where),
        engine,
    )


def open_database(folder: Path) -> Database:
    """Open the database in a folder, and make both where they are absent.

    Raises
    ------
    NotWrittenError
        When the disk or a permission stands in the way.
    UnreadableFileError
        When the file there is not ours, or a newer firmlever's.
    """
    file = folder / FILE_NAME
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotWrittenError(str(file), (error.strerror or "no folder").lower()) from None
    engine = sqlite_engine(file)
    bring_up_to_date(engine, str(file))
    return database_on(engine, str(file))


def sqlite_engine(file: Path) -> Engine:
    """Return an engine on a SQLite file: written through to the disk, references held."""
    engine = create_engine(f"sqlite:///{file}", connect_args={"timeout": _PATIENCE_S})
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def bring_up_to_date(engine: Engine, where: str) -> None:
    """Go through the steps that are due, all or none.

    Raises
    ------
    NotWrittenError, UnreadableFileError
        When it cannot be written, or is not ours.
    """
    try:
        with engine.connect() as connection:
            if not due_steps(connection, where):
                return
        with engine.connect().execution_options(**WRITES) as connection, connection.begin():
            # looked at again: another process may have been quicker
            go_through(connection, due_steps(connection, where))
    except DatabaseError as error:
        reason = reason_of(error)
        if "not a database" in reason or "malformed" in reason:
            raise UnreadableFileError(
                where, f"it cannot be read ({reason}); move it away, and a new one is made"
            ) from None
        raise NotWrittenError(where, reason) from None


def _set_up(connection: Any, _record: object) -> None:  # noqa: ANN401 - the driver's own type
    # transactions are begun by us: the driver's own way would leave table changes outside
    connection.isolation_level = None
    cursor = connection.cursor()
    for setting in ("foreign_keys = ON", "journal_mode = WAL", "synchronous = FULL"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()


def _begin(connection: Connection) -> None:
    """A writer takes its turn at once, so that it never fails half-way for another."""
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
