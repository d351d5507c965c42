# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How often an address may ask, and by which door a request came."""

from typing import Any

import pytest

from firmlever.errors import TooOftenError
from firmlever.web.doors import door_of
from firmlever.web.pace import Pace


class Watch:
    """A clock that a test moves."""

    def __init__(self) -> None:
        self.s = 100.0

    def __call__(self) -> float:
        return self.s


def test_so_many_at_once_then_so_many_a_second() -> None:
    watch = Watch()
    pace = Pace(3, 0.5, watch)
    for _ in range(3):
        pace.count("a")
    with pytest.raises(TooOftenError) as early:
        pace.count("a")
    assert early.value.wait_s == 2
    watch.s += 2
    pace.count("a")
    with pytest.raises(TooOftenError):
        pace.count("a")


def test_a_pause_gives_back_no_more_than_all() -> None:
    watch = Watch()
    pace = Pace(2, 10, watch)
    pace.count("a")
    watch.s += 1000
    pace.count("a")
    pace.count("a")
    with pytest.raises(TooOftenError):
        pace.count("a")


def test_addresses_do_not_wait_for_each_other() -> None:
    pace = Pace(1, 1, Watch())
    pace.count("a")
    pace.count("b")
    with pytest.raises(TooOftenError):
        pace.count("a")


def test_a_flood_of_addresses_fills_no_memory() -> None:
    pace = Pace(1, 1, Watch())
    for number in range(3000):
        pace.count(f"{number}")
    with pytest.raises(TooOftenError):
        pace.count("2999")
    # the oldest is forgotten, and starts anew
    pace.count("0")


@pytest.mark.parametrize(
    ("server", "is_here", "hosts"),
    [
        (("127.0.0.1", 8017), True, ("127.0.0.1:8017", "localhost:8017", "[::1]:8017")),
        (("192.168.7.5", 8017), False, ("192.168.7.5:8017",)),
        (("192.168.7.5", 80), False, ("192.168.7.5:80", "192.168.7.5")),
        (("127.0.0.2", 8017), False, ("127.0.0.2:8017",)),
        (("localhost", 8017), False, ("localhost:8017",)),
        (("/run/socket", None), False, ("/run/socket:80", "/run/socket")),
        (None, False, (":80", "")),
    ],
)
def test_a_door_that_is_not_known_is_never_our_own(
    server: Any, is_here: bool, hosts: tuple[str, ...]
) -> None:
    door = door_of({"type": "http", "server": server})
    assert (door.is_here, door.hosts) == (is_here, hosts)
