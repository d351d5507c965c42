# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Pair phones: a short code shown at the computer, changed once for a token that stays.

A code is good for two minutes, for one phone and for a few tries; a new one ends the one
before. The token is known to the phone alone: here only its hash is kept.
"""

from base64 import urlsafe_b64encode
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from hmac import compare_digest
from threading import Lock

from firmlever.domain.phone import Phone
from firmlever.errors import NotWrittenError, PairingRefusedError, UnknownPhoneError
from firmlever.ports import Clock, Phones

# no letter or digit that is read or heard as another one; 32 of them, so that a byte gives
# each with the same chance
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
CODE_LENGTH = 8
GOOD_FOR = timedelta(seconds=120)
MOST_TRIES = 5
TOKEN_BYTES = 32
# each look of a phone is not worth a write to the disk
_SEEN_AGAIN = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Offer:
    """A code and until when it pairs a phone."""

    code: str
    expires_at: datetime


@dataclass(frozen=True, slots=True)
class Paired:
    """A phone and the token that only it will know."""

    phone: Phone
    token: str


class PairingDesk:
    """Hands out one code at a time, and pairs whoever brings it back.

    Parameters
    ----------
    phones, clock, new_id
        Where phones are kept, and what keeping them needs.
    chance
        Gives so many bytes that nobody can guess.
    """

    def __init__(
        self,
        phones: Phones,
        clock: Clock,
        new_id: Callable[[], str],
        chance: Callable[[int], bytes],
    ) -> None:
        self._phones = phones
        self._clock = clock
        self._new_id = new_id
        self._chance = chance
        self._offer: Offer | None = None
        self._tries_left = 0
        self._lock = Lock()

    def offer(self) -> Offer:
        """Return a new code; the one before pairs nothing any more."""
        code = "".join(ALPHABET[byte % len(ALPHABET)] for byte in self._chance(CODE_LENGTH))
        with self._lock:
            self._offer = Offer(code, self._clock.now() + GOOD_FOR)
            self._tries_left = MOST_TRIES
            return self._offer

    def claim(self, code: str, name: str) -> Paired:
        """Change a code for a token; the code is used up by that.

        Raises
        ------
        PairingRefusedError
            When the code is wrong, used, too old, or was tried too often.
        NotWrittenError
            When the phone cannot be kept; the code is used up all the same.
        """
        with self._lock:
            if not self._is_right(code):
                raise PairingRefusedError
            self._offer = None
        token = urlsafe_b64encode(self._chance(TOKEN_BYTES)).decode("ascii").rstrip("=")
        now = self._clock.now()
        phone = Phone(self._new_id(), name.strip(), hash_of(token), now, now)
        self._phones.add(phone)
        return Paired(phone, token)

    def who(self, token: str) -> Phone | None:
        """Return the phone that has this token, and note that it was seen."""
        phone = self._phones.with_token(hash_of(token))
        now = self._clock.now()
        if phone is None or now - phone.seen_at < _SEEN_AGAIN:
            return phone
        try:
            self._phones.see(phone.id, now)
        except UnknownPhoneError:  # taken off between the two
            return None
        except NotWrittenError:  # a full disk keeps no phone from reading
            return phone
        return phone

    def _is_right(self, code: str) -> bool:
        if self._offer is None or self._clock.now() >= self._offer.expires_at:
            self._offer = None
            return False
        if compare_digest(plain_code(code).encode(), self._offer.code.encode()):
            return True
        self._tries_left -= 1
        if not self._tries_left:
            self._offer = None
        return False


def plain_code(typed: str) -> str:
    """Return a code as it was made, however somebody wrote it.

    >>> plain_code(" abcd-ef gh ")
    'ABCDEFGH'
    """
    return "".join(letter for letter in typed.upper() if letter not in " -")


def hash_of(token: str) -> str:
    """Return what is kept of a token; it is long and random, so one round is enough."""
    return sha256(token.encode("utf-8", "replace")).hexdigest()
