# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Puts the app together: the guard, the interface under /api, the built pages."""

from pathlib import Path

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.staticfiles import StaticFiles

from firmlever import __version__
from firmlever.bootstrap import KeptWorkshop
from firmlever.errors import FirmleverError
from firmlever.services.pairing import PairingDesk
from firmlever.web.circuits import circuit_routes
from firmlever.web.guard import Guard
from firmlever.web.jobs import job_routes
from firmlever.web.levers import lever_routes
from firmlever.web.looks import look_routes
from firmlever.web.machines import machine_routes
from firmlever.web.pairing import pair_page_routes, pairing_routes
from firmlever.web.refusals import on_misfit, on_no_page, on_refusal
from firmlever.web.tables import table_routes

DIST = Path(__file__).parent / "dist"


def create_app(
    workshop: KeptWorkshop, dist_folder: Path = DIST, lan_home: str | None = None
) -> FastAPI:
    """Return the app; it opens nothing by itself.

    Parameters
    ----------
    workshop
        Files, tables, clock, and all that is kept.
    dist_folder
        The built pages; where they are absent only the interface answers.
    lan_home
        The address by which phones reach the app, where they do.
    """
    desk = PairingDesk(workshop.phones, workshop.clock, workshop.new_id, workshop.chance)
    app = FastAPI(
        title="firmlever",
        version=__version__,
        summary="The interface of the app on this machine; nothing else is answered.",
        docs_url=None,
        redoc_url=None,
        exception_handlers={
            FirmleverError: on_refusal,
            RequestValidationError: on_misfit,
            HTTPException: on_no_page,
        },
    )
    for routes in (table_routes, machine_routes, circuit_routes, lever_routes, look_routes):
        app.include_router(routes(workshop), prefix="/api")
    app.include_router(job_routes(workshop, dist_folder / "carried"), prefix="/api")
    app.include_router(pairing_routes(workshop, desk, lan_home), prefix="/api")
    app.include_router(pair_page_routes(desk))
    if (dist_folder / "index.html").is_file():
        app.mount("/", StaticFiles(directory=dist_folder, html=True), name="pages")
    app.add_middleware(Guard, desk=desk)
    return app
