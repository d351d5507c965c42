# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of lever tests: judge, keep, list, and mark this machine's good state."""

import json

from fastapi import APIRouter
from starlette.responses import JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.lever_log import KeptLeverTest
from firmlever.report.json import lever_json
from firmlever.services import lever_tests as service
from firmlever.services.machines import circuit_of
from firmlever.web.answers import (
    KeptAnswer,
    KeptLeverAnswer,
    KeptLeversAnswer,
    LeverDocument,
)
from firmlever.web.refusals import refusals
from firmlever.web.requests import LeverKeep, LeverSent, MarkSent
from firmlever.web.wire import Json, time_text

_JSON = "application/json"
_LISTED = ("air_ml", "air_after_ml", "left_ml", "clearance_ml", "air_and_clearance_ml", "together")


def lever_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
    router = APIRouter(tags=["lever tests"])
    book = workshop.lever_book
    at = "/machines/{machine_id}/circuits/{circuit_name}"

    @router.post(f"{at}/lever-test", response_model=LeverDocument, responses=refusals(404))
    def judge_readings(machine_id: str, circuit_name: str, sent: LeverSent) -> Response:
        """Judge readings; nothing is kept."""
        _, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        test = service.judge(book, bike, circuit, sent.readings())
        return Response(lever_json(test), media_type=_JSON)

    @router.post(
        f"{at}/lever-tests",
        status_code=201,
        response_model=KeptAnswer,
        responses=refusals(404, 409, 507),
    )
    def keep_test(machine_id: str, circuit_name: str, sent: LeverKeep) -> Response:
        """Judge readings and keep them with what they say; once, however often they are sent."""
        machine, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        readings = sent.readings()
        document = lever_json(service.judge(book, bike, circuit, readings))
        kept = service.keep(book, machine, circuit, readings, document, sent.keeper())
        return JSONResponse({"id": kept.id}, 201)

    @router.get(f"{at}/lever-tests", response_model=KeptLeversAnswer, responses=refusals(404))
    def list_tests(machine_id: str, circuit_name: str) -> Response:
        """List the kept tests of a circuit, oldest first, and which one is its good state."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        kept = service.kept_of(book, machine, circuit)
        marks = [
            {"test": one.test_id, "marked_at": time_text(one.marked_at), "who": one.who}
            for one in kept.baselines
        ]
        return JSONResponse(
            {
                "tests": [_line(test) for test in kept.tests],
                "baseline": marks[-1]["test"] if marks else None,
                "baselines": marks,
            }
        )

    @router.get(
        f"{at}/lever-tests/{{test_id}}", response_model=KeptLeverAnswer, responses=refusals(404)
    )
    def show_test(machine_id: str, circuit_name: str, test_id: str) -> Response:
        """Hand out a kept test: its readings and what they said."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        test = service.one_of(book, machine, circuit, test_id)
        opened = bytes(JSONResponse(_head(test)).body).decode("utf-8").removesuffix("}")
        # both go out as they are kept, to the letter
        text = f'{opened},"readings":{test.readings},"document":{test.document}}}'
        return Response(text, media_type=_JSON)

    @router.put(
        f"{at}/lever-tests/{{test_id}}/baseline",
        response_model=KeptAnswer,
        responses=refusals(404, 507),
    )
    def mark_baseline(machine_id: str, circuit_name: str, test_id: str, sent: MarkSent) -> Response:
        """Mark a kept test as this machine's good state; earlier marks stay in the history."""
        machine, _, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        test = service.one_of(book, machine, circuit, test_id)
        service.mark_good(book, test, sent.who)
        return JSONResponse({"id": test.id})

    return router


def _head(test: KeptLeverTest) -> dict[str, Json]:
    return {
        "id": test.id,
        "made_at": time_text(test.made_at),
        "who": test.who,
        "job_id": test.job_id,
        "machine_revision": test.machine_revision,
    }


def _line(test: KeptLeverTest) -> dict[str, Json]:
    said = json.loads(test.document)
    return {**_head(test), **{key: said[key] for key in _LISTED}}
