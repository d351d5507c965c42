# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Stands before every request: who asks, how much is sent, and what no answer may lack."""

import logging
from collections.abc import Iterable
from time import monotonic

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.responses import RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from firmlever.errors import FirmleverError, NotFromHereError, NotPairedError, TooLargeError
from firmlever.services.pairing import PairingDesk
from firmlever.web.doors import Door, door_of
from firmlever.web.pace import Pace
from firmlever.web.pair_page import STYLE_HASH
from firmlever.web.refusals import answer_to, answer_to_own_fault

MOST_FILE_BYTES = 1_000_000
MOST_JSON_BYTES = 64_000
COOKIE = "firmlever_phone"
PAIR_PAGE = "/pair"
CLAIM = "/api/pairing/claim"

_POLICY = (
    "default-src 'self'; style-src 'self'; script-src 'self'; worker-src 'self'; "
    "img-src 'self' data:; object-src 'none'; frame-ancestors 'none'; base-uri 'none'; "
    "form-action 'self'"
)
_PAIR_POLICY = _POLICY.replace("style-src 'self'", f"style-src {STYLE_HASH}")
_ALWAYS = {
    "content-security-policy": _POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
# With no-referrer a browser hides where a form comes from; the pairing page must show it.
_REFERRER_FOR_FORMS = "same-origin"
_READS = ("GET", "HEAD")
# over the network: a page with all its files at once, then a few requests a second; a code
# is typed by a hand
_REQUESTS_AT_ONCE, _REQUESTS_EACH_S = 200, 20
_CLAIMS_AT_ONCE, _CLAIMS_EACH_S = 10, 0.1
_KEPT_FOR_EVER = "public, max-age=31536000, immutable"

_log = logging.getLogger("firmlever.web")


class Guard:
    """Answers this machine and its paired phones, refuses what is too large, sets the headers.

    The whole body is read before it is handed on: it is small, and nothing is parsed that
    was not weighed. Over the network nothing is read of a phone that is not paired, but for
    the page that pairs it.

    Parameters
    ----------
    app
        What stands behind.
    desk
        Knows the paired phones.
    """

    def __init__(self, app: ASGIApp, desk: PairingDesk) -> None:
        self._app = app
        self._desk = desk
        self._requests = Pace(_REQUESTS_AT_ONCE, _REQUESTS_EACH_S, monotonic)
        self._claims = Pace(_CLAIMS_AT_ONCE, _CLAIMS_EACH_S, monotonic)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        begun, door = False, door_of(scope)

        async def send_on(message: Message) -> None:
            nonlocal begun
            begun = True
            if message["type"] == "http.response.start":
                _dress(message, scope["path"], door)
            await send(message)

        try:
            self._check_pace(scope, door)
            _check_sender(scope, door)
            if not await self._may_enter(scope, door):
                await _turned_away(scope, door)(scope, receive, send_on)
                return
            body = await _weighed_body(scope, receive)
            await self._app(scope, _replayed(body, receive), send_on)
        except FirmleverError as error:
            await answer_to(error)(scope, receive, send_on)
        except Exception as fault:  # the last line of defence: nobody reads a traceback
            _log.exception("a fault of our own at %s %s", scope["method"], scope["path"])
            if begun:
                raise
            await answer_to_own_fault(fault)(scope, receive, send_on)

    def _check_pace(self, scope: Scope, door: Door) -> None:
        if door.is_here:
            return
        address = scope["client"][0] if scope.get("client") else ""
        self._requests.count(address)
        if scope["method"] not in _READS and scope["path"] in (PAIR_PAGE, CLAIM):
            self._claims.count(address)

    async def _may_enter(self, scope: Scope, door: Door) -> bool:
        if door.is_here or scope["path"] in (PAIR_PAGE, CLAIM):
            return True
        token = cookie_parser(Headers(scope=scope).get("cookie", "")).get(COOKIE)
        return bool(token) and await run_in_threadpool(self._desk.who, str(token)) is not None


def _turned_away(scope: Scope, door: Door) -> ASGIApp:
    """Return the answer to who is not paired; somebody who opens the app sees where to go."""
    if scope["method"] == "GET" and scope["path"] == "/":
        return RedirectResponse(PAIR_PAGE, 303)
    return answer_to(NotPairedError(door.home.rstrip("/") + PAIR_PAGE))


def _check_sender(scope: Scope, door: Door) -> None:
    headers = Headers(scope=scope)
    host = headers.get("host", "")
    if host not in door.hosts or len(headers.getlist("host")) != 1:
        raise NotFromHereError("host", host, door.home)
    origins = headers.getlist("origin")
    for origin in origins:
        if origin != f"http://{host}":
            raise NotFromHereError("origin", origin, door.home)
    if not (door.is_here or origins or scope["method"] in _READS):
        # every browser says where a change comes from
        raise NotFromHereError("origin", "", door.home)


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


def _dress(message: Message, path: str, door: Door) -> None:
    headers = MutableHeaders(scope=message)
    for name, value in _ALWAYS.items():
        headers[name] = value
    if not door.is_here:
        # without encryption browsers heed it not, and complain of it
        del headers["cross-origin-opener-policy"]
    if path == PAIR_PAGE:
        headers["referrer-policy"] = _REFERRER_FOR_FORMS
        headers["content-security-policy"] = _PAIR_POLICY
    if path.startswith(("/api", PAIR_PAGE)) or message["status"] >= 400:
        headers["cache-control"] = "no-store"
    elif path.startswith("/assets/"):
        headers["cache-control"] = _KEPT_FOR_EVER
    else:
        headers["cache-control"] = "no-cache"
