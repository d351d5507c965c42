# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Kept machines and plans; each change is one transaction that compares and sets."""

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Engine, Row, delete, insert, select, update

from firmlever.domain.circuit import BikeClass
from firmlever.domain.machine import KeptPlan, Machine
from firmlever.errors import ChangedMeanwhileError, UnknownMachineError, UnknownPlanError
from firmlever.store.database.layout import MACHINES, PLANS
from firmlever.store.database.writing import writing


class SqlMachines:
    """Machines in a database.

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

    def all(self) -> Sequence[Machine]:
        """Return every machine, last changed first."""
        newest = select(MACHINES).order_by(MACHINES.c.changed_at.desc(), MACHINES.c.name)
        with self._engine.begin() as connection:
            return tuple(_machine(row) for row in connection.execute(newest))

    def get(self, machine_id: str) -> Machine:
        """Return one machine.

        Raises
        ------
        UnknownMachineError
            When there is none of this id.
        """
        with self._engine.begin() as connection:
            return _get(connection, machine_id)

    def add(self, machine: Machine) -> None:
        """Keep a new machine.

        Raises
        ------
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        with writing(self._engine, self._where) as connection:
            connection.execute(insert(MACHINES).values(_values(machine)))

    def change(self, machine: Machine, read_revision: int) -> None:
        """Keep a changed machine.

        Raises
        ------
        UnknownMachineError, ChangedMeanwhileError
            When it is not there any more, or somebody saved first.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = _values(machine)
        with writing(self._engine, self._where) as connection:
            done = connection.execute(
                update(MACHINES).where(*_as_read(machine.id, read_revision)).values(values)
            )
            _held(connection, machine.id, read_revision, done.rowcount)

    def remove(self, machine_id: str, read_revision: int) -> None:
        """Forget a machine with its plans.

        Raises
        ------
        UnknownMachineError, ChangedMeanwhileError
            When it is not there any more, or somebody saved first.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        with writing(self._engine, self._where) as connection:
            done = connection.execute(delete(MACHINES).where(*_as_read(machine_id, read_revision)))
            _held(connection, machine_id, read_revision, done.rowcount)

    def keep_plan(self, plan: KeptPlan) -> None:
        """Keep a plan.

        Raises
        ------
        UnknownMachineError
            When its machine is not there any more.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(plan, column.name) for column in PLANS.c}
        with writing(self._engine, self._where) as connection:
            _get(connection, plan.machine_id)
            connection.execute(insert(PLANS).values(values))

    def plans(self, machine_id: str) -> Sequence[KeptPlan]:
        """Return the kept plans of a machine, newest first.

        Raises
        ------
        UnknownMachineError
            When there is none of this id.
        """
        newest = (
            select(PLANS)
            .where(PLANS.c.machine_id == machine_id)
            .order_by(PLANS.c.made_at.desc(), PLANS.c.id)
        )
        with self._engine.begin() as connection:
            _get(connection, machine_id)
            return tuple(_plan(row) for row in connection.execute(newest))

    def plan(self, plan_id: str) -> KeptPlan:
        """Return one kept plan.

        Raises
        ------
        UnknownPlanError
            When there is none of this id.
        """
        with self._engine.begin() as connection:
            row = connection.execute(select(PLANS).where(PLANS.c.id == plan_id)).one_or_none()
        if row is None:
            raise UnknownPlanError(plan_id)
        return _plan(row)


def _as_read(machine_id: str, read_revision: int) -> tuple[Any, Any]:
    return MACHINES.c.id == machine_id, MACHINES.c.revision == read_revision


def _held(connection: Connection, machine_id: str, read_revision: int, count: int) -> None:
    if count != 1:
        kept = _get(connection, machine_id)
        raise ChangedMeanwhileError(kept.name, read_revision, kept.revision)


def _get(connection: Connection, machine_id: str) -> Machine:
    row = connection.execute(select(MACHINES).where(MACHINES.c.id == machine_id)).one_or_none()
    if row is None:
        raise UnknownMachineError(machine_id)
    return _machine(row)


def _values(machine: Machine) -> dict[str, object]:
    return {column.name: getattr(machine, column.name) for column in MACHINES.c}


def _machine(row: Row[Any]) -> Machine:
    columns = row._asdict()
    return Machine(**columns | {"bike_class": BikeClass(columns["bike_class"])})


def _plan(row: Row[Any]) -> KeptPlan:
    return KeptPlan(**row._asdict())
