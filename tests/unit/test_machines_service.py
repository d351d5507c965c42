# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The use cases of kept machines, on fakes."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from itertools import count

import pytest

from contract.memory import MemoryMachines
from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.machine import Change, Machine, Outline
from firmlever.domain.quantity import Exact
from firmlever.errors import ChangedMeanwhileError, CircuitFileError, Problem, UnknownMachineError
from firmlever.services import machines as service
from firmlever.services.machines import Shelf
from unit import plan_example
from unit.cli_bench import FakeClock, FakeFiles

NOW = datetime(2026, 5, 1, 9, tzinfo=UTC)


class WordFiles(FakeFiles):
    """A text is a class and a name in one line; a change is put behind them."""

    def parse(self, name: str, text: str) -> Bike:
        words = text.split()
        if len(words) < 2:
            raise CircuitFileError(name, [Problem(1, "the file", "too short", "class and name")])
        return replace(plan_example.bike(), name=words[1], bike_class=BikeClass(words[0]))

    def outline(self, outline: Outline) -> str:
        return f"{outline.bike_class} {outline.name}"

    def changed(self, name: str, text: str, changes: Sequence[Change]) -> str:
        return " ".join([text, *(f"{change.key}={change.value}" for change in changes)])

    def demo_texts(self) -> Sequence[str]:
        return ("tourer Auk", "small Rail")


@dataclass
class Room:
    """A shelf of fakes with its machines at hand."""

    machines: MemoryMachines
    shelf: Shelf


@pytest.fixture
def room() -> Room:
    machines, numbers = MemoryMachines(), count(1)
    shelf = Shelf(machines, WordFiles(), FakeClock(), lambda: f"id-{next(numbers)}")
    return Room(machines, shelf)


def kept(machine_id: str, name: str, text: str, revision: int = 1) -> Machine:
    return Machine(machine_id, name, BikeClass.TOURER, text, revision, NOW, NOW)


def test_a_machine_is_started_from_its_looks(room: Room) -> None:
    machine = service.start(room.shelf, Outline("Tern", BikeClass.TOURER))
    assert machine == kept("id-1", "Tern", "tourer Tern")
    assert room.machines.all() == (machine,)


def test_a_file_is_taken_in_as_it_stands(room: Room) -> None:
    machine = service.take_in(room.shelf, "  tourer\nTern \r\n")
    assert machine == kept("id-1", "Tern", "  tourer\nTern \r\n")


def test_an_unsound_file_is_not_taken_in(room: Room) -> None:
    with pytest.raises(CircuitFileError, match="the file: 1 thing to put right"):
        service.take_in(room.shelf, "tourer")
    assert room.machines.all() == ()


def test_another_text_brings_its_own_name_and_class(room: Room) -> None:
    service.take_in(room.shelf, "tourer Tern")
    machine = service.replace_text(room.shelf, "id-1", 1, "small Auk")
    assert (machine.name, machine.bike_class, machine.revision) == ("Auk", BikeClass.SMALL, 2)
    assert room.machines.get("id-1") == machine
    with pytest.raises(CircuitFileError, match=r"^Auk: 1 thing"):
        service.replace_text(room.shelf, "id-1", 2, "")
    assert room.machines.get("id-1") == machine


def test_values_are_set_in_the_text(room: Room) -> None:
    service.take_in(room.shelf, "tourer Tern")
    machine = service.change(room.shelf, "id-1", 1, [Change("a", None), Change("b", Exact(2))])
    assert machine.text == "tourer Tern a=None b=Exact(value=2)"
    assert (machine.revision, room.machines.get("id-1")) == (2, machine)


def test_a_change_of_an_older_revision_is_refused(room: Room) -> None:
    service.take_in(room.shelf, "tourer Tern")
    service.change(room.shelf, "id-1", 1, [Change("a", Exact(1))])
    for late in (
        lambda: service.change(room.shelf, "id-1", 1, [Change("a", Exact(2))]),
        lambda: service.replace_text(room.shelf, "id-1", 1, "small Auk"),
        lambda: service.remove(room.shelf, "id-1", 1),
    ):
        with pytest.raises(ChangedMeanwhileError):
            late()
    assert room.machines.get("id-1").text == "tourer Tern a=Exact(value=1)"


def test_a_machine_is_removed(room: Room) -> None:
    service.take_in(room.shelf, "tourer Tern")
    service.remove(room.shelf, "id-1", 1)
    assert room.machines.all() == ()
    with pytest.raises(UnknownMachineError):
        service.change(room.shelf, "id-1", 1, [])


def test_an_unsound_machine_hides_no_other(room: Room) -> None:
    service.take_in(room.shelf, "tourer Tern")
    room.machines.add(kept("old", "Wren", "tourer"))
    found = {one.machine.id: one.bike for one in service.described(room.shelf)}
    assert found["old"] is None
    assert found["id-1"] == service.bike_of(room.shelf, room.machines.get("id-1"))
    with pytest.raises(CircuitFileError, match=r"^Wren: "):
        service.bike_of(room.shelf, room.machines.get("old"))


def test_an_empty_store_is_furnished_once(room: Room) -> None:
    service.furnish(room.shelf)
    assert [one.name for one in room.machines.all()] == ["Auk", "Rail"]
    assert all(one.is_demo for one in room.machines.all())
    service.remove(room.shelf, "id-1", 1)
    service.furnish(room.shelf)
    assert [one.name for one in room.machines.all()] == ["Rail"]


def test_the_demo_is_put_back_beside_what_is_not_demo(room: Room) -> None:
    service.furnish(room.shelf)
    service.remove(room.shelf, "id-1", 1)
    service.change(room.shelf, "id-2", 1, [Change("a", None)])
    own = service.take_in(room.shelf, "tourer Auk mine")
    service.put_demo_back(room.shelf)
    texts = sorted((one.text, one.is_demo) for one in room.machines.all())
    assert texts == [("small Rail", True), ("tourer Auk", True), ("tourer Auk mine", False)]
    assert room.machines.get("id-2").revision == 3
    assert room.machines.get(own.id) == own
    before = room.machines.all()
    service.put_demo_back(room.shelf)
    assert room.machines.all() == before


def test_a_plan_is_kept_with_the_revision_it_was_made_on(room: Room) -> None:
    machine = service.take_in(room.shelf, "tourer Tern")
    plan = service.keep_plan(room.shelf, machine, plan_example.front(), "{}")
    assert room.machines.plans("id-1") == (plan,)
    assert (plan.id, plan.machine_id, plan.machine_revision) == ("id-2", "id-1", 1)
    assert (plan.circuit, plan.made_at, plan.document) == ("front", NOW, "{}")


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Skerry 1100", "skerry-1100.toml"),
        ("../../Tern", "tern.toml"),
        ("摩托", "machine.toml"),
        ("A" * 200, f"{'a' * 60}.toml"),
        ("Möwe / 2", "m-we-2.toml"),
    ],
)
def test_any_disk_takes_the_name_of_the_file(name: str, file: str) -> None:
    assert service.file_name(kept("a", name, "")) == file
