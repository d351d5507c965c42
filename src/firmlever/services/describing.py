# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Describe a machine: start a file, find a circuit in it."""

from collections.abc import Mapping

from firmlever.domain.circuit import Bike, Circuit
from firmlever.errors import ImpossibleOptionError, UnknownNameError
from firmlever.ports import CircuitFiles, Tables


def start(files: CircuitFiles, file: str, bike_class: str, name: str) -> Bike:
    """Write the outline of a class of machine to a new file and read it back.

    Raises
    ------
    FileInTheWayError, NotWrittenError, UnknownNameError
        When the file stands there already or cannot be written, or no class is called so.
    """
    files.write_new(file, bike_class, name)
    return files.read(file)


def pick_circuit(bike: Bike, name: str | None) -> Circuit:
    """Return the circuit of this name, or the only one where none is named.

    Raises
    ------
    ImpossibleOptionError
        When none is named and there are several.
    UnknownNameError
        When no circuit is called so.
    """
    names = [circuit.name for circuit in bike.circuits]
    if name is None:
        if len(names) != 1:
            raise ImpossibleOptionError(
                "--circuit", "left out", f"{bike.name} has {', '.join(names)}: name one of them"
            )
        return bike.circuits[0]
    if name not in names:
        raise UnknownNameError("circuit", name, names)
    return bike.circuit(name)


def usual_heights(bike: Bike, circuit: Circuit, tables: Tables) -> Mapping[str, float]:
    """Return the usual height of each part, in millimetres, for drawing those without one."""
    fitting = [
        prior
        for prior in tables.priors()
        if prior.key == "height_mm"
        and prior.family in (circuit.family, "any")
        and (not prior.classes or bike.bike_class in prior.classes)
    ]
    middle = {prior.kind: (prior.low + prior.high) / 2 for prior in reversed(fitting)}
    return {part.id: middle[part.kind] for part in circuit.parts if part.kind in middle}
