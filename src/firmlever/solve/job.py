# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is to be done, settled before any number is drawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firmlever.domain.circuit import Bike, Circuit, Part, PartKind, Screw, SequenceStep
from firmlever.domain.graph import route, screws_in
from firmlever.domain.plan import PlanRequest
from firmlever.domain.tables import FluidGrade, Prior, Technique


@dataclass(frozen=True, slots=True)
class Turn:
    """One screw's turn, with what the manual says about it."""

    part: Part
    screw: Screw
    posture: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """A circuit, what moves the fluid, what goes in, and the priors to draw from."""

    bike: Bike
    circuit: Circuit
    request: PlanRequest
    technique: Technique
    grade: FluidGrade
    priors: Mapping[tuple[str, str], Sequence[Prior]]

    @property
    def has_modulator(self) -> bool:
        """Whether an ABS unit stands in the circuit."""
        return bool(self.circuit.of_kind(PartKind.MODULATOR))

    @property
    def piston_parts(self) -> tuple[Part, ...]:
        """The calipers: parts whose pistons can be pushed home through an open screw."""
        return self.circuit.of_kind(PartKind.CALIPER)


def manual_turns(job: Job) -> tuple[Turn, ...]:
    """Return the turns the machine's manual sets, if the file holds any."""
    by_id = {screw.id: (part, screw) for part, screw in screws_in(job.circuit)}
    return tuple(
        Turn(*by_id[step.screw], posture=step.posture, note=_note(step))
        for step in job.bike.sequence
        if step.circuit == job.circuit.name
    )


def usual_turns(job: Job) -> tuple[Turn, ...]:
    """Return every screw: the master's first, then branch by branch from the reservoir."""
    ranked = sorted(screws_in(job.circuit), key=lambda pair: _distance(job.circuit, pair[0]))
    return tuple(Turn(part, screw) for part, screw in ranked)


def _distance(circuit: Circuit, part: Part) -> int:
    return 0 if part.kind is PartKind.MASTER else len(route(circuit, part.id))


def _note(step: SequenceStep) -> str | None:
    words = [f"until {step.until}" if step.until else "", step.note or ""]
    return "; ".join(word for word in words if word) or None


def twins(circuit: Circuit) -> dict[str, tuple[str, ...]]:
    """Return for each caliper those that look alike: same wheel, build and knowledge."""
    alike: dict[object, list[str]] = {}
    for part in circuit.of_kind(PartKind.CALIPER):
        looks = (part.wheel, part.layout, part.pistons_mm, frozenset(part.given))
        alike.setdefault(looks, []).append(part.id)
    return {part_id: tuple(group) for group in alike.values() for part_id in group}
