# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Stands before every request: who asks, how much is sent, and what no answer may lack."""

import logging
from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from firmlever.errors import FirmleverError, NotFromHereError, TooLargeError
from firmlever.web.refusals import answer_to, answer_to_own_fault

MOST_FILE_BYTES = 1_000_000
MOST_JSON_BYTES = 64_000
_HTTP_PORT = 80

_POLICY = (
    "default-src 'self'; style-src 'self'; script-src 'self'; img-src 'self' data:; "
    "object-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'"
)
_ALWAYS = {
    "content-security-policy": _POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
_KEPT_FOR_EVER = "public, max-age=31536000, immutable"

_log = logging.getLogger("firmlever.web")


class Guard:
    """Answers only this machine, refuses what is too large, and sets the headers.

    The whole body is read before it is handed on: it is small, and nothing is parsed that
    was not weighed.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        begun = False

        async def send_on(message: Message) -> None:
            nonlocal begun
            begun = True
            if message["type"] == "http.response.start":
                _dress(message, scope["path"])
            await send(message)

        try:
            _check_sender(scope)
            body = await _weighed_body(scope, receive)
            await self._app(scope, _replayed(body, receive), send_on)
        except FirmleverError as error:
            await answer_to(error)(scope, receive, send_on)
        except Exception as fault:  # the last line of defence: nobody reads a traceback
            _log.exception("a fault of our own at %s %s", scope["method"], scope["path"])
            if begun:
                raise
            await answer_to_own_fault(fault)(scope, receive, send_on)


def hosts_of(port: int) -> tuple[str, ...]:
    """Return what the Host header may be."""
    names = ("127.0.0.1", "localhost", "[::1]")
    return tuple(f"{name}:{port}" for name in names) + (names if port == _HTTP_PORT else ())


def _check_sender(scope: Scope) -> None:
    headers = Headers(scope=scope)
    port = scope["server"][1] if scope.get("server") else _HTTP_PORT
    hosts = hosts_of(port or _HTTP_PORT)
    home = f"http://{hosts[0]}/"
    host = headers.get("host", "")
    if host not in hosts or len(headers.getlist("host")) != 1:
        raise NotFromHereError("host", host, home)
    for origin in headers.getlist("origin"):
        if origin != f"http://{host}":
            raise NotFromHereError("origin", origin, home)


async def _weighed_body(scope: Scope, receive: Receive) -> bytes:
    most = MOST_FILE_BYTES if scope["path"].endswith("/file") else MOST_JSON_BYTES
    said = Headers(scope=scope).get("content-length", "")
    if said.isdecimal() and int(said[:20]) > most:
        raise TooLargeError(most)
    body, more = b"", True
    while more:
        message = await receive()
        if message["type"] != "http.request":
            break
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > most:
            raise TooLargeError(most)
    return body


def _replayed(body: bytes, receive: Receive) -> Receive:
    messages: Iterable[Message] = iter([{"type": "http.request", "body": body}])

    async def again() -> Message:
        return next(iter(messages), None) or await receive()

    return again


def _dress(message: Message, path: str) -> None:
    headers = MutableHeaders(scope=message)
    for name, value in _ALWAYS.items():
        headers[name] = value
    if path.startswith("/api") or message["status"] >= 400:
        headers["cache-control"] = "no-store"
    elif path.startswith("/assets/"):
        headers["cache-control"] = _KEPT_FOR_EVER
    else:
        headers["cache-control"] = "no-cache"
