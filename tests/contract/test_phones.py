# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every place that keeps phones must do: one that was taken off is gone for good."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from contract.examples import START, phone
from contract.stores import Kept
from firmlever.errors import UnknownPhoneError
from firmlever.ports import Phones

LATER = START + timedelta(hours=1)


@pytest.fixture
def phones(kept: Kept) -> Phones:
    kept.phones.add(phone())
    kept.phones.add(phone("f2", minutes=5))
    return kept.phones


def test_a_phone_is_found_by_the_hash_of_its_token(phones: Phones) -> None:
    assert phones.with_token("hash of f1") == phone()
    assert phones.with_token("hash of f3") is None
    assert phones.with_token("") is None


def test_the_newest_comes_first(phones: Phones) -> None:
    assert phones.all() == (phone("f2", minutes=5), phone())


def test_when_it_was_seen_is_kept(phones: Phones) -> None:
    phones.see("f1", LATER)
    assert phones.with_token("hash of f1") == replace(phone(), seen_at=LATER)
    assert phones.all()[0].seen_at == phone("f2", minutes=5).seen_at


def test_a_phone_that_was_taken_off_opens_nothing(phones: Phones) -> None:
    phones.revoke("f1", LATER)
    assert phones.with_token("hash of f1") is None
    assert [one.id for one in phones.all()] == ["f2"]


@pytest.mark.parametrize(
    "ask",
    [lambda phones, one: phones.see(one, LATER), lambda phones, one: phones.revoke(one, LATER)],
    ids=["see", "revoke"],
)
@pytest.mark.parametrize("phone_id", ["gone", "f1"])
def test_a_phone_that_is_not_paired_is_named(
    phones: Phones, ask: Callable[[Phones, str], None], phone_id: str
) -> None:
    phones.revoke("f1", LATER)
    with pytest.raises(UnknownPhoneError, match=f"“{phone_id}”"):
        ask(phones, phone_id)
    assert [one.id for one in phones.all()] == ["f2"]
