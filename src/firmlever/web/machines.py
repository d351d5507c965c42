# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of machines: list, start, bring in, change, take out."""

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Body, Query
from starlette.responses import JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.machine import Machine
from firmlever.errors import NotUnderstoodError, Problem
from firmlever.services import machines as service
from firmlever.web.answers import Detail, MachinesAnswer
from firmlever.web.refusals import refusals
from firmlever.web.requests import LARGEST_WHOLE, ChangesSent, LooksSent, TextSent
from firmlever.web.wire import Json, detail, summary

TEXT = "text/plain; charset=utf-8"


def machine_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
    router = APIRouter(tags=["machines"])
    shelf = workshop.shelf

    def seen(machine: Machine, status: int = 200) -> JSONResponse:
        return JSONResponse(detail(machine, service.bike_of(shelf, machine)), status)

    def listed() -> Json:
        return {"machines": [summary(one.machine, one.bike) for one in service.described(shelf)]}

    @router.get("/machines", response_model=MachinesAnswer, responses=refusals())
    def list_machines() -> Response:
        """List all machines, last changed first."""
        return JSONResponse(listed())

    @router.post("/machines", status_code=201, response_model=Detail, responses=refusals())
    def start_machine(sent: LooksSent) -> Response:
        """Start a machine from what a person sees of it."""
        return seen(service.start(shelf, sent.looks()), 201)

    @router.post("/machines/file", status_code=201, response_model=Detail, responses=refusals())
    def bring_in_machine(
        sent: Annotated[bytes, Body(media_type="text/plain", description="a circuit file")] = b"",
    ) -> Response:
        """Bring a machine in from a circuit file."""
        return seen(service.take_in(shelf, _text(sent)), 201)

    @router.get("/machines/{machine_id}", response_model=Detail, responses=refusals(404))
    def show_machine(machine_id: str) -> Response:
        """Show one machine."""
        return seen(workshop.machines.get(machine_id))

    @router.put("/machines/{machine_id}/file", response_model=Detail, responses=refusals(404, 409))
    def replace_text(machine_id: str, sent: TextSent) -> Response:
        """Put another circuit file in the place of a machine's."""
        return seen(service.replace_text(shelf, machine_id, sent.read_revision, sent.text))

    @router.patch("/machines/{machine_id}", response_model=Detail, responses=refusals(404, 409))
    def change_machine(machine_id: str, sent: ChangesSent) -> Response:
        """Set or forget values, all of them or none."""
        changes = [one.change() for one in sent.changes]
        return seen(service.change(shelf, machine_id, sent.read_revision, changes))

    @router.delete("/machines/{machine_id}", status_code=204, responses=refusals(404, 409))
    def remove_machine(
        machine_id: str, read_revision: Annotated[int, Query(ge=0, le=LARGEST_WHOLE)]
    ) -> Response:
        """Forget a machine and its plans."""
        service.remove(shelf, machine_id, read_revision)
        return Response(status_code=204)

    @router.get(
        "/machines/{machine_id}/file",
        responses=refusals(404) | {200: {"content": {TEXT: {"schema": {"type": "string"}}}}},
        response_class=Response,
    )
    def take_out_file(machine_id: str) -> Response:
        """Hand out a machine's circuit file, to the last byte."""
        machine = workshop.machines.get(machine_id)
        name = quote(service.file_name(machine))
        headers = {"content-disposition": f'attachment; filename="{name}"'}
        return Response(machine.text.encode("utf-8"), media_type=TEXT, headers=headers)

    @router.post("/demo", response_model=MachinesAnswer, responses=refusals())
    def put_demo_back() -> Response:
        """Have the demo workshop there as it was."""
        service.put_demo_back(shelf)
        return JSONResponse(listed())

    return router


def _text(sent: bytes) -> str:
    try:
        return sent.decode("utf-8")
    except UnicodeDecodeError as error:
        line = sent[: error.start].count(b"\n") + 1
        found, allowed = "it is not UTF-8 text", "save it as plain text in UTF-8"
        raise NotUnderstoodError([Problem(line, "the file", found, allowed)]) from None
