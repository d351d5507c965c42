# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Kept looks at a level and the notes that take some back; both are only ever added."""

from collections.abc import Sequence

from sqlalchemy import Engine, insert, select

from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.errors import UnknownLookError
from firmlever.store.database.layout import LOOKS, LOOKS_TAKEN_BACK
from firmlever.store.database.writing import writing

_NOTE = tuple(column for column in LOOKS_TAKEN_BACK.c if column.name != "number")


class SqlLooks:
    """Looks in a database.

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

    def keep(self, look: KeptLook) -> KeptLook:
        """Keep a look unless one is kept under its id; return the one that is kept.

        Raises
        ------
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(look, column.name) for column in LOOKS.c}
        wanted = select(LOOKS).where(LOOKS.c.id == look.id)
        with writing(self._engine, self._where) as connection:
            row = connection.execute(wanted).one_or_none()
            if row is not None:
                return KeptLook(**row._asdict())
            connection.execute(insert(LOOKS).values(values))
            return look

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLook]:
        """Return the looks of a circuit in the order they were kept."""
        wanted = (
            select(LOOKS)
            .where(LOOKS.c.machine_id == machine_id, LOOKS.c.circuit == circuit)
            .order_by(LOOKS.c.made_at, LOOKS.c.id)
        )
        with self._engine.begin() as connection:
            return tuple(KeptLook(**row._asdict()) for row in connection.execute(wanted))

    def take_back(self, note: TakenBack) -> None:
        """Add the note that a look does not count; the look stays.

        Raises
        ------
        UnknownLookError
            When the look is not kept.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(note, column.name) for column in _NOTE}
        wanted = select(LOOKS.c.id).where(LOOKS.c.id == note.look_id)
        with writing(self._engine, self._where) as connection:
            if connection.execute(wanted).one_or_none() is None:
                raise UnknownLookError(note.look_id)
            connection.execute(insert(LOOKS_TAKEN_BACK).values(values))

    def taken_back(self, machine_id: str, circuit: str) -> Sequence[TakenBack]:
        """Return the notes of a circuit in the order they were made."""
        table = LOOKS_TAKEN_BACK
        wanted = (
            select(*_NOTE)
            .where(table.c.machine_id == machine_id, table.c.circuit == circuit)
            .order_by(table.c.number)
        )
        with self._engine.begin() as connection:
            return tuple(TakenBack(*row) for row in connection.execute(wanted))
