# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a machine and its hydraulic circuits are made of."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from firmlever.domain.quantity import Quantity


class BikeClass(StrEnum):
    """The nine kinds of machine that class priors exist for."""

    SMALL = "small"
    COMMUTER = "commuter"
    SCOOTER = "scooter"
    NAKED = "naked"
    SPORT = "sport"
    TOURER = "tourer"
    ADVENTURE = "adventure"
    CRUISER = "cruiser"
    OFF_ROAD = "off-road"


class Control(StrEnum):
    """What the rider moves."""

    LEVER = "lever"
    PEDAL = "pedal"
    CLUTCH_LEVER = "clutch lever"
    THUMB_LEVER = "thumb lever"


class Family(StrEnum):
    """Which set of priors a circuit draws on."""

    FRONT = "front"
    REAR = "rear"
    CLUTCH = "clutch"


class PartKind(StrEnum):
    """The kinds of part a circuit file may hold."""

    RESERVOIR = "reservoir"
    MASTER = "master cylinder"
    SECONDARY_MASTER = "secondary master cylinder"
    MODULATOR = "modulator"
    CALIPER = "caliper"
    SLAVE = "slave cylinder"
    SPLITTER = "splitter"
    JOINT = "joint"
    VALVE = "valve"
    ANTI_DIVE = "anti-dive"
    DEAD_END = "dead end"


class Layout(StrEnum):
    """How a caliper clasps its disc."""

    OPPOSED = "opposed"
    FLOATING = "floating"


class Material(StrEnum):
    """What a line is made of."""

    RUBBER = "rubber"
    BRAIDED = "braided"
    STEEL = "steel"


@dataclass(frozen=True, slots=True)
class Screw:
    """A bleed screw on a part."""

    id: str
    given: Mapping[str, Quantity] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Part:
    """A part that holds or passes fluid.

    ``given`` holds the quantities somebody knows, by the keys of the circuit
    file; what is absent falls to the class prior. ``pistons_mm`` lists only the
    pistons this circuit moves.
    """

    id: str
    kind: PartKind
    given: Mapping[str, Quantity] = field(default_factory=dict)
    screws: tuple[Screw, ...] = ()
    layout: Layout | None = None
    pistons_mm: tuple[float, ...] = ()
    wheel: str | None = None
    body: str | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A hose or pipe between two parts.

    ``via_mm`` lists turning points as (distance from the start, height).
    """

    start: str
    end: str
    given: Mapping[str, Quantity] = field(default_factory=dict)
    material: Material | None = None
    via_mm: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class FluidFill:
    """Which grades the maker allows, and what is in there now.

    ``filled`` is None when nobody knows.
    """

    required: tuple[str, ...] = ()
    filled: str | None = None
    filled_on: date | None = None


@dataclass(frozen=True, slots=True)
class Circuit:
    """One hydraulic circuit: a tree from its reservoir to its screws."""

    name: str
    control: Control
    parts: tuple[Part, ...]
    lines: tuple[Line, ...]
    fluid: FluidFill = field(default_factory=FluidFill)

    def part(self, part_id: str) -> Part:
        """Return the part with this id.

        Raises
        ------
        KeyError
            When no part has it.
        """
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    def of_kind(self, *kinds: PartKind) -> tuple[Part, ...]:
        """Return the parts of these kinds in file order."""
        return tuple(part for part in self.parts if part.kind in kinds)

    @property
    def family(self) -> Family:
        """The set of priors this circuit draws on."""
        if self.control is Control.CLUTCH_LEVER or self.of_kind(PartKind.SLAVE):
            return Family.CLUTCH
        wheels = {part.wheel for part in self.of_kind(PartKind.CALIPER)}
        rear = self.control in (Control.PEDAL, Control.THUMB_LEVER) or wheels == {"rear"}
        return Family.REAR if rear else Family.FRONT


@dataclass(frozen=True, slots=True)
class SequenceStep:
    """One step of the manual's own order, across circuits."""

    circuit: str
    screw: str
    posture: str | None = None
    until: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Bike:
    """A machine and its circuits."""

    name: str
    bike_class: BikeClass
    circuits: tuple[Circuit, ...]
    given: Mapping[str, Quantity] = field(default_factory=dict)
    other_brakes: tuple[str, ...] = ()
    sequence: tuple[SequenceStep, ...] = ()

    def circuit(self, name: str) -> Circuit:
        """Return the circuit with this name.

        Raises
        ------
        KeyError
            When no circuit has it.
        """
        for circuit in self.circuits:
            if circuit.name == name:
                return circuit
        raise KeyError(name)
