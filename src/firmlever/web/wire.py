# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From the objects of the domain to JSON, and the views that answers are made of.

A quantity is a number where it is exact, ``{"low": .., "high": ..}`` where it is a range.
"""

from collections.abc import Mapping
from dataclasses import fields
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.known import known_of
from firmlever.domain.machine import KeptPlan, Machine, Question
from firmlever.domain.quantity import Between, Exact
from firmlever.report.kept import kept_headline

Json = Any


def wire(value: object) -> Json:
    """Return a value as JSON has it: records as objects, dates as ISO text."""
    match value:
        case None | bool() | int() | float():
            return value
        case Exact():
            return value.value
        case Between():
            return {"low": value.low, "high": value.high}
        case StrEnum():
            return value.value
        case str():
            return value
        case date():
            return time_text(value) if isinstance(value, datetime) else value.isoformat()
        case Mapping():
            return {key: wire(entry) for key, entry in value.items()}
        case tuple() | list():
            return [wire(entry) for entry in value]
    record: Any = value
    return {field.name: wire(getattr(value, field.name)) for field in fields(record)}


def time_text(time: datetime) -> str:
    """Return a time in UTC to the second."""
    return f"{time:%Y-%m-%dT%H:%M:%SZ}"


def summary(machine: Machine, bike: Bike | None) -> Json:
    """Return a machine as the list shows it; one that is not sound has no circuits."""
    return {
        "id": machine.id,
        "name": machine.name,
        "bike_class": machine.bike_class.value,
        "revision": machine.revision,
        "changed_at": time_text(machine.changed_at),
        "is_demo": machine.is_demo,
        "circuits": [_circuit(circuit) for circuit in bike.circuits] if bike else [],
    }


def detail(machine: Machine, bike: Bike) -> Json:
    """Return a machine with its text and all that it says."""
    return {**summary(machine, bike), "text": machine.text, "bike": wire(bike)}


def question(asked: Question) -> Json:
    """Return a question; a list of sizes is told apart from a range by its key."""
    given = {"list": list(asked.given)} if isinstance(asked.given, tuple) else wire(asked.given)
    return {**wire(asked), "given": given}


def kept(plan: KeptPlan) -> Json:
    """Return a kept plan as the list shows it."""
    return {
        "id": plan.id,
        "circuit": plan.circuit,
        "made_at": time_text(plan.made_at),
        "machine_revision": plan.machine_revision,
        "headline": kept_headline(plan.document),
    }


def _circuit(circuit: Circuit) -> Json:
    known = known_of(circuit)
    return {
        "name": circuit.name,
        "control": circuit.control.value,
        "fluid": circuit.fluid.filled,
        "screws": sum(len(part.screws) for part in circuit.parts),
        "known": known.given,
        "of": known.total,
    }
