# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Random machines: what stands in the shed, and what its owner knows of it."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date

import numpy as np

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import (
    Bike,
    BikeClass,
    Circuit,
    Control,
    FluidFill,
    Layout,
    Line,
    Part,
    PartKind,
    Screw,
)
from firmlever.domain.plan import PlanRequest
from firmlever.domain.quantities import spec_of
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.tables import Method
from firmlever.services.planning import job_for
from firmlever.solve.inputs import Inputs
from firmlever.solve.job import Job, twins
from firmlever.units import from_si

WORKSHOP = open_workshop()
ON = date(2026, 5, 1)
# shapes of a brake, and how often each is drawn
_SHAPES = {
    "one caliper": 5,
    "two hoses": 3,
    "splitter": 3,
    "abs unit": 6,
    "over the wheel": 1,
    "screw at the master": 2,
    "clutch": 3,
}
_METHODS: dict[str, int] = {Method.LEVER: 6, Method.VACUUM: 2, Method.GRAVITY: 2}
# how much the owner has measured, and how well
_KNOWN_SHARES = (0.0, 0.0, 0.5, 0.9)
_STATED_WITHIN = (0.0, 0.05, 0.15)
# keys a person can measure on the bench, by kind of part; lines have their own
_MEASURED = {
    PartKind.RESERVOIR: ("max_ml", "left_after_draw_ml"),
    PartKind.MASTER: ("bore_mm", "stroke_mm", "stroke_used", "port_travel_mm"),
    PartKind.MODULATOR: ("volume_ml", "unswept_ml"),
    PartKind.CALIPER: ("pad_mm", "pad_new_mm"),
    PartKind.SPLITTER: ("volume_ml",),
}
_LINE_MEASURED = ("bore_mm", "length_mm")


@dataclass
class _Shape:
    parts: list[Part] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)

    def add(self, part_id: str, kind: PartKind, after: str | None, **more: object) -> str:
        screws = (Screw(f"{part_id} screw"),) if more.pop("screw", False) else ()
        self.parts.append(Part(part_id, kind, screws=screws, **more))  # type: ignore[arg-type]
        if after:
            self.lines.append(Line(after, part_id))
        return part_id


def random_job(rng: np.random.Generator) -> Job:
    """A job on a machine nobody has seen before; what is stated of it may be all or nothing."""
    bike_class = BikeClass(rng.choice([str(one) for one in BikeClass]))
    shape = _pick(rng, _SHAPES)
    control, parts, lines = _draw_shape(rng, shape)
    bare = Circuit("work", control, tuple(parts), tuple(lines), FluidFill(("DOT 4",), "DOT 4"))
    bike = Bike("Whimbrel", bike_class, (bare,))
    request = PlanRequest(circuit="work", on=ON, method=Method(_pick(rng, _METHODS)), seed=1)
    circuit = _measured(rng, job_for(bike, request, WORKSHOP.tables))
    return job_for(replace(bike, circuits=(circuit,)), request, WORKSHOP.tables)


def _pick(rng: np.random.Generator, weights: dict[str, int]) -> str:
    odds = np.array(list(weights.values()), dtype=float)
    return list(weights)[int(rng.choice(len(weights), p=odds / odds.sum()))]


def _draw_shape(rng: np.random.Generator, shape: str) -> tuple[Control, list[Part], list[Line]]:
    made = _Shape()
    made.add("pot", PartKind.RESERVOIR, None)
    top = made.add("master", PartKind.MASTER, "pot", screw=shape == "screw at the master")
    if shape == "clutch":
        made.add("slave", PartKind.SLAVE, top, screw=True)
        return Control.CLUTCH_LEVER, made.parts, made.lines
    rear = bool(rng.random() < 0.35)
    looks = {
        "screw": True,
        "wheel": "rear" if rear else "front",
        "layout": Layout(rng.choice([str(one) for one in Layout])),
    }
    ends = 1
    if shape == "abs unit":
        top = made.add("abs unit", PartKind.MODULATOR, top)
        ends = int(rng.integers(1, 3))
    elif shape == "splitter":
        top, ends = made.add("splitter", PartKind.SPLITTER, top), 2
    elif shape in ("two hoses", "over the wheel"):
        ends = 2
    for index in range(ends):
        part = made.add(f"caliper {index + 1}", PartKind.CALIPER, top, **looks)
        top = part if shape == "over the wheel" else top
    return (Control.PEDAL if rear else Control.LEVER), made.parts, made.lines


def _measured(rng: np.random.Generator, job: Job) -> Circuit:
    """Let the owner state some of what a first draw of the machine holds."""
    circuit, share = job.circuit, float(rng.choice(_KNOWN_SHARES))
    inputs = Inputs(
        rng.random((1, 160)), job.priors, circuit.family, job.bike.bike_class, twins(circuit)
    )
    alike: dict[tuple[str, str], Quantity] = {}
    parts = []
    for part in circuit.parts:
        given = dict(part.given)
        for key in _MEASURED.get(part.kind, ()):
            if rng.random() < share and (part.kind, key) not in alike:
                spec = spec_of(part.kind, key)
                value = float(from_si(inputs.prior(part.id, part.kind, key), spec.unit)[0])
                alike[part.kind, key] = _stated(rng, value)
            if (part.kind, key) in alike:
                given[key] = alike[part.kind, key]
        parts.append(replace(part, given=given))
    return replace(circuit, parts=tuple(parts), lines=tuple(_lines(rng, circuit, inputs, share)))


def _lines(
    rng: np.random.Generator, circuit: Circuit, inputs: Inputs, share: float
) -> Iterator[Line]:
    for line in circuit.lines:
        given = dict(line.given)
        for key in _LINE_MEASURED:
            if line.start != "pot" and rng.random() < share:
                value = float(
                    from_si(inputs.prior(f"{line.start}{line.end}", "line", key), "mm")[0]
                )
                given[key] = _stated(rng, value)
        yield replace(line, given=given)


def _stated(rng: np.random.Generator, value: float) -> Quantity:
    within = float(rng.choice(_STATED_WITHIN))
    return Between(value * (1.0 - within), value * (1.0 + within)) if within else Exact(value)
