# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The named steps a database has gone through, each whole or not at all.

A step that was released is never edited: what changes later is a step of its own.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import Boolean, Column, Connection, DateTime, Integer, String, Text, inspect, text
from sqlalchemy.schema import ForeignKeyConstraint, PrimaryKeyConstraint, UniqueConstraint

from firmlever.errors import UnreadableFileError

if TYPE_CHECKING:
    from alembic.operations import Operations

_STEPS_TABLE = "done_step"


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its number and name, and what it does."""

    name: str
    make: Callable[["Operations"], None]


def _machines_and_plans(operations: "Operations") -> None:
    operations.create_table(
        "machine",
        Column("id", String(64), nullable=False),
        Column("name", String(200), nullable=False),
        Column("bike_class", String(40), nullable=False),
        Column("text", Text, nullable=False),
        Column("revision", Integer, nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("changed_at", DateTime, nullable=False),
        Column("is_demo", Boolean, nullable=False),
        PrimaryKeyConstraint("id", name="machine_key"),
    )
    operations.create_table(
        "kept_plan",
        Column("id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("machine_revision", Integer, nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("document", Text, nullable=False),
        PrimaryKeyConstraint("id", name="kept_plan_key"),
        ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="kept_plan_of_machine", ondelete="CASCADE"
        ),
    )
    operations.create_index("ix_kept_plan_machine_id", "kept_plan", ["machine_id"])


def _jobs_and_phones(operations: "Operations") -> None:
    operations.create_table(
        "job",
        Column("id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("machine_revision", Integer, nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("sheet", Text, nullable=False),
        PrimaryKeyConstraint("id", name="job_key"),
    )
    operations.create_index("ix_job_machine_id", "job", ["machine_id"])
    operations.create_table(
        "bench_event",
        Column("arrival", Integer, nullable=False, autoincrement=True),
        Column("id", String(64), nullable=False),
        Column("job_id", String(64), nullable=False),
        Column("body", Text, nullable=False),
        PrimaryKeyConstraint("arrival", name="bench_event_key"),
        UniqueConstraint("id", name="bench_event_once"),
        ForeignKeyConstraint(["job_id"], ["job.id"], name="bench_event_of_job"),
        sqlite_autoincrement=True,
    )
    operations.create_index("ix_bench_event_job_id", "bench_event", ["job_id"])
    operations.create_table(
        "phone",
        Column("id", String(64), nullable=False),
        Column("name", String(200), nullable=False),
        Column("token_hash", String(64), nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("seen_at", DateTime, nullable=False),
        Column("revoked_at", DateTime, nullable=True),
        PrimaryKeyConstraint("id", name="phone_key"),
        UniqueConstraint("token_hash", name="phone_token_once"),
    )


def _lever_tests(operations: "Operations") -> None:
    operations.create_table(
        "lever_test",
        Column("id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("machine_revision", Integer, nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("who", String(200), nullable=False),
        Column("job_id", String(64), nullable=True),
        Column("readings", Text, nullable=False),
        Column("document", Text, nullable=False),
        PrimaryKeyConstraint("id", name="lever_test_key"),
    )
    operations.create_index("ix_lever_test_circuit", "lever_test", ["machine_id", "circuit"])
    operations.create_table(
        "lever_baseline",
        Column("number", Integer, nullable=False, autoincrement=True),
        Column("test_id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("marked_at", DateTime, nullable=False),
        Column("who", String(200), nullable=False),
        PrimaryKeyConstraint("number", name="lever_baseline_key"),
        ForeignKeyConstraint(["test_id"], ["lever_test.id"], name="lever_baseline_of_test"),
        sqlite_autoincrement=True,
    )
    operations.create_index(
        "ix_lever_baseline_circuit", "lever_baseline", ["machine_id", "circuit"]
    )


def _level_looks(operations: "Operations") -> None:
    operations.create_table(
        "level_look",
        Column("id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("machine_revision", Integer, nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("made_at", DateTime, nullable=False),
        Column("who", String(200), nullable=False),
        Column("look", Text, nullable=False),
        PrimaryKeyConstraint("id", name="level_look_key"),
    )
    operations.create_index("ix_level_look_circuit", "level_look", ["machine_id", "circuit"])
    operations.create_table(
        "look_taken_back",
        Column("number", Integer, nullable=False, autoincrement=True),
        Column("look_id", String(64), nullable=False),
        Column("machine_id", String(64), nullable=False),
        Column("circuit", String(200), nullable=False),
        Column("at", DateTime, nullable=False),
        Column("who", String(200), nullable=False),
        PrimaryKeyConstraint("number", name="look_taken_back_key"),
        ForeignKeyConstraint(["look_id"], ["level_look.id"], name="look_taken_back_of_look"),
        sqlite_autoincrement=True,
    )
    operations.create_index(
        "ix_look_taken_back_circuit", "look_taken_back", ["machine_id", "circuit"]
    )


STEPS = (
    Step("0001 machines and plans", _machines_and_plans),
    Step("0002 jobs and phones", _jobs_and_phones),
    Step("0003 lever tests", _lever_tests),
    Step("0004 level looks", _level_looks),
)


def due_steps(connection: Connection, where: str) -> tuple[Step, ...]:
    """Return the steps this database has not gone through.

    Raises
    ------
    UnreadableFileError
        When it has gone through steps that are not known here.
    """
    names = tuple(step.name for step in STEPS)
    done = _done(connection)
    if done != names[: len(done)]:
        raise UnreadableFileError(
            where, "it was written by a newer firmlever; use that one, or move the file away"
        )
    return STEPS[len(done) :]


def go_through(connection: Connection, steps: tuple[Step, ...]) -> None:
    """Go through steps within the transaction of the connection."""
    from alembic.migration import MigrationContext
    from alembic.operations import Operations

    operations = Operations(MigrationContext.configure(connection))
    if not inspect(connection).has_table(_STEPS_TABLE):
        operations.create_table(
            _STEPS_TABLE,
            Column("name", String(200), nullable=False),
            PrimaryKeyConstraint("name", name="done_step_key"),
        )
    for step in steps:
        step.make(operations)
        connection.execute(
            text(f"INSERT INTO {_STEPS_TABLE} (name) VALUES (:name)"),
            {"name": step.name},
        )


def _done(connection: Connection) -> tuple[str, ...]:
    if not inspect(connection).has_table(_STEPS_TABLE):
        return ()
    rows = connection.execute(text(f"SELECT name FROM {_STEPS_TABLE} ORDER BY name"))
    return tuple(row.name for row in rows)
