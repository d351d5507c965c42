# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whether a circuit is linked, so that only the machine's manual gives the order of its screws.

A circuit counts as linked when it holds a part whose body belongs to another circuit too, a
secondary master cylinder, a proportioning or delay valve, or an anti-dive unit.
"""

from firmlever.domain.circuit import Bike, Circuit, PartKind

_LINKS = {
    PartKind.SECONDARY_MASTER: "a secondary master cylinder",
    PartKind.VALVE: "a proportioning or delay valve",
    PartKind.ANTI_DIVE: "an anti-dive unit",
}


def links_of(bike: Bike, circuit: Circuit) -> tuple[str, ...]:
    """Say what makes a circuit linked; nothing where it stands for itself."""
    elsewhere = {
        part.body: other.name
        for other in bike.circuits
        if other.name != circuit.name
        for part in other.parts
        if part.body is not None
    }
    shared = [
        f"“{part.id}” shares its body with the circuit “{elsewhere[part.body]}”"
        for part in circuit.parts
        if part.body in elsewhere
    ]
    held = [f"“{part.id}” is {_LINKS[part.kind]}" for part in circuit.parts if part.kind in _LINKS]
    return (*shared, *held)


def order_missing(bike: Bike, circuit: Circuit) -> tuple[str, ...]:
    """Say what makes a circuit linked where the file holds no step of the manual's order for it."""
    if any(step.circuit == circuit.name for step in bike.sequence):
        return ()
    return links_of(bike, circuit)
