# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Phones that may ask the app over the network, and what each way of serving one lacks."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Phone:
    """A paired phone; of its token only the hash is known here."""

    id: str
    name: str
    token_hash: str
    made_at: datetime
    seen_at: datetime
    revoked_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Lack:
    """Something that a way of serving cannot give, and what to do about it."""

    code: str
    words: str


@dataclass(frozen=True, slots=True)
class Level:
    """A way of serving the pages."""

    name: str
    words: str
    lacks: tuple[Lack, ...]


_SCREEN = Lack(
    "screen goes dark",
    "The phone does not let this page keep the screen on. Set a longer screen time in the "
    "phone's own settings while you work.",
)
_CLEAR = Lack(
    "not encrypted",
    "What is sent can be read by others on the same network. Use your own network, not a "
    "shared or open one.",
)
_RELOAD = Lack(
    "no reload without the computer",
    "Keep the page open: while the computer is away it goes on and keeps every tap, but it "
    "cannot be loaded again until the computer is back.",
)
_ADDRESS = Lack(
    "tied to the address",
    "Taps that are not sent yet belong to this address. If the computer gets another address, "
    "they wait on the phone until it has the old one back.",
)
_BY_HAND = Lack(
    "comes home by hand",
    "Nothing is sent while you work. Bring the taps home afterwards as a file.",
)
_IN_BROWSER = Lack(
    "kept by the browser",
    "Taps are kept by the browser that opened the file, not in the file. Open it with the same "
    "browser each time, and do not clear its data before the taps are home.",
)
_ALONE = Lack("no second device", "No other device can watch or go on with the job meanwhile.")

# Measured with one Chromium browser; real phones may lack more.
HERE = Level("this computer", "The app is open on the computer that keeps the records.", ())
PLAIN = Level(
    "open page",
    "The phone has the page open over your own network.",
    (_RELOAD, _SCREEN, _CLEAR, _ADDRESS),
)
CARRIED = Level(
    "carried page",
    "The job is one file that the phone opens by itself.",
    (_BY_HAND, _IN_BROWSER, _ALONE),
)
LEVELS = (HERE, PLAIN, CARRIED)
