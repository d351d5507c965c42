# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of phones: pair one, list them, take one off, and say what this way of serving lacks."""

from datetime import timedelta
from urllib.parse import parse_qs

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.phone import HERE, LEVELS, PLAIN
from firmlever.errors import FirmleverError, NoNetworkError, NotUnderstoodError, Problem
from firmlever.report.qr import qr_svg
from firmlever.services.pairing import Paired, PairingDesk
from firmlever.web.answers import (
    ClaimedAnswer,
    HeartbeatAnswer,
    OfferAnswer,
    PhonesAnswer,
    ServingAnswer,
)
from firmlever.web.doors import door_of, only_here
from firmlever.web.guard import COOKIE, PAIR_PAGE
from firmlever.web.pair_page import pair_page
from firmlever.web.refusals import answer_to, refusals
from firmlever.web.requests import LONGEST_CODE, LONGEST_NAME, Claim
from firmlever.web.wire import time_text, wire

_PAIRED_FOR = timedelta(days=365)
_MOST_FIELDS = 4


def pairing_routes(workshop: KeptWorkshop, desk: PairingDesk, lan_home: str | None) -> APIRouter:
    """Return the routes under /api; ``lan_home`` is the address phones reach, if any."""
    router = APIRouter(tags=["phones"])
    at_computer = [Depends(only_here)]

    @router.get("/heartbeat", response_model=HeartbeatAnswer, responses=refusals())
    def beat() -> Response:
        """Say that the computer is there."""
        return JSONResponse({"ok": True})

    @router.get("/serving", response_model=ServingAnswer, responses=refusals())
    def show_serving(request: Request) -> Response:
        """Say how this page is served, and what each way lacks."""
        level = HERE if door_of(request.scope).is_here else PLAIN
        return JSONResponse({"level": level.name, "levels": wire(LEVELS), "lan_address": lan_home})

    @router.post(
        "/pairing",
        status_code=201,
        response_model=OfferAnswer,
        responses=refusals(),
        dependencies=at_computer,
    )
    def offer_pairing() -> Response:
        """Show a code that pairs one phone; the code before is good no longer."""
        if lan_home is None:
            raise NoNetworkError
        offer = desk.offer()
        return JSONResponse(
            {
                "code": offer.code,
                "expires_at": time_text(offer.expires_at),
                "address": f"{lan_home}pair",
                "qr_svg": qr_svg(f"{lan_home}pair?code={offer.code}"),
            },
            201,
        )

    @router.post("/pairing/claim", response_model=ClaimedAnswer, responses=refusals(429, 507))
    def claim_pairing(sent: Claim) -> Response:
        """Change a code for the cookie that a paired phone sends from now on."""
        paired = desk.claim(sent.code, sent.name)
        answer = JSONResponse({"id": paired.phone.id, "name": paired.phone.name})
        return _with_cookie(answer, paired)

    @router.get(
        "/phones", response_model=PhonesAnswer, responses=refusals(), dependencies=at_computer
    )
    def list_phones() -> Response:
        """List the paired phones, the newest first."""
        keys = ("id", "name", "made_at", "seen_at")
        phones = workshop.phones.all()
        return JSONResponse(
            {"phones": [{key: wire(getattr(one, key)) for key in keys} for one in phones]}
        )

    @router.delete(
        "/phones/{phone_id}",
        status_code=204,
        responses=refusals(404, 507),
        dependencies=at_computer,
    )
    def take_phone_off(phone_id: str) -> Response:
        """Take a phone off; its cookie opens nothing from now on."""
        workshop.phones.revoke(phone_id, workshop.clock.now())
        return Response(status_code=204)

    return router


def pair_page_routes(desk: PairingDesk) -> APIRouter:
    """Return the page that pairs a phone."""
    router = APIRouter(include_in_schema=False)

    @router.get(PAIR_PAGE)
    def show_page(code: str = Query("", max_length=LONGEST_CODE)) -> Response:
        """Ask for the code."""
        return HTMLResponse(pair_page(code))

    @router.post(PAIR_PAGE)
    async def send_page(request: Request) -> Response:
        """Pair the phone and open the app on it, or say why not."""
        return _claimed(desk, await request.body())

    return router


def _claimed(desk: PairingDesk, body: bytes) -> Response:
    typed = {"code": "", "name": ""}
    try:
        typed |= _fields(body)
        paired = desk.claim(typed["code"], typed["name"])
    except FirmleverError as error:
        return HTMLResponse(pair_page(**typed, refusal=str(error)), answer_to(error).status_code)
    return _with_cookie(RedirectResponse("/", 303), paired)


def _fields(body: bytes) -> dict[str, str]:
    try:
        sent = parse_qs(body.decode("ascii"), errors="strict", max_num_fields=_MOST_FIELDS)
    except ValueError:
        raise NotUnderstoodError(
            [Problem(0, "the form", "it is broken", "the page's own")]
        ) from None
    code, name = (sent.get(key, [""])[0].strip() for key in ("code", "name"))
    if not 1 <= len(name) <= LONGEST_NAME:
        allowed = f"1 to {LONGEST_NAME} characters"
        raise NotUnderstoodError([Problem(0, "the name", f"{len(name)} characters", allowed)])
    return {"code": code, "name": name}


def _with_cookie(answer: Response, paired: Paired) -> Response:
    # no Secure: over plain HTTP a browser would drop it
    answer.set_cookie(
        COOKIE,
        paired.token,
        max_age=int(_PAIRED_FOR.total_seconds()),
        httponly=True,
        samesite="strict",
    )
    return answer
