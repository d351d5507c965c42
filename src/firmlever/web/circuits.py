# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Routes of circuits: the drawing, the plan, the questions, the plans that were kept."""

import json

from fastapi import APIRouter
from starlette.responses import JSONResponse, Response

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.scene import Scene
from firmlever.report.json import plan_json
from firmlever.report.scene import scene_of
from firmlever.services.describing import usual_heights
from firmlever.services.machines import circuit_of, keep_plan, looks_of
from firmlever.services.planning import plan as plan_work
from firmlever.services.talk import questions
from firmlever.web.answers import (
    KeptAnswer,
    PlanAnswer,
    PlanDocument,
    PlansAnswer,
    PreviewAnswer,
    QuestionsAnswer,
)
from firmlever.web.refusals import refusals
from firmlever.web.requests import LooksSent, Wish
from firmlever.web.wire import kept, question, wire

_JSON = "application/json"


def circuit_routes(workshop: KeptWorkshop) -> APIRouter:
    """Return the routes."""
    router = APIRouter(tags=["circuits"])
    at = "/machines/{machine_id}/circuits/{circuit_name}"

    def scene_for(bike: Bike, circuit: Circuit) -> Scene:
        return scene_of(circuit, usual_heights(bike, circuit, workshop.tables))

    def planned(bike: Bike, circuit: Circuit, wish: Wish) -> str:
        request = wish.request(circuit.name, workshop.clock.today())
        return plan_json(plan_work(bike, request, workshop.tables))

    @router.post("/preview", response_model=PreviewAnswer, responses=refusals())
    def preview(sent: LooksSent) -> Response:
        """Draw the circuits that looks would give; nothing is kept."""
        bike = looks_of(workshop.shelf, sent.looks())
        scenes = [
            {"circuit": circuit.name, "scene": wire(scene_for(bike, circuit))}
            for circuit in bike.circuits
        ]
        return JSONResponse({"scenes": scenes})

    @router.get(f"{at}/scene", response_model=Scene, responses=refusals(404))
    def draw_circuit(machine_id: str, circuit_name: str) -> Response:
        """Lay a circuit out by height."""
        _, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        return JSONResponse(wire(scene_for(bike, circuit)))

    @router.post(f"{at}/plan", response_model=PlanAnswer, responses=refusals(404))
    def plan_circuit(machine_id: str, circuit_name: str, wish: Wish) -> Response:
        """Plan the flush of a circuit."""
        _, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        document = planned(bike, circuit, wish)
        scene = json.dumps(wire(scene_for(bike, circuit)), ensure_ascii=False)
        return Response(f'{{"plan": {document}, "scene": {scene}}}', media_type=_JSON)

    @router.get(f"{at}/questions", response_model=QuestionsAnswer, responses=refusals(404))
    def ask_about_circuit(machine_id: str, circuit_name: str) -> Response:
        """Ask what is worth knowing, best first."""
        _, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        asked = questions(bike, circuit, workshop.clock.today(), workshop.tables)
        return JSONResponse({"questions": [question(one) for one in asked]})

    @router.post(f"{at}/plans", status_code=201, response_model=KeptAnswer, responses=refusals(404))
    def keep_plan_of_circuit(machine_id: str, circuit_name: str, wish: Wish) -> Response:
        """Plan once more and keep the document."""
        machine, bike, circuit = circuit_of(workshop.shelf, machine_id, circuit_name)
        plan = keep_plan(workshop.shelf, machine, circuit, planned(bike, circuit, wish))
        return JSONResponse({"id": plan.id}, 201)

    @router.get("/machines/{machine_id}/plans", response_model=PlansAnswer, responses=refusals(404))
    def list_plans(machine_id: str) -> Response:
        """List the kept plans of a machine, newest first."""
        return JSONResponse({"plans": [kept(one) for one in workshop.machines.plans(machine_id)]})

    @router.get("/plans/{plan_id}", response_model=PlanDocument, responses=refusals(404))
    def show_plan(plan_id: str) -> Response:
        """Hand out the document of a kept plan."""
        return Response(workshop.machines.plan(plan_id).document, media_type=_JSON)

    return router
