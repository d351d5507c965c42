# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of jobs at the bench: start, watch, send events, list, carry one out."""

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.responses import HTMLResponse, JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.job import KeptEvent, KeptJob
from firmlever.domain.phone import CARRIED
from firmlever.errors import NoPagesError
from firmlever.report.carried_page import PageParts, carried_name, carried_page
from firmlever.report.record_json import record_json
from firmlever.services import jobs as service
from firmlever.services.describing import pick_circuit
from firmlever.services.machines import bike_of
from firmlever.services.planning import plan as plan_work
from firmlever.web.answers import EventsAnswer, JobAnswer, JobsAnswer, OutcomeAnswer, RecordDocument
from firmlever.web.refusals import refusals
from firmlever.web.requests import LARGEST_WHOLE, EventsSent, JobWish
from firmlever.web.wire import Json, time_text, wire

_JSON = "application/json"
_A_PAGE: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "A whole page to keep",
        "content": {"text/html": {"schema": {"type": "string"}}},
    }
}


def job_routes(workshop: KeptWorkshop, carried_folder: Path) -> APIRouter:
    """Return the routes; the folder has what a carried page is built of, once it is built."""
    router = APIRouter(tags=["jobs"])
    bench = workshop.bench

    @router.post(
        "/machines/{machine_id}/circuits/{circuit_name}/jobs",
        status_code=201,
        response_model=JobAnswer,
        responses=refusals(404, 507),
    )
    def start_job(machine_id: str, circuit_name: str, sent: JobWish) -> Response:
        """Plan the flush of a circuit and start the job that carries it out."""
        machine = workshop.machines.get(machine_id)
        bike = bike_of(workshop.shelf, machine)
        circuit = pick_circuit(bike, circuit_name)
        request = sent.wish().request(circuit.name, workshop.clock.today())
        plan = plan_work(bike, request, workshop.tables)
        techniques = workshop.tables.techniques()
        return whole(service.start(bench, machine, circuit, plan, techniques, sent.starter()), 201)

    @router.get("/jobs", response_model=JobsAnswer, responses=refusals())
    def list_jobs() -> Response:
        """List all jobs, newest first."""
        return listed(workshop.jobs.all())

    @router.get("/machines/{machine_id}/jobs", response_model=JobsAnswer, responses=refusals())
    def list_jobs_of_machine(machine_id: str) -> Response:
        """List the jobs of a machine, newest first; they stay when it is removed."""
        return listed(workshop.jobs.of_machine(machine_id))

    @router.get("/jobs/{job_id}", response_model=JobAnswer, responses=refusals(404))
    def show_job(job_id: str) -> Response:
        """Hand out a job: its sheet and all its events, in the order they arrived."""
        return whole(workshop.jobs.get(job_id))

    @router.get("/jobs/{job_id}/events", response_model=EventsAnswer, responses=refusals(404))
    def list_events(
        job_id: str, after: Annotated[int, Query(ge=0, le=LARGEST_WHOLE)] = 0
    ) -> Response:
        """Hand out the events that arrived after an arrival."""
        events = workshop.jobs.events(job_id, after)
        last = events[-1].arrival if events else after
        return Response(f'{{"events":[{_bodies(events)}],"arrival":{last}}}', media_type=_JSON)

    @router.post(
        "/jobs/{job_id}/events", response_model=OutcomeAnswer, responses=refusals(404, 507)
    )
    def take_events(job_id: str, sent: EventsSent) -> Response:
        """Keep events, each once; answered when they are on the disk."""
        outcome = service.take(bench, job_id, [one.model_dump() for one in sent.events])
        return JSONResponse(asdict(outcome))

    @router.get("/jobs/{job_id}/record", response_model=RecordDocument, responses=refusals(404))
    def show_record(job_id: str) -> Response:
        """Tell what was done, on what evidence, and what is open, as the log has it now."""
        return Response(record_json(service.record(bench, job_id)), media_type=_JSON)

    @router.get(
        "/jobs/{job_id}/page",
        response_class=Response,
        responses={**_A_PAGE, **refusals(404)},
    )
    def show_page(job_id: str) -> Response:
        """Hand out a job as one page that opens from a file and asks no network for anything."""
        job = workshop.jobs.get(job_id)
        parts = _page_parts(carried_folder)
        bike = service.sheet_of(job).bike
        level = json.dumps(wire(CARRIED), ensure_ascii=False)
        document = (
            f'{{"kind":"carried job","format":1,"level":{level},'
            f'"job":{_document(job, workshop.jobs.events(job.id))}}}'
        )
        page = carried_page(parts, f"{bike} · {job.circuit}", document)
        name = carried_name(bike, job.circuit, workshop.clock.today())
        return HTMLResponse(page, headers={"content-disposition": f'attachment; filename="{name}"'})

    def whole(job: KeptJob, status: int = 200) -> Response:
        text = _document(job, workshop.jobs.events(job.id))
        return Response(text, status, media_type=_JSON)

    def listed(jobs: Sequence[KeptJob]) -> Response:
        return JSONResponse({"jobs": [_line(service.standing(bench, job)) for job in jobs]})

    return router


def _document(job: KeptJob, events: Sequence[KeptEvent]) -> str:
    head = json.dumps(
        {
            "id": job.id,
            "machine_id": job.machine_id,
            "machine_revision": job.machine_revision,
            "made_at": time_text(job.made_at),
            "arrival": events[-1].arrival if events else 0,
        },
        ensure_ascii=False,
    )
    # sheet and events go out as they are kept, to the letter
    return f'{head.removesuffix("}")},"sheet":{job.sheet},"events":[{_bodies(events)}]}}'


def _page_parts(folder: Path) -> PageParts:
    try:
        script, style = ((folder / name).read_bytes() for name in ("page.js", "page.css"))
    except FileNotFoundError:
        raise NoPagesError from None
    return PageParts(script.decode("utf-8"), style.decode("utf-8"))


def _bodies(events: Sequence[KeptEvent]) -> str:
    return ",".join(event.body for event in events)


def _line(standing: service.Standing) -> Json:
    return {
        "id": standing.job.id,
        "machine_id": standing.job.machine_id,
        "bike": standing.bike,
        "circuit": standing.job.circuit,
        "made_at": time_text(standing.job.made_at),
        "phase": standing.phase,
        "open": list(standing.still_open),
    }
