# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Phones recognised by their token, also when something goes wrong meanwhile."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import count
from random import Random

import pytest

from contract.memory import MemoryPhones
from firmlever.errors import NotWrittenError, PairingRefusedError, UnknownPhoneError
from firmlever.services.pairing import PairingDesk, hash_of


@dataclass
class SetClock:
    time: datetime = datetime(2026, 5, 1, 9, tzinfo=UTC)

    def today(self) -> date:
        return self.time.date()

    def now(self) -> datetime:
        return self.time


@dataclass
class Room:
    phones: MemoryPhones
    clock: SetClock
    desk: PairingDesk

    def pair(self) -> str:
        return self.desk.claim(self.desk.offer().code, " red ").token


@pytest.fixture
def room() -> Room:
    numbers, phones, clock = count(1), MemoryPhones(), SetClock()
    desk = PairingDesk(phones, clock, lambda: f"f{next(numbers)}", Random(5).randbytes)
    return Room(phones, clock, desk)


def raising(error: Exception) -> Callable[..., None]:
    def fail(*_anything: object) -> None:
        raise error

    return fail


def test_a_phone_is_known_by_its_token_alone(room: Room) -> None:
    token = room.pair()
    known = room.desk.who(token)
    assert known is not None
    assert (known.id, known.name, known.token_hash) == ("f1", "red", hash_of(token))
    assert room.desk.who(token[:-1]) is None
    assert room.desk.who(hash_of(token)) is None
    assert room.desk.who("") is None


def test_two_phones_have_two_tokens(room: Room) -> None:
    assert room.pair() != room.pair()
    assert len(room.phones.all()) == 2


def test_a_full_disk_keeps_no_phone_from_reading(
    room: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    token = room.pair()
    room.clock.time += timedelta(minutes=2)
    monkeypatch.setattr(room.phones, "see", raising(NotWrittenError("machines.db", "full")))
    assert room.desk.who(token) is not None


def test_a_phone_taken_off_in_that_moment_is_not_let_in(
    room: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    token = room.pair()
    room.clock.time += timedelta(minutes=2)
    monkeypatch.setattr(room.phones, "see", raising(UnknownPhoneError("f1")))
    assert room.desk.who(token) is None


def test_a_code_is_used_up_even_when_the_phone_cannot_be_kept(
    room: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    code = room.desk.offer().code
    with monkeypatch.context() as broken:
        broken.setattr(room.phones, "add", raising(NotWrittenError("machines.db", "full")))
        with pytest.raises(NotWrittenError):
            room.desk.claim(code, "red")
    with pytest.raises(PairingRefusedError):
        room.desk.claim(code, "red")
    assert room.phones.all() == ()


def test_a_clock_set_back_pairs_nobody_after_the_code_ran_out(room: Room) -> None:
    code = room.desk.offer().code
    room.clock.time += timedelta(minutes=3)
    with pytest.raises(PairingRefusedError):
        room.desk.claim(code, "red")
    room.clock.time -= timedelta(minutes=3)
    with pytest.raises(PairingRefusedError):
        room.desk.claim(code, "red")
