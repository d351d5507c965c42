# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The tables of circuit file format 1 as strict Pydantic models.

The quantities of each table come from the list of quantities of the domain, so a
new row there is a new key here.
"""

import functools
import operator
from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, create_model

from firmlever.domain.circuit import BikeClass, Control, Layout, Material, PartKind
from firmlever.domain.quantities import BIKE, LINE, SCREW, keys_of, spec_of
from firmlever.domain.quantity import Quantity
from firmlever.store.circuit_file.rules import (
    ChoiceRule,
    DateRule,
    GradeRule,
    NumberRule,
    QuantityRule,
    TextRule,
    TurnsRule,
)

FORMAT = 1
MOST_CIRCUITS = 40
MOST_PARTS = 200
MOST_SCREWS = 10
MOST_PISTONS = 12
MOST_TURNS = 50
MOST_STEPS = 200

Name = Annotated[str, TextRule(is_name=True)]
Text = Annotated[str, TextRule()]
# bounds of the last three: wide judgement, to catch slips of the pen only
PistonDiameter = Annotated[float, NumberRule(8, 80, "mm")]
Turns = Annotated[
    tuple[tuple[float, float], ...],
    TurnsRule(NumberRule(0, 8000, "mm"), NumberRule(0, 2500, "mm"), MOST_TURNS),
]
Wheel = Annotated[str, ChoiceRule(("front", "rear", "sidecar"))]


_NOTHING_MORE: Mapping[str, Any] = {}


class Table(BaseModel):
    """Base of all tables: strict, and no key that is not known."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)

    @property
    def quantities(self) -> dict[str, Quantity]:
        """The quantities that are given."""
        return {key: value for key, value in self if isinstance(value, Quantity)}


def _with_quantities(
    kind: str, base: type[Table], name: str, more: Mapping[str, Any] = _NOTHING_MORE
) -> type[Any]:
    fields = dict(more)
    for key in keys_of(kind):
        spec = spec_of(kind, key)
        told = Field(default=None, title=spec.words, description=f"to find out: {spec.measure}")
        fields[key] = (Annotated[Quantity | None, QuantityRule(spec), told], None)
    return create_model(name, __base__=base, __doc__=base.__doc__, **fields)


class ScrewTable(Table):
    """A bleed screw."""

    id: Name = Field(title="name of the screw, of its own within the circuit")


class PlainPart(Table):
    """A part that holds or passes fluid."""

    id: Name = Field(title="name of the part, of its own within the circuit")


Screw = _with_quantities(SCREW, ScrewTable, "Screw")


class TappedPart(PlainPart):
    """A part that may have bleed screws."""

    screw: list[Screw] = Field(  # type: ignore[valid-type]
        default=[], max_length=MOST_SCREWS, title="bleed screws"
    )


class PistonPart(TappedPart):
    """A part whose pistons the fluid moves."""

    pistons_mm: list[PistonDiameter] = Field(
        default=[],
        min_length=1,
        max_length=MOST_PISTONS,
        title="diameters of the pistons this circuit moves",
    )


class CaliperPart(PistonPart):
    """A caliper."""

    layout: Annotated[Layout, ChoiceRule(tuple(Layout), Layout)] | None = Field(
        default=None, title="how it clasps the disc"
    )
    wheel: Wheel | None = Field(default=None, title="the wheel it stops")
    body: Name | None = Field(
        default=None, title="name of a body whose pistons belong to more than one circuit"
    )


_BASES: dict[PartKind, type[PlainPart]] = {
    PartKind.RESERVOIR: PlainPart,
    PartKind.DEAD_END: PlainPart,
    PartKind.SLAVE: PistonPart,
    PartKind.CALIPER: CaliperPart,
}


def _part_model(kind: PartKind) -> type[Any]:
    literal: Any = Literal[kind.value]
    name = "".join(word.capitalize() for word in kind.value.replace("-", " ").split())
    told = Field(title="kind of part")
    base = _BASES.get(kind, TappedPart)
    return _with_quantities(kind.value, base, name, {"kind": (literal, told)})


PART_MODELS: dict[str, type[Any]] = {kind.value: _part_model(kind) for kind in PartKind}


class LineTable(Table):
    """A hose or pipe between two parts."""

    from_: Name = Field(alias="from", title="part it starts at, on the reservoir's side")
    to: Name = Field(title="part it leads to")
    material: Annotated[Material, ChoiceRule(tuple(Material), Material)] | None = Field(
        default=None, title="what it is made of"
    )
    via: Turns = Field(
        default=(), title="turning points: distance from the start and height, in millimetres"
    )


class FluidTable(Table):
    """Which fluid the maker asks for and which is in there."""

    required: list[Annotated[str, GradeRule()]] = Field(
        default=[], max_length=10, title="grades the maker allows"
    )
    filled: Annotated[str | None, GradeRule(may_be_unknown=True)] = Field(
        default=None, title="grade that is in there"
    )
    filled_on: Annotated[date, DateRule()] | None = Field(
        default=None, title="day it was filled in"
    )


_AnyPart: Any = functools.reduce(operator.or_, PART_MODELS.values())
Line = _with_quantities(LINE, LineTable, "Line")


class CircuitTable(Table):
    """One hydraulic circuit: a tree of parts and lines."""

    name: Name = Field(title="name of the circuit, of its own within the machine")
    control: Annotated[Control, ChoiceRule(tuple(Control), Control)] = Field(
        title="what the rider moves"
    )
    fluid: FluidTable = Field(default=FluidTable(), title="its fluid")
    part: list[Annotated[_AnyPart, Field(discriminator="kind")]] = Field(
        min_length=1, max_length=MOST_PARTS, title="its parts"
    )
    line: list[Line] = Field(  # type: ignore[valid-type]
        default=[], max_length=MOST_PARTS, title="its lines"
    )


class BikeTable(Table):
    """The machine."""

    name: Text = Field(title="what it is called")
    class_: Annotated[BikeClass, ChoiceRule(tuple(BikeClass), BikeClass)] = Field(
        alias="class", title="class of machine, for what nobody has measured"
    )
    other_brakes: list[Text] = Field(
        default=[], max_length=10, title="brakes without a hydraulic circuit"
    )


class StepTable(Table):
    """One step of the manual's own order."""

    circuit: Name = Field(title="circuit to work on")
    screw: Name = Field(title="screw to open")
    posture: Text | None = Field(default=None, title="how the machine stands meanwhile")
    until: Text | None = Field(default=None, title="when the step is done")
    note: Text | None = Field(default=None, title="what else the manual says")


Bike = _with_quantities(BIKE, BikeTable, "Bike")


class Document(Table):
    """A machine and its hydraulic circuits, format 1 of the circuit file."""

    format: Literal[1] = Field(title="format of the file")
    bike: Bike = Field(title="the machine")  # type: ignore[valid-type]
    circuit: list[CircuitTable] = Field(
        min_length=1, max_length=MOST_CIRCUITS, title="its circuits"
    )
    sequence: list[StepTable] = Field(
        default=[], max_length=MOST_STEPS, title="the manual's own order, which wins"
    )
