# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The machines that plans are tried on, and how to ask for one."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.quantity import Exact
from firmlever.services.planning import job_for, plan
from firmlever.solve.job import Job

ON = date(2026, 5, 1)
DATA = Path(__file__).parents[1] / "data"
WORKSHOP = open_workshop()


@cache
def outline(name: str) -> Bike:
    """A machine known by its class alone."""
    with as_file(files("firmlever") / "data" / "examples" / f"{name}.toml") as path:
        return WORKSHOP.files.read(str(path))


@cache
def demo(name: str) -> Bike:
    """A machine of the demo workshop."""
    return next(bike for bike in WORKSHOP.files.demo() if bike.name == name)


def tourer() -> Bike:
    """The demo's tourer: an ABS unit, twin discs, a hydraulic clutch."""
    return demo("Skerry 1100")


@cache
def kept(name: str) -> Bike:
    """A machine of the test data."""
    return WORKSHOP.files.read(str(DATA / f"{name}.toml"))


def wish(circuit: str, **wishes: object) -> PlanRequest:
    return replace(PlanRequest(circuit=circuit, on=ON), **wishes)  # type: ignore[arg-type]


def asked(bike: Bike, circuit: str, **wishes: object) -> FlushPlan:
    return plan(bike, wish(circuit, **wishes), WORKSHOP.tables)


@cache
def tourer_front() -> FlushPlan:
    """The usual plan of the tourer's front brake."""
    return asked(tourer(), "front")


def job(bike: Bike, circuit: str, **wishes: object) -> Job:
    return job_for(bike, wish(circuit, **wishes), WORKSHOP.tables)


def everything() -> Iterator[tuple[str, Bike, str]]:
    """Every circuit of the demo workshop and of the odd shapes."""
    machines = [(bike.name, bike) for bike in WORKSHOP.files.demo()]
    machines += [
        (path.stem, WORKSHOP.files.read(str(path))) for path in sorted(DATA.glob("odd/*.toml"))
    ]
    for name, bike in machines:
        for circuit in bike.circuits:
            yield name, bike, circuit.name


def with_fluid(bike: Bike, name: str, **known: object) -> Bike:
    """The machine with one circuit alone, and with other fluid in it."""
    circuit = bike.circuit(name)
    fluid = replace(circuit.fluid, **known)  # type: ignore[arg-type]
    return replace(bike, circuits=(replace(circuit, fluid=fluid),), sequence=())


def with_part(circuit: Circuit, part_id: str, **values: float) -> Circuit:
    """The circuit with more known of one part."""
    known = {key: Exact(value) for key, value in values.items()}
    parts = tuple(
        replace(part, given={**part.given, **known}) if part.id == part_id else part
        for part in circuit.parts
    )
    return replace(circuit, parts=parts)
