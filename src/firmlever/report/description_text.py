# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a circuit file says, as a page and as a document."""

from dataclasses import dataclass

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.known import Known, known_of
from firmlever.domain.quantity import Exact, Quantity
from firmlever.report.figures import counted, plain
from firmlever.report.json import write_document
from firmlever.report.layout import Line, Page, Role, columns, paragraph, quoted
from firmlever.report.shapes import TEXT, WHOLE, constant, list_of, record
from firmlever.report.words import Speaker, WordSet

_CIRCUIT = record(
    ("name", TEXT, "circuit.name"),
    ("control", TEXT, "circuit.control"),
    ("family", TEXT, "circuit.family"),
    ("known", WHOLE, "known.given"),
    ("of", WHOLE, "known.total"),
    ("as_a_range", WHOLE, "known.ranges"),
)
_CHECK = record(
    ("format", constant(1), ""),
    ("kind", constant("check"), ""),
    ("bike", TEXT, "bike.name"),
    ("class", TEXT, "bike.bike_class"),
    ("circuits", list_of(_CIRCUIT)),
)


@dataclass(frozen=True, slots=True)
class _CircuitKnown:
    circuit: Circuit
    known: Known


@dataclass(frozen=True, slots=True)
class _Checked:
    bike: Bike
    circuits: tuple[_CircuitKnown, ...]


def check_page(bike: Bike, file: str, words: WordSet = WordSet.UK) -> Page:
    """Say that a file is sound, and how much of each circuit it knows."""
    say = Speaker(words, keep=[bike.name, *(circuit.name for circuit in bike.circuits)])
    number = counted(str(len(bike.circuits)), "circuit")
    head = ("circuit", "control", "parts", "screws", "fluid in it", "known")
    table = columns([head, *map(_row, bike.circuits)], right=(2, 3))
    first = quoted(bike.circuits[0].name)
    return (
        *paragraph(f"{bike.name}: {number}, nothing to put right", role=Role.HEADLINE),
        Line(),
        Line(say(table[0]), Role.HEADING),
        *(Line(text) for text in table[1:]),
        Line(),
        *paragraph("What is left out falls to what is usual for the class. What is worth"),
        Line(f"measuring: firmlever plan {quoted(file)} --circuit {first}"),
    )


def check_json(bike: Bike) -> str:
    """Write the same for other programs."""
    circuits = (_CircuitKnown(circuit, known_of(circuit)) for circuit in bike.circuits)
    return write_document(_CHECK, _Checked(bike, tuple(circuits)))


def new_page(bike: Bike, file: str) -> Page:
    """Say what was written and what comes next."""
    names = ", ".join(circuit.name for circuit in bike.circuits)
    first = quoted(bike.circuits[0].name)
    return (
        *paragraph(f"Wrote {file}: {bike.name} ({bike.bike_class}) with {names}."),
        Line(),
        *paragraph("Correct it in any editor where your machine differs, then:"),
        Line(f"  firmlever check {quoted(file)}"),
        Line(f"  firmlever plan {quoted(file)} --circuit {first}"),
    )


def set_line(key: str, value: Quantity) -> Page:
    """Say what a quantity now is."""
    said = (
        plain(value.value)
        if isinstance(value, Exact)
        else f"{plain(value.low)} to {plain(value.high)}"
    )
    return paragraph(f"{key} is now {said}")


def _row(circuit: Circuit) -> tuple[str, ...]:
    known = known_of(circuit)
    about = f", {known.ranges} as a range" if known.ranges else ""
    screws = sum(len(part.screws) for part in circuit.parts)
    return (
        circuit.name,
        circuit.control.value,
        str(len(circuit.parts)),
        str(screws),
        circuit.fluid.filled or "unknown",
        f"{known.given} of {known.total}{about}",
    )
