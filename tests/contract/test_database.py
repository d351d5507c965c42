# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is peculiar to a database: steps, settings, full disks, files that are not ours."""

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from alembic.operations import Operations
from sqlalchemy import create_engine, event, inspect, text
from sqlalchemy.exc import IntegrityError

from contract.examples import machine, plan
from firmlever.errors import NotWrittenError, UnreadableFileError
from firmlever.store.database import database_on, open_database
from firmlever.store.database import migrations as steps_of
from firmlever.store.database.layout import METADATA
from firmlever.store.database.opening import FILE_NAME, bring_up_to_date, sqlite_engine


def ask(file: Path, sentence: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(file)) as connection:
        return connection.execute(sentence).fetchall()


def test_the_steps_lead_to_the_tables_that_are_used(tmp_path: Path) -> None:
    """Independent: the tables as declared, made in one go, against those the steps make."""
    stepped = sqlite_engine(tmp_path / "stepped.db")
    bring_up_to_date(stepped, "stepped")
    declared = create_engine(f"sqlite:///{tmp_path / 'declared.db'}")
    METADATA.create_all(declared)
    for table in METADATA.tables:
        one, other = inspect(stepped), inspect(declared)
        for look in ("get_columns", "get_pk_constraint", "get_foreign_keys", "get_indexes"):
            assert str(getattr(one, look)(table)) == str(getattr(other, look)(table)), look
    stepped.dispose()
    declared.dispose()


def test_every_constraint_has_a_name(tmp_path: Path) -> None:
    open_database(tmp_path).close()
    rows = ask(tmp_path / FILE_NAME, "SELECT sql FROM sqlite_master")
    made = " ".join(str(row[0]) for row in rows)
    keys = made.count("PRIMARY KEY") + made.count("FOREIGN KEY") + made.count("UNIQUE (")
    # keys that count by themselves have no name in SQLite; those are of arrivals and marks
    assert made.count("CONSTRAINT ") == keys - made.count("AUTOINCREMENT") == 13


def test_settings_of_sqlite(tmp_path: Path) -> None:
    engine = sqlite_engine(tmp_path / FILE_NAME)
    with engine.connect() as connection:
        said = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }
    engine.dispose()
    assert said == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}


def test_a_step_that_fails_leaves_nothing_of_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, *later = steps_of.STEPS

    def half(operations: Operations) -> None:
        whole.make(operations)
        raise ZeroDivisionError

    with monkeypatch.context() as broken:
        broken.setattr(steps_of, "STEPS", (steps_of.Step("0001 half", half), *later))
        with pytest.raises(ZeroDivisionError):
            open_database(tmp_path)
    assert ask(tmp_path / FILE_NAME, "SELECT name FROM sqlite_master") == []
    open_database(tmp_path).close()
    assert ask(tmp_path / FILE_NAME, "SELECT name FROM done_step") == [
        ("0001 machines and plans",),
        ("0002 jobs and phones",),
        ("0003 lever tests",),
        ("0004 level looks",),
    ]


def test_alembic_is_imported_only_when_a_step_is_due(tmp_path: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from firmlever.store.database import open_database; "
        f"open_database(Path({str(tmp_path)!r})); print('alembic' in sys.modules)"
    )
    runs = [
        subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
        for _ in range(2)
    ]
    assert [run.stdout for run in runs] == ["True\n", "False\n"]


def test_a_newer_database_is_left_alone(tmp_path: Path) -> None:
    open_database(tmp_path).close()
    file = tmp_path / FILE_NAME
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("INSERT INTO done_step VALUES ('9999 tyres')")
    with pytest.raises(UnreadableFileError) as refused:
        open_database(tmp_path)
    assert str(refused.value) == (
        f"{file}: it was written by a newer firmlever; use that one, or move the file away"
    )


def test_a_file_that_is_no_database_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / FILE_NAME
    file.write_bytes(b"shopping list\n" * 200)
    with pytest.raises(UnreadableFileError) as refused:
        open_database(tmp_path)
    assert str(refused.value) == (
        f"{file}: it cannot be read (file is not a database); move it away, and a new one is made"
    )
    assert file.read_bytes() == b"shopping list\n" * 200


def test_a_folder_that_cannot_be_made(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(NotWrittenError, match=r"machines\.db was not written \(not a directory\)"):
        open_database(tmp_path / "file" / "folder")


def test_a_database_in_the_way_of_itself(tmp_path: Path) -> None:
    (tmp_path / FILE_NAME).mkdir()
    with pytest.raises(NotWrittenError, match=r"\(unable to open database file\)"):
        open_database(tmp_path)


@pytest.mark.parametrize(
    ("setting", "reason"),
    [
        ("max_page_count = 1", "database or disk is full"),
        ("query_only = ON", "attempt to write a readonly database"),
    ],
)
def test_nothing_is_kept_half_way(tmp_path: Path, setting: str, reason: str) -> None:
    """A full disk and a read-only one, as SQLite itself meets them."""
    before = open_database(tmp_path)
    before.machines.add(machine())
    before.close()
    file = tmp_path / FILE_NAME
    engine = sqlite_engine(file)

    def limit(raw: sqlite3.Connection, _record: object) -> None:
        raw.execute(f"PRAGMA {setting}")

    event.listen(engine, "connect", limit)
    store = database_on(engine, "machines.db").machines
    # too long for the pages that are there
    writes: tuple[Callable[[], None], ...] = (
        lambda: store.add(replace(machine("m2"), text="#" * 1_000_000)),
        lambda: store.change(replace(machine(), text="#" * 1_000_000, revision=2), 1),
        lambda: store.keep_plan(replace(plan(), document="#" * 1_000_000)),
    )
    for write in writes:
        with pytest.raises(NotWrittenError) as refused:
            write()
        assert str(refused.value) == (
            f"machines.db was not written ({reason}); what was there before is unchanged"
        )
    assert store.all() == (machine(),)
    assert store.plans("m1") == ()
    engine.dispose()


def test_references_are_held_by_the_database_itself(tmp_path: Path) -> None:
    store = open_database(tmp_path)
    engine = sqlite_engine(tmp_path / FILE_NAME)
    with engine.connect() as connection, pytest.raises(IntegrityError), connection.begin():
        connection.execute(
            text(
                "INSERT INTO kept_plan VALUES ('p', 'nobody', 1, 'front', '2026-05-01 09:00', '{}')"
            )
        )
    engine.dispose()
    store.close()


def test_the_same_id_twice_is_a_fault_of_ours(tmp_path: Path) -> None:
    store = open_database(tmp_path)
    store.machines.add(machine())
    with pytest.raises(IntegrityError):
        store.machines.add(machine())
    store.close()
