# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of what is known apart from any machine."""

from fastapi import APIRouter
from starlette.responses import JSONResponse, Response

from firmlever import __version__
from firmlever.bootstrap import KeptWorkshop
from firmlever.report.words import WordSet
from firmlever.web.answers import FluidsAnswer, StatusAnswer, TechniquesAnswer
from firmlever.web.refusals import refusals
from firmlever.web.wire import wire


def table_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
    router = APIRouter(tags=["tables"])

    @router.get("/status", response_model=StatusAnswer, responses=refusals())
    def show_status() -> Response:
        """Say what runs here."""
        today = workshop.clock.today()
        return JSONResponse(wire({"version": __version__, "words": list(WordSet), "today": today}))

    @router.get("/techniques", response_model=TechniquesAnswer, responses=refusals())
    def list_techniques() -> Response:
        """List the ways of working."""
        keys = ("method", "name", "works", "steps", "back_suction")
        rows = workshop.tables.techniques()
        return JSONResponse(
            {"techniques": [{key: wire(getattr(row, key)) for key in keys} for row in rows]}
        )

    @router.get("/fluids", response_model=FluidsAnswer, responses=refusals())
    def list_fluids() -> Response:
        """List the grades of fluid."""
        rows = workshop.tables.grades()
        return JSONResponse({"fluids": [{"name": row.name, "base": row.base} for row in rows]})

    return router
