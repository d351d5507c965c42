# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Turns checked tables into the frozen objects of the domain."""

from typing import Any

from firmlever.domain.circuit import (
    Bike,
    Circuit,
    FluidFill,
    Line,
    Part,
    PartKind,
    Screw,
    SequenceStep,
)
from firmlever.store.circuit_file import models


def bike_from(document: models.Document) -> Bike:
    """Return the machine a document describes."""
    bike: Any = document.bike
    return Bike(
        name=bike.name,
        bike_class=bike.class_,
        circuits=tuple(circuit_from(circuit) for circuit in document.circuit),
        given=bike.quantities,
        other_brakes=tuple(bike.other_brakes),
        sequence=tuple(SequenceStep(**step.model_dump()) for step in document.sequence),
    )


def circuit_from(circuit: models.CircuitTable) -> Circuit:
    """Return one circuit."""
    return Circuit(
        name=circuit.name,
        control=circuit.control,
        parts=tuple(_part(part) for part in circuit.part),
        lines=tuple(_line(line) for line in circuit.line),
        fluid=FluidFill(
            required=tuple(circuit.fluid.required),
            filled=circuit.fluid.filled,
            filled_on=circuit.fluid.filled_on,
        ),
    )


def _part(part: Any) -> Part:  # noqa: ANN401
    more: dict[str, Any] = {}
    if isinstance(part, models.TappedPart):
        more["screws"] = tuple(_screw(screw) for screw in part.screw)
    if isinstance(part, models.PistonPart):
        more["pistons_mm"] = tuple(part.pistons_mm)
    if isinstance(part, models.CaliperPart):
        more.update(layout=part.layout, wheel=part.wheel, body=part.body)
    return Part(id=part.id, kind=PartKind(part.kind), given=part.quantities, **more)


def _screw(screw: Any) -> Screw:  # noqa: ANN401
    return Screw(id=screw.id, given=screw.quantities)


def _line(line: Any) -> Line:  # noqa: ANN401
    return Line(
        start=line.from_,
        end=line.to,
        given=line.quantities,
        material=line.material,
        via_mm=line.via,
    )
