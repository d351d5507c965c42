# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How much of a circuit is known."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from firmlever.domain.circuit import Circuit
from firmlever.domain.quantities import LINE, SCREW, keys_of
from firmlever.domain.quantity import Exact, Quantity


@dataclass(frozen=True, slots=True)
class Known:
    """How many quantities are known exactly, known as a range, and left out."""

    exact: int
    ranges: int
    left_out: int

    @property
    def given(self) -> int:
        """How many are known at all."""
        return self.exact + self.ranges

    @property
    def total(self) -> int:
        """How many there are."""
        return self.given + self.left_out


def known_of(circuit: Circuit) -> Known:
    """Count the quantities of a circuit's parts, screws and lines by how well they are known."""
    found = [given.get(key) for kind, given in _holders(circuit) for key in keys_of(kind)]
    left_out = found.count(None)
    exact = sum(isinstance(quantity, Exact) for quantity in found)
    return Known(exact, len(found) - exact - left_out, left_out)


def _holders(circuit: Circuit) -> Iterator[tuple[str, Mapping[str, Quantity]]]:
    for part in circuit.parts:
        yield part.kind.value, part.given
        for screw in part.screws:
            yield SCREW, screw.given
    for line in circuit.lines:
        yield LINE, line.given
