# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The tables as the newest migration leaves them; times are kept in UTC."""

from datetime import UTC, datetime

from sqlalchemy import (
    Boolean,
    Column,
    DateTime,
    Dialect,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
)


class UtcTime(TypeDecorator[datetime]):
    """A time with its zone, kept in UTC; SQLite by itself drops the zone."""

    impl = DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, _dialect: Dialect) -> datetime | None:
        """Take the zone off once it is UTC."""
        return None if value is None else value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, _dialect: Dialect) -> datetime | None:
        """Put the zone back on."""
        return None if value is None else value.replace(tzinfo=UTC)


METADATA = MetaData()

MACHINES = Table(
    "machine",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("name", String(200), nullable=False),
    Column("bike_class", String(40), nullable=False),
    Column("text", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("changed_at", UtcTime, nullable=False),
    Column("is_demo", Boolean, nullable=False),
    PrimaryKeyConstraint("id", name="machine_key"),
)

PLANS = Table(
    "kept_plan",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False, index=True),
    Column("machine_revision", Integer, nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("document", Text, nullable=False),
    PrimaryKeyConstraint("id", name="kept_plan_key"),
    ForeignKeyConstraint(
        ["machine_id"], ["machine.id"], name="kept_plan_of_machine", ondelete="CASCADE"
    ),
)

# A job names its machine and does not hang on it: its record outlives the machine.
JOBS = Table(
    "job",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False, index=True),
    Column("machine_revision", Integer, nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("sheet", Text, nullable=False),
    PrimaryKeyConstraint("id", name="job_key"),
)

EVENTS = Table(
    "bench_event",
    METADATA,
    Column("arrival", Integer, nullable=False, autoincrement=True),
    Column("id", String(64), nullable=False),
    Column("job_id", String(64), nullable=False, index=True),
    Column("body", Text, nullable=False),
    PrimaryKeyConstraint("arrival", name="bench_event_key"),
    UniqueConstraint("id", name="bench_event_once"),
    ForeignKeyConstraint(["job_id"], ["job.id"], name="bench_event_of_job"),
    sqlite_autoincrement=True,
)

PHONES = Table(
    "phone",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("name", String(200), nullable=False),
    Column("token_hash", String(64), nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("seen_at", UtcTime, nullable=False),
    Column("revoked_at", UtcTime, nullable=True),
    PrimaryKeyConstraint("id", name="phone_key"),
    UniqueConstraint("token_hash", name="phone_token_once"),
)

# Like a job, a lever test names its machine and outlives it.
LEVER_TESTS = Table(
    "lever_test",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False),
    Column("machine_revision", Integer, nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("who", String(200), nullable=False),
    Column("job_id", String(64), nullable=True),
    Column("readings", Text, nullable=False),
    Column("document", Text, nullable=False),
    PrimaryKeyConstraint("id", name="lever_test_key"),
    Index("ix_lever_test_circuit", "machine_id", "circuit"),
)

BASELINES = Table(
    "lever_baseline",
    METADATA,
    Column("number", Integer, nullable=False, autoincrement=True),
    Column("test_id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("marked_at", UtcTime, nullable=False),
    Column("who", String(200), nullable=False),
    PrimaryKeyConstraint("number", name="lever_baseline_key"),
    ForeignKeyConstraint(["test_id"], ["lever_test.id"], name="lever_baseline_of_test"),
    Index("ix_lever_baseline_circuit", "machine_id", "circuit"),
    sqlite_autoincrement=True,
)

# A look names its machine and outlives it.
LOOKS = Table(
    "level_look",
    METADATA,
    Column("id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False),
    Column("machine_revision", Integer, nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("made_at", UtcTime, nullable=False),
    Column("who", String(200), nullable=False),
    Column("look", Text, nullable=False),
    PrimaryKeyConstraint("id", name="level_look_key"),
    Index("ix_level_look_circuit", "machine_id", "circuit"),
)

LOOKS_TAKEN_BACK = Table(
    "look_taken_back",
    METADATA,
    Column("number", Integer, nullable=False, autoincrement=True),
    Column("look_id", String(64), nullable=False),
    Column("machine_id", String(64), nullable=False),
    Column("circuit", String(200), nullable=False),
    Column("at", UtcTime, nullable=False),
    Column("who", String(200), nullable=False),
    PrimaryKeyConstraint("number", name="look_taken_back_key"),
    ForeignKeyConstraint(["look_id"], ["level_look.id"], name="look_taken_back_of_look"),
    Index("ix_look_taken_back_circuit", "machine_id", "circuit"),
    sqlite_autoincrement=True,
)
