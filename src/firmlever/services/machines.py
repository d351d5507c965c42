# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Keep machines: start, import, change, replace and remove them, and keep their plans.

A change names the revision it was made on; where somebody saved first, nothing is
overwritten and the store raises ChangedMeanwhileError.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.machine import Change, KeptPlan, Machine, Outline
from firmlever.errors import InputError
from firmlever.ports import CircuitFiles, Clock, Machines
from firmlever.services.describing import pick_circuit


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where machines are kept, and what keeping them needs."""

    machines: Machines
    files: CircuitFiles
    clock: Clock
    new_id: Callable[[], str]


@dataclass(frozen=True, slots=True)
class Described:
    """A kept machine and what its text says; no ``bike`` where the text is not sound."""

    machine: Machine
    bike: Bike | None


def described(shelf: Shelf) -> tuple[Described, ...]:
    """Return every machine, last changed first; one that is not sound hides no other."""
    return tuple(Described(machine, _bike(shelf, machine)) for machine in shelf.machines.all())


def bike_of(shelf: Shelf, machine: Machine) -> Bike:
    """Return what the text of a machine says.

    Raises
    ------
    CircuitFileError, BeyondToolError
        When the text is not sound.
    """
    return shelf.files.parse(machine.name, machine.text)


def circuit_of(shelf: Shelf, machine_id: str, name: str) -> tuple[Machine, Bike, Circuit]:
    """Return a kept machine, what its text says, and its circuit of this name.

    Raises
    ------
    UnknownMachineError
        When no such machine is kept.
    CircuitFileError, BeyondToolError
        When its text is not sound.
    UnknownNameError
        When it has no circuit called so.
    """
    machine = shelf.machines.get(machine_id)
    bike = bike_of(shelf, machine)
    return machine, bike, pick_circuit(bike, name)


def start(shelf: Shelf, outline: Outline) -> Machine:
    """Keep a new machine known only by its looks.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError
        When the looks fit no machine.
    """
    return _add(shelf, outline.name, shelf.files.outline(outline))


def looks_of(shelf: Shelf, outline: Outline) -> Bike:
    """Return the machine that looks would give, without keeping it.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError
        When the looks fit no machine.
    """
    return shelf.files.parse(outline.name, shelf.files.outline(outline))


def take_in(shelf: Shelf, text: str, *, is_demo: bool = False) -> Machine:
    """Keep a new machine from the text of a circuit file, to the last byte.

    Raises
    ------
    CircuitFileError, BeyondToolError
        When the text is not sound; nothing is kept then.
    """
    return _add(shelf, "the file", text, is_demo=is_demo)


def replace_text(shelf: Shelf, machine_id: str, read_revision: int, text: str) -> Machine:
    """Put another text in the place of a machine's.

    Raises
    ------
    UnknownMachineError, ChangedMeanwhileError, CircuitFileError, BeyondToolError
        When there is no such machine, somebody saved first, or the text is not sound.
    """
    return _keep(shelf, shelf.machines.get(machine_id), read_revision, text)


def change(shelf: Shelf, machine_id: str, read_revision: int, changes: Sequence[Change]) -> Machine:
    """Set or forget values of a machine: all of them or none.

    Raises
    ------
    UnknownMachineError, ChangedMeanwhileError
        When there is no such machine, or somebody saved first.
    UnknownNameError, ImpossibleOptionError, CircuitFileError, NotWrittenError
        When a value cannot be kept.
    """
    machine = shelf.machines.get(machine_id)
    text = shelf.files.changed(machine.name, machine.text, changes)
    return _keep(shelf, machine, read_revision, text)


def remove(shelf: Shelf, machine_id: str, read_revision: int) -> None:
    """Forget a machine and its plans.

    Raises
    ------
    UnknownMachineError, ChangedMeanwhileError
        When there is no such machine, or somebody saved first.
    """
    shelf.machines.remove(machine_id, read_revision)


def put_demo_back(shelf: Shelf) -> None:
    """Have every machine of the demo workshop there, as it was."""
    kept = {machine.name: machine for machine in shelf.machines.all() if machine.is_demo}
    for text in shelf.files.demo_texts():
        there = kept.get(shelf.files.parse("the demo", text).name)
        if there is None:
            take_in(shelf, text, is_demo=True)
        elif there.text != text:
            _keep(shelf, there, there.revision, text)


def furnish(shelf: Shelf) -> None:
    """Put the demo workshop into an empty store."""
    if not shelf.machines.all():
        put_demo_back(shelf)


def keep_plan(shelf: Shelf, machine: Machine, circuit: Circuit, document: str) -> KeptPlan:
    """Keep the document of a plan with its machine."""
    plan = KeptPlan(
        id=shelf.new_id(),
        machine_id=machine.id,
        machine_revision=machine.revision,
        circuit=circuit.name,
        made_at=shelf.clock.now(),
        document=document,
    )
    shelf.machines.keep_plan(plan)
    return plan


def file_name(machine: Machine) -> str:
    """Return a name for the machine's file that any disk takes.

    >>> from types import SimpleNamespace
    >>> file_name(SimpleNamespace(name="Skerry 1100 “blue”"))
    'skerry-1100-blue.toml'
    """
    plain = "".join(
        mark if mark.isascii() and mark.isalnum() else " " for mark in machine.name.lower()
    )
    return f"{'-'.join(plain.split())[:60] or 'machine'}.toml"


def _bike(shelf: Shelf, machine: Machine) -> Bike | None:
    try:
        return bike_of(shelf, machine)
    except InputError:
        return None


def _add(shelf: Shelf, named: str, text: str, *, is_demo: bool = False) -> Machine:
    bike = shelf.files.parse(named, text)
    now = shelf.clock.now()
    machine = Machine(
        id=shelf.new_id(),
        name=bike.name,
        bike_class=bike.bike_class,
        text=text,
        revision=1,
        made_at=now,
        changed_at=now,
        is_demo=is_demo,
    )
    shelf.machines.add(machine)
    return machine


def _keep(shelf: Shelf, machine: Machine, read_revision: int, text: str) -> Machine:
    bike = shelf.files.parse(machine.name, text)
    changed = replace(
        machine,
        name=bike.name,
        bike_class=bike.bike_class,
        text=text,
        revision=read_revision + 1,
        changed_at=shelf.clock.now(),
    )
    shelf.machines.change(changed, read_revision)
    return changed
