# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Paired phones; what each proves itself with is kept as a hash only."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Engine, insert, select, update

from firmlever.domain.phone import Phone
from firmlever.errors import UnknownPhoneError
from firmlever.store.database.layout import PHONES
from firmlever.store.database.writing import writing


class SqlPhones:
    """Phones in a database.

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

    def all(self) -> Sequence[Phone]:
        """Return the phones that were not taken off, the newest first."""
        newest = (
            select(PHONES)
            .where(PHONES.c.revoked_at.is_(None))
            .order_by(PHONES.c.made_at.desc(), PHONES.c.id)
        )
        with self._engine.begin() as connection:
            return tuple(Phone(**row._asdict()) for row in connection.execute(newest))

    def with_token(self, token_hash: str) -> Phone | None:
        """Return the phone whose token has this hash, unless it was taken off."""
        wanted = select(PHONES).where(
            PHONES.c.token_hash == token_hash, PHONES.c.revoked_at.is_(None)
        )
        with self._engine.begin() as connection:
            row = connection.execute(wanted).one_or_none()
        return None if row is None else Phone(**row._asdict())

    def add(self, phone: Phone) -> None:
        """Keep a new phone.

        Raises
        ------
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        values = {column.name: getattr(phone, column.name) for column in PHONES.c}
        with writing(self._engine, self._where) as connection:
            connection.execute(insert(PHONES).values(values))

    def see(self, phone_id: str, at: datetime) -> None:
        """Note when a phone was last seen.

        Raises
        ------
        UnknownPhoneError
            When there is none of this id, or it was taken off.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        self._set(phone_id, seen_at=at)

    def revoke(self, phone_id: str, at: datetime) -> None:
        """Take a phone off.

        Raises
        ------
        UnknownPhoneError
            When there is none of this id, or it was taken off already.
        NotWrittenError
            When the disk or a permission stands in the way.
        """
        self._set(phone_id, revoked_at=at)

    def _set(self, phone_id: str, **values: Any) -> None:  # noqa: ANN401 - any column
        one = update(PHONES).where(PHONES.c.id == phone_id, PHONES.c.revoked_at.is_(None))
        with writing(self._engine, self._where) as connection:
            if connection.execute(one.values(values)).rowcount != 1:
                raise UnknownPhoneError(phone_id)
