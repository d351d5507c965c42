# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a plan points at before its numbers."""

from dataclasses import replace

import pytest

from firmlever.domain.circuit import Bike, PartKind
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.tables import Method
from solve.machines import asked, demo, kept, tourer, tourer_front, with_fluid, with_part

UNKNOWN_FLUID = (
    "Nobody knows what fluid is in there: read the cap, look for a swollen diaphragm, and stop if "
    "anything speaks for another kind"
)
BELOW_THE_TOP = (
    "The screw “front caliper” is not the highest place of its chamber: air stays above it unless "
    "the part is turned"
)
TOO_FAST = "The flow is faster than the laminar law holds for: the minutes are too few"


def with_screw(above: Quantity | None) -> Bike:
    """The single-disc machine with this much of its caliper above the screw."""
    bike = kept("workshop_1")
    circuit = bike.circuit("front")
    given = {} if above is None else {"above_ml": above}
    parts = tuple(
        replace(part, screws=tuple(replace(screw, given=given) for screw in part.screws))
        for part in circuit.parts
    )
    fluid = replace(circuit.fluid, filled="DOT 4")
    return replace(bike, circuits=(replace(circuit, parts=parts, fluid=fluid),))


def test_a_machine_that_is_known_gets_no_findings() -> None:
    assert tourer_front().findings == ()


def test_unknown_fluid_is_a_finding() -> None:
    known, unknown = (with_fluid(tourer(), "front", filled=one) for one in ("DOT 4", None))
    assert asked(known, "front").findings == ()
    assert asked(unknown, "front").findings == (UNKNOWN_FLUID,)


@pytest.mark.parametrize(
    ("above", "found"),
    [
        (None, ()),
        (Exact(0.0), ()),
        (Exact(0.3), (BELOW_THE_TOP,)),
        (Between(0.0, 0.5), ()),
        (Between(0.2, 0.5), (BELOW_THE_TOP,)),
    ],
    ids=str,
)
def test_a_screw_below_the_top_of_its_chamber_is_a_finding(
    above: Quantity | None, found: tuple[str, ...]
) -> None:
    assert asked(with_screw(above), "front").findings == found


def test_the_most_pressing_finding_comes_first() -> None:
    bike = with_fluid(with_screw(Exact(0.3)), "front", filled=None)
    assert asked(bike, "front").findings == (UNKNOWN_FLUID, BELOW_THE_TOP)


def test_a_flow_beyond_the_laminar_law_is_a_finding() -> None:
    """A meter of wide hose between a wide port and a wide screw: Reynolds numbers over 2000."""
    bike = demo("Dunlin 650")
    front = bike.circuit("rear")
    parts = tuple(
        replace(
            part,
            screws=tuple(
                replace(screw, given={"drilling_mm": Exact(4.0)}) for screw in part.screws
            ),
        )
        for part in front.parts
    )
    lines = tuple(
        replace(line, given={"bore_mm": Exact(6.0), "length_mm": Exact(100.0)})
        for line in front.lines
    )
    master = front.of_kind(PartKind.MASTER)[0].id
    wide = with_part(replace(front, parts=parts, lines=lines), master, port_bore_mm=3.0)
    machine = replace(bike, circuits=(wide,))
    made = asked(machine, "rear", method=Method.VACUUM, technique="steady pump", workshop_degc=45.0)
    assert made.findings == (TOO_FAST,)
    assert asked(machine, "rear", method=Method.GRAVITY).findings == ()
