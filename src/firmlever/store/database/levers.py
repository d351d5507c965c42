# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Kept lever tests and the marks of the good ones; both are only ever added."""

from collections.abc import Sequence

from sqlalchemy import Connection, Engine, insert, select

from firmlever.domain.lever_log import Baseline, KeptLeverTest
from firmlever.errors import UnknownLeverTestError
from firmlever.store.database.layout import BASELINES, LEVER_TESTS
from firmlever.store.database.writing import writing

_MARK = tuple(column for column in BASELINES.c if column.name != "number")


class SqlLevers:
    """Lever tests in a database.

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

    def keep(self, test: KeptLeverTest) -> KeptLeverTest:
        """Keep a test unless one is kept under its id; return the one that is kept.

        Raises
        ------
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(test, column.name) for column in LEVER_TESTS.c}
        with writing(self._engine, self._where) as connection:
            kept = _found(connection, test.id)
            if kept is None:
                connection.execute(insert(LEVER_TESTS).values(values))
            return kept or test

    def get(self, test_id: str) -> KeptLeverTest:
        """Return one test.

        Raises
        ------
        UnknownLeverTestError
            When there is none of this id.
        """
        with self._engine.begin() as connection:
            return _get(connection, test_id)

    def of_circuit(self, machine_id: str, circuit: str) -> Sequence[KeptLeverTest]:
        """Return the tests of a circuit, oldest first."""
        wanted = (
            select(LEVER_TESTS)
            .where(LEVER_TESTS.c.machine_id == machine_id, LEVER_TESTS.c.circuit == circuit)
            .order_by(LEVER_TESTS.c.made_at, LEVER_TESTS.c.id)
        )
        with self._engine.begin() as connection:
            return tuple(KeptLeverTest(**row._asdict()) for row in connection.execute(wanted))

    def mark(self, baseline: Baseline) -> None:
        """Mark a test as the good one of its circuit; earlier marks stay in the history.

        Raises
        ------
        UnknownLeverTestError
            When the test is not kept.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(baseline, column.name) for column in _MARK}
        with writing(self._engine, self._where) as connection:
            _get(connection, baseline.test_id)
            connection.execute(insert(BASELINES).values(values))

    def baselines(self, machine_id: str, circuit: str) -> Sequence[Baseline]:
        """Return the marks of a circuit in the order they were made; the last one counts."""
        wanted = (
            select(*_MARK)
            .where(BASELINES.c.machine_id == machine_id, BASELINES.c.circuit == circuit)
            .order_by(BASELINES.c.number)
        )
        with self._engine.begin() as connection:
            return tuple(Baseline(*row) for row in connection.execute(wanted))


def _found(connection: Connection, test_id: str) -> KeptLeverTest | None:
    wanted = select(LEVER_TESTS).where(LEVER_TESTS.c.id == test_id)
    row = connection.execute(wanted).one_or_none()
    return None if row is None else KeptLeverTest(**row._asdict())


def _get(connection: Connection, test_id: str) -> KeptLeverTest:
    kept = _found(connection, test_id)
    if kept is None:
        raise UnknownLeverTestError(test_id)
    return kept
