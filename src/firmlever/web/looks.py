# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of looks at a level: keep one, list them, take one back, and judge them."""

import json

from fastapi import APIRouter
from starlette.responses import JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.report.level_json import level_json
from firmlever.services import level_looks as service
from firmlever.services.machines import circuit_of
from firmlever.web.answers import KeptAnswer, LevelAnswer, LooksAnswer
from firmlever.web.refusals import refusals
from firmlever.web.requests import LookSent, Number, TakeBack
from firmlever.web.wire import Json, time_text


def look_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
    router = APIRouter(tags=["looks"])
    book = workshop.look_book
    at = "/machines/{machine_id}/circuits/{circuit_name}"

    @router.get(f"{at}/looks", response_model=LooksAnswer, responses=refusals(404))
    def list_looks(machine_id: str, circuit_name: str) -> Response:
        """List the looks at a level, earliest day first, and which were taken back."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        kept = service.kept_of(book, machine, circuit)
        notes = {note.look_id: note for note in reversed(kept.taken_back)}
        return JSONResponse({"looks": [_line(one, notes.get(one.id)) for one in kept.looks]})

    @router.post(
        f"{at}/looks",
        status_code=201,
        response_model=KeptAnswer,
        responses=refusals(404, 409, 507),
    )
    def keep_look(machine_id: str, circuit_name: str, sent: LookSent) -> Response:
        """Keep a look; once, however often it is sent."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        kept = service.keep(book, machine, circuit, sent.look(), (sent.id, sent.who))
        return JSONResponse({"id": kept.id}, 201)

    @router.post(
        f"{at}/looks/{{look_id}}/taken-back",
        response_model=KeptAnswer,
        responses=refusals(404, 507),
    )
    def take_look_back(
        machine_id: str, circuit_name: str, look_id: str, sent: TakeBack
    ) -> Response:
        """Take a look back; it stays in the history and does not count."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        service.take_back(book, machine, circuit, look_id, sent.who)
        return JSONResponse({"id": look_id})

    @router.get(f"{at}/level", response_model=LevelAnswer, responses=refusals(404))
    def judge_level(
        machine_id: str,
        circuit_name: str,
        ruler_mm: Number = 0.5,
        gauge_mm: Number = 0.5,
        marks_mm: Number | None = None,
    ) -> Response:
        """Judge all looks that count."""
        machine, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        fineness = service.Fineness(ruler_mm, gauge_mm, marks_mm)
        report = service.judge(book, machine, bike, circuit, fineness)
        text = "null" if report is None else level_json(report)
        return Response(f'{{"document":{text}}}', media_type="application/json")

    return router


def _line(kept: KeptLook, note: TakenBack | None) -> dict[str, Json]:
    return {
        "id": kept.id,
        "made_at": time_text(kept.made_at),
        "who": kept.who,
        "machine_revision": kept.machine_revision,
        "look": json.loads(kept.look),
        "taken_back": None if note is None else {"at": time_text(note.at), "who": note.who},
    }
