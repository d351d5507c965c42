# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Quantities of one part or line that cannot both be true."""

import itertools
from collections.abc import Iterator, Mapping

from firmlever.domain.circuit import Circuit, Line, Part
from firmlever.domain.fault import Fault
from firmlever.domain.quantity import Between, Exact, Quantity

# (smaller, larger, whether they may be equal)
_IN_ORDER: tuple[tuple[str, str, bool], ...] = (
    ("min_ml", "max_ml", False),
    ("left_after_draw_ml", "max_ml", False),
    ("port_travel_mm", "stroke_mm", False),
    ("volume_home_ml", "volume_ml", True),
    ("unswept_ml", "volume_ml", True),
)


def contradictions_in(circuit: Circuit) -> tuple[Fault, ...]:
    """Return the pairs of quantities of a circuit that exclude each other."""
    return (
        *(
            fault.under("part", index)
            for index, part in enumerate(circuit.parts)
            for fault in _out_of_order(part)
        ),
        *(
            fault.under("line", index)
            for index, line in enumerate(circuit.lines)
            for fault in _turns_astray(line)
        ),
    )


def lowest(quantity: Quantity) -> float:
    """Return the lower end of a quantity."""
    return quantity.low if isinstance(quantity, Between) else quantity.value


def highest(quantity: Quantity) -> float:
    """Return the upper end of a quantity."""
    return quantity.high if isinstance(quantity, Between) else quantity.value


def quantity_text(quantity: Quantity) -> str:
    """Write a quantity as a circuit file has it.

    >>> quantity_text(Exact(16.0)), quantity_text(Between(1.5, 4.0))
    ('16', '{ low = 1.5, high = 4 }')
    """
    if isinstance(quantity, Exact):
        return _number_text(quantity.value)
    return f"{{ low = {_number_text(quantity.low)}, high = {_number_text(quantity.high)} }}"


def _number_text(value: float) -> str:
    number = float(value)
    return str(int(number)) if number.is_integer() else repr(number)


def _out_of_order(part: Part) -> Iterator[Fault]:
    for smaller, larger, may_be_equal in _IN_ORDER:
        pair = _pair(part.given, smaller, larger)
        if pair is None:
            continue
        least, most = lowest(pair[0]), highest(pair[1])
        if least > most or (least == most and not may_be_equal):
            yield Fault(
                (smaller,),
                f"{smaller} = {quantity_text(pair[0])} does not fit "
                f"{larger} = {quantity_text(pair[1])}",
                f"{smaller} is {'at most' if may_be_equal else 'below'} {larger}",
            )


def _pair(
    given: Mapping[str, Quantity], smaller: str, larger: str
) -> tuple[Quantity, Quantity] | None:
    if smaller in given and larger in given:
        return given[smaller], given[larger]
    return None


def _turns_astray(line: Line) -> Iterator[Fault]:
    distances = [distance for distance, _ in line.via_mm]
    if any(later <= before for before, later in itertools.pairwise(distances)):
        yield Fault(
            ("via",),
            "the turning points are not in order",
            "list them by growing distance from the start",
        )
    length = line.given.get("length_mm")
    if length is not None and distances and max(distances) >= highest(length):
        yield Fault(
            ("via",),
            f"a turning point at {_number_text(max(distances))} mm does not fit "
            f"length_mm = {quantity_text(length)}",
            "a turning point lies within the line",
        )
