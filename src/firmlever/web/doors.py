# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""By which door a request came in: this machine's own, or the one to the local network.

The address that the connection was accepted at says it, which no header can change.
"""

from dataclasses import dataclass

from fastapi import Request
from starlette.types import Scope

from firmlever.errors import OnlyHereError

LOOPBACK = "127.0.0.1"
_OWN = (LOOPBACK, "::1")
_HTTP_PORT = 80


@dataclass(frozen=True, slots=True)
class Door:
    """Where a request came in, and what its Host header may be; the first is the usual one."""

    is_here: bool
    hosts: tuple[str, ...]

    @property
    def home(self) -> str:
        """The address of the app at this door."""
        return f"http://{self.hosts[0]}/"


def door_of(scope: Scope) -> Door:
    """Return the door of a request; one that is not known is never this machine's own."""
    address, port = scope.get("server") or ("", None)
    is_here = address in _OWN
    names = (LOOPBACK, "localhost", "[::1]") if is_here else (str(address),)
    number = port or _HTTP_PORT
    bare = names if number == _HTTP_PORT else ()
    return Door(is_here, tuple(f"{name}:{number}" for name in names) + bare)


def only_here(request: Request) -> None:
    """Let a request through that comes from this machine itself.

    Raises
    ------
    OnlyHereError
        When it comes over the network, from a paired phone or not.
    """
    if not door_of(request.scope).is_here:
        raise OnlyHereError
