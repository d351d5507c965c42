# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Kept jobs and their events. An event is only ever added, and only once.

A batch of events is one transaction. Whoever is told that an event is accepted is told so
after the commit, which SQLite answers once the disk has it (WAL, synchronous FULL).
"""

from collections.abc import Callable, Sequence
from typing import Any

from sqlalchemy import Connection, Engine, Select, Table, func, insert, select
from sqlalchemy.dialects import postgresql, sqlite

from firmlever.domain.job import KeptEvent, KeptJob, SentEvent, Taken
from firmlever.errors import UnknownJobError
from firmlever.store.database.layout import EVENTS, JOBS
from firmlever.store.database.writing import writing

# each database has its own way of leaving alone what is there already
_INSERT: dict[str, Callable[[Table], sqlite.Insert | postgresql.Insert]] = {
    "sqlite": sqlite.insert,
    "postgresql": postgresql.insert,
}
_KEPT = (EVENTS.c.arrival, EVENTS.c.id, EVENTS.c.body)


class SqlJobs:
    """Jobs in a database.

    Parameters
    ----------
    engine
        A database that has gone through every step.
    where
        What it is called in messages.
    """

    def __init__(self, engine: Engine, where: str) -> None:
        self._engine = engine
        self._where = where

    def all(self) -> Sequence[KeptJob]:
        """Return every job, newest first."""
        return self._listed(select(JOBS))

    def of_machine(self, machine_id: str) -> Sequence[KeptJob]:
        """Return the jobs of a machine, newest first, whether it is still kept or not."""
        return self._listed(select(JOBS).where(JOBS.c.machine_id == machine_id))

    def get(self, job_id: str) -> KeptJob:
        """Return one job.

        Raises
        ------
        UnknownJobError
            When there is none of this id.
        """
        with self._engine.begin() as connection:
            return _get(connection, select(JOBS), job_id)

    def start(self, job: KeptJob, first: Sequence[SentEvent]) -> None:
        """Keep a new job with its first events.

        Raises
        ------
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(job, column.name) for column in JOBS.c}
        with writing(self._engine, self._where) as connection:
            connection.execute(insert(JOBS).values(values))
            _add(connection, job.id, first)

    def take(self, job_id: str, events: Sequence[SentEvent]) -> Taken:
        """Keep the events that are not there yet; what is kept once stays as it is.

        Raises
        ------
        UnknownJobError
            When there is no job of this id.
        NotWrittenError
            When the disk or a permission stands in the way; none of them is kept then.
        """
        with writing(self._engine, self._where) as connection:
            # one writer of a job at a time, so that arrivals are seen in their order
            _get(connection, select(JOBS).with_for_update(), job_id)
            _add(connection, job_id, events)
            return _taken(connection, job_id, events)

    def events(self, job_id: str, after: int = 0) -> Sequence[KeptEvent]:
        """Return the events of a job that arrived after an arrival, in that order.

        Raises
        ------
        UnknownJobError
            When there is none of this id.
        """
        wanted = (
            select(*_KEPT)
            .where(EVENTS.c.job_id == job_id, EVENTS.c.arrival > after)
            .order_by(EVENTS.c.arrival)
        )
        with self._engine.begin() as connection:
            _get(connection, select(JOBS), job_id)
            return tuple(KeptEvent(*row) for row in connection.execute(wanted))

    def _listed(self, wanted: Select[Any]) -> Sequence[KeptJob]:
        newest = wanted.order_by(JOBS.c.made_at.desc(), JOBS.c.id)
        with self._engine.begin() as connection:
            return tuple(KeptJob(**row._asdict()) for row in connection.execute(newest))


def _get(connection: Connection, wanted: Select[Any], job_id: str) -> KeptJob:
    row = connection.execute(wanted.where(JOBS.c.id == job_id)).one_or_none()
    if row is None:
        raise UnknownJobError(job_id)
    return KeptJob(**row._asdict())


def _add(connection: Connection, job_id: str, events: Sequence[SentEvent]) -> None:
    new = _INSERT[connection.dialect.name](EVENTS).on_conflict_do_nothing(index_elements=["id"])
    for event in events:
        connection.execute(new.values(id=event.id, job_id=job_id, body=event.body))


def _taken(connection: Connection, job_id: str, events: Sequence[SentEvent]) -> Taken:
    ids = [event.id for event in events]
    rows = connection.execute(
        select(EVENTS.c.id, EVENTS.c.job_id, EVENTS.c.body).where(EVENTS.c.id.in_(ids))
    )
    kept = {row.id: (row.job_id, row.body) for row in rows}
    same = {event: kept[event.id] == (job_id, event.body) for event in events}
    last = connection.execute(
        select(func.coalesce(func.max(EVENTS.c.arrival), 0)).where(EVENTS.c.job_id == job_id)
    ).scalar_one()
    return Taken(
        accepted=tuple(dict.fromkeys(event.id for event in events if same[event])),
        differing=tuple(dict.fromkeys(event.id for event in events if not same[event])),
        arrival=last,
    )
