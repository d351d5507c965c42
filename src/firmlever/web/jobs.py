# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of jobs at the bench: start, watch, send events, list."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.job import KeptEvent, KeptJob
from firmlever.report.record_json import record_json
from firmlever.services import jobs as service
from firmlever.services.describing import pick_circuit
from firmlever.services.machines import bike_of
from firmlever.services.planning import plan as plan_work
from firmlever.web.answers import EventsAnswer, JobAnswer, JobsAnswer, OutcomeAnswer, RecordDocument
from firmlever.web.refusals import refusals
from firmlever.web.requests import LARGEST_WHOLE, EventsSent, JobWish
from firmlever.web.wire import Json, time_text

_JSON = "application/json"


def job_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
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

    def whole(job: KeptJob, status: int = 200) -> Response:
        events = workshop.jobs.events(job.id)
        last = events[-1].arrival if events else 0
        head = JSONResponse(
            {
                "id": job.id,
                "machine_id": job.machine_id,
                "machine_revision": job.machine_revision,
                "made_at": time_text(job.made_at),
                "arrival": last,
            }
        )
        opened = bytes(head.body).decode("utf-8").removesuffix("}")
        # sheet and events go out as they are kept, to the letter
        text = f'{opened},"sheet":{job.sheet},"events":[{_bodies(events)}]}}'
        return Response(text, status, media_type=_JSON)

    def listed(jobs: Sequence[KeptJob]) -> Response:
        return JSONResponse({"jobs": [_line(service.standing(bench, job)) for job in jobs]})

    return router


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
