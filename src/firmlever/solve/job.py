# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is to be done, settled before any number is drawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

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
    def parts_home(self) -> frozenset[str]:
        """The calipers whose pistons are pushed home first, by the wish."""
        return frozenset(part.id for part in self.piston_parts if self.request.pistons_home)

    @property
    def piston_parts(self) -> tuple[Part, ...]:
        """The calipers: parts whose pistons can be pushed home through an open screw."""
        return self.circuit.of_kind(PartKind.CALIPER)


def manual_turns(job: Job) -> tuple[Turn, ...]:
    """Return the turns the machine's manual sets, if the file holds any.

    Steps of other circuits in between stand in the note of the turn that follows them, and
    those at the end in the note of the last.
    """
    by_id = {screw.id: (part, screw) for part, screw in screws_in(job.circuit)}
    turns: list[Turn] = []
    elsewhere: list[str] = []
    for step in job.bike.sequence:
        if step.circuit == job.circuit.name:
            note = _joined(*elsewhere, _note(step))
            turns.append(Turn(*by_id[step.screw], posture=step.posture, note=note))
            elsewhere = []
        else:
            elsewhere.append(_other_circuit(step))
    if turns and elsewhere:
        turns[-1] = replace(turns[-1], note=_joined(turns[-1].note, "after this", *elsewhere))
    return tuple(turns)


def _other_circuit(step: SequenceStep) -> str:
    words = _joined(f"now the other circuit: {step.circuit}, screw “{step.screw}”", step.posture)
    return _joined(words, _note(step)) or ""


def _joined(*words: str | None) -> str | None:
    return "; ".join(word for word in words if word) or None


def usual_turns(job: Job) -> tuple[Turn, ...]:
    """Return every screw: the master's first, then branch by branch from the reservoir."""
    ranked = sorted(screws_in(job.circuit), key=lambda pair: _distance(job.circuit, pair[0]))
    return tuple(Turn(part, screw) for part, screw in ranked)


def _distance(circuit: Circuit, part: Part) -> int:
    return 0 if part.kind is PartKind.MASTER else len(route(circuit, part.id))


def _note(step: SequenceStep) -> str | None:
    return _joined(f"until {step.until}" if step.until else "", step.note)


def usual_ways(job: Job, techniques: Sequence[Technique]) -> tuple[Technique, ...]:
    """Return one technique for each method: the job's own, else the first of the method."""
    usual: dict[str, Technique] = {job.technique.method: job.technique}
    for technique in techniques:
        usual.setdefault(technique.method, technique)
    return tuple(one for one in techniques if usual[one.method] is one)


def twins(circuit: Circuit) -> dict[str, tuple[str, ...]]:
    """Return for each caliper those that look alike: same wheel, build and knowledge."""
    alike: dict[object, list[str]] = {}
    for part in circuit.of_kind(PartKind.CALIPER):
        looks = (part.wheel, part.layout, part.pistons_mm, frozenset(part.given))
        alike.setdefault(looks, []).append(part.id)
    return {part_id: tuple(group) for group in alike.values() for part_id in group}
