# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Random circuits with exact numbers, as the package sees them and as the oracle does."""

from dataclasses import dataclass, replace
from datetime import date

from hypothesis import strategies as st

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import (
    Bike,
    BikeClass,
    Circuit,
    Control,
    FluidFill,
    Line,
    Part,
    PartKind,
    Screw,
)
from firmlever.domain.plan import PlanRequest
from firmlever.domain.quantity import Exact, Quantity
from firmlever.domain.tables import Prior
from firmlever.services.planning import job_for
from firmlever.solve.job import Job
from oracle.stream_tubes import Element, Reservoir

ON = date(2026, 5, 1)


@dataclass(frozen=True)
class Case:
    """One circuit, and the same circuit in the oracle's words.

    ``owner`` maps the oracle's names to the names of the package.
    """

    circuit: Circuit
    elements: tuple[Element, ...]
    reservoir: Reservoir
    outlets: tuple[str, ...]
    owner: dict[str, str]


def job(circuit: Circuit, target: float = 0.95, *, diffusing: bool = False) -> Job:
    """A lever flush of the circuit; without diffusion the convective law holds exactly."""
    bike = Bike("Test", BikeClass.NAKED, (circuit,))
    made = job_for(
        bike, PlanRequest(circuit=circuit.name, on=ON, target=target), open_workshop().tables
    )
    return made if diffusing else replace(made, priors=_without_diffusion(made))


def _without_diffusion(made: Job) -> dict[tuple[str, str], list[Prior]]:
    priors = {key: list(rows) for key, rows in made.priors.items()}
    key = ("work", "diffusion_mm2_s")
    priors[key] = [replace(row, low=1e-14, high=1.5e-14) for row in priors[key]]
    return priors


def exact(**values: float) -> dict[str, Quantity]:
    """Quantities known exactly."""
    return {key: Exact(value) for key, value in values.items()}


class _Drawing:
    """Adds parts and lines one by one, to both descriptions at once."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.parts: list[Part] = []
        self.lines: list[Line] = []
        self.elements: list[Element] = []
        self.owner: dict[str, str] = {}

    def number(self, low: float, high: float) -> float:
        return self.draw(st.floats(low, high, allow_nan=False))

    def line(self, start: str, end: str, parent: str | None) -> str:
        bore, length = self.number(2.5, 4.0), self.number(150.0, 1200.0)
        self.lines.append(Line(start, end, exact(bore_mm=bore, length_mm=length)))
        volume = 3.141592653589793 / 4.0 * bore**2 * length / 1000.0
        name = f"{start} > {end}"
        self.elements.append(Element(name, "tube", volume, parent))
        self.owner[name] = name
        return name

    def stirred(
        self, part_id: str, kind: PartKind, size: tuple[float, float], screw: bool, parent: str
    ) -> str:
        volume = self.number(*size)
        pocketed = kind in (PartKind.CALIPER, PartKind.MODULATOR)
        unswept = volume * self.number(0.0, 0.6) if pocketed else 0.0
        given = exact(volume_ml=volume)
        if pocketed:
            given |= exact(unswept_ml=unswept)
        if kind is PartKind.CALIPER:
            given |= exact(volume_home_ml=volume)
        if kind is PartKind.MASTER:
            given |= exact(bore_mm=14.0, stroke_mm=12.0, stroke_used=0.9, port_travel_mm=1.0)
        screws = (Screw(f"{part_id} screw"),) if screw else ()
        self.parts.append(Part(part_id, kind, given, screws))
        self.elements.append(Element(part_id, "stirred", volume - unswept, parent, unswept))
        self.owner[part_id] = part_id
        return part_id

    def joint(self, part_id: str, parent: str) -> str:
        self.parts.append(Part(part_id, PartKind.JOINT))
        self.elements.append(Element(part_id, "joint", 0.0, parent))
        return part_id


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """A reservoir, a master, a trunk, a fork of some kind and one to three branches."""
    made = _Drawing(draw)
    full = made.number(15.0, 45.0)
    low, left = full * made.number(0.25, 0.5), full * made.number(0.01, 0.15)
    pot = exact(max_ml=full, min_ml=low, left_after_draw_ml=left)
    made.parts.append(Part("pot", PartKind.RESERVOIR, pot))
    last = made.stirred(
        "master",
        PartKind.MASTER,
        (1.5, 4.0),
        draw(st.booleans()),
        made.line("pot", "master", None),
    )
    outlets = ["master"] if made.parts[-1].screws else []
    for index in range(draw(st.integers(0, 2))):
        last = _onward(made, last, f"trunk {index}")
    branches = draw(st.integers(1, 3))
    for index in range(branches):
        end = last
        for hop in range(draw(st.integers(0, 1))):
            end = _onward(made, end, f"hop {index}.{hop}")
        caliper = f"caliper {index}"
        made.stirred(caliper, PartKind.CALIPER, (4.0, 14.0), True, made.line(end, caliper, end))
        outlets.append(caliper)
    circuit = Circuit(
        "front", Control.LEVER, tuple(made.parts), tuple(made.lines), FluidFill(("DOT 4",), "DOT 4")
    )
    reservoir = Reservoir(full, low, left)
    return Case(circuit, tuple(made.elements), reservoir, tuple(outlets), made.owner)


def _onward(made: _Drawing, start: str, name: str) -> str:
    kind = made.draw(st.sampled_from((PartKind.JOINT, PartKind.SPLITTER, PartKind.MODULATOR)))
    line = made.line(start, name, start)
    if kind is PartKind.JOINT:
        return made.joint(name, line)
    return made.stirred(name, kind, (0.4, 8.0), False, line)
