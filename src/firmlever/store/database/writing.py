# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A change of the database: one transaction, or the reason why there was none."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DatabaseError, IntegrityError

from firmlever.errors import NotWrittenError

WRITES: dict[str, Any] = {"writes": True}


@contextmanager
def writing(engine: Engine, where: str) -> Iterator[Connection]:
    """Give a connection within a transaction that is committed at the end.

    Raises
    ------
    NotWrittenError
        When the disk or a permission stands in the way; ``where`` names the database.
    """
    try:
        connecting = engine.connect().execution_options(**WRITES)
        with connecting as connection, connection.begin():
            yield connection
    except IntegrityError:
        raise
    except DatabaseError as error:
        raise NotWrittenError(where, reason_of(error)) from None


def reason_of(error: DatabaseError) -> str:
    """Return what the database says, in its own few words."""
    return str(error.orig).splitlines()[0]
