# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A circuit as a tree, and every way in which it may fail to be one."""

import pytest

from firmlever.domain.circuit import (
    Circuit,
    Control,
    Line,
    Part,
    PartKind,
    Screw,
    SequenceStep,
)
from firmlever.domain.contradictions import contradictions_in
from firmlever.domain.fault import Fault
from firmlever.domain.graph import (
    faults_between,
    faults_in,
    feeding_line,
    nearest,
    route,
    screws_in,
)
from firmlever.domain.quantity import Between, Exact, Quantity

KINDS = {
    "pot": PartKind.RESERVOIR,
    "master": PartKind.MASTER,
    "tee": PartKind.SPLITTER,
    "switch": PartKind.DEAD_END,
    "left": PartKind.CALIPER,
    "right": PartKind.CALIPER,
}
MASTER, LEFT, RIGHT = Screw("m"), Screw("l"), Screw("r")
SCREWS = {"master": (MASTER,), "left": (LEFT,), "right": (RIGHT,)}
LINES = ("pot>master", "master>tee", "tee>switch", "tee>left", "tee>right")


def part(name: str, kind: PartKind, *screws: Screw, **more: str) -> Part:
    return Part(name, kind, {}, screws, **more)  # type: ignore[arg-type]


PARTS = tuple(part(name, kind, *SCREWS.get(name, ())) for name, kind in KINDS.items())


def circuit(
    parts: tuple[Part, ...] = PARTS, lines: tuple[str, ...] = LINES, name: str = "front"
) -> Circuit:
    ends = [line.split(">") for line in lines]
    joined = tuple(Line(start, end) for start, end in ends)
    return Circuit(name, Control.LEVER, parts, joined)


def less(name: str) -> tuple[Part, ...]:
    return tuple(part for part in PARTS if part.id != name)


def less_line(line: str) -> tuple[str, ...]:
    return tuple(other for other in LINES if other != line)


def test_sound_circuit_has_no_fault() -> None:
    assert faults_in(circuit()) == ()


def test_feeding_line_is_the_one_that_leads_to_a_part() -> None:
    feeds = feeding_line(circuit())
    assert feeds["left"] == Line("tee", "left")
    assert set(feeds) == set(KINDS) - {"pot"}


def test_route_runs_from_reservoir_to_part() -> None:
    assert [part.id for part in route(circuit(), "right")] == ["pot", "master", "tee", "right"]
    assert [part.id for part in route(circuit(), "pot")] == ["pot"]


def test_route_to_an_unknown_part_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="nowhere"):
        route(circuit(), "nowhere")


def test_screws_come_in_file_order_with_their_parts() -> None:
    found = [(part.id, screw.id) for part, screw in screws_in(circuit())]
    assert found == [("master", "m"), ("left", "l"), ("right", "r")]


FAULTY: dict[str, tuple[Circuit, tuple[Fault, ...]]] = {
    "no reservoir": (
        circuit(less("pot"), less_line("pot>master")),
        (Fault((), "it has no reservoir", "a circuit has one reservoir"),),
    ),
    "two reservoirs": (
        circuit((*PARTS, part("pot 2", PartKind.RESERVOIR)), (*LINES, "pot 2>left")),
        (
            Fault(
                (),
                'it has 2 reservoirs, "pot" and "pot 2"',
                "a circuit with reservoirs of its own further on is not reckoned",
                beyond=True,
            ),
        ),
    ),
    "no master": (
        circuit(less("master"), ("pot>tee", "tee>switch", "tee>left", "tee>right")),
        (Fault((), "it has no master cylinder", "a circuit has one master cylinder"),),
    ),
    "id used twice": (
        circuit((*PARTS, part("left", PartKind.CALIPER))),
        (
            Fault(
                ("part", 6, "id"),
                'the id "left" is used twice',
                "each part of a circuit needs an id of its own",
            ),
        ),
    ),
    "screw id used twice": (
        circuit((*less("right"), part("right", PartKind.CALIPER, RIGHT, LEFT))),
        (
            Fault(
                ("part", 5, "screw", 1, "id"),
                'the screw id "l" is used twice',
                "each screw of a circuit needs an id of its own",
            ),
        ),
    ),
    "line naming nothing": (
        circuit(lines=(*LINES, "mastr>x1y2")),
        (
            Fault(
                ("line", 5, "from"),
                'no part of this circuit is called "mastr"',
                'the nearest known is "master"',
            ),
            Fault(
                ("line", 5, "to"),
                'no part of this circuit is called "x1y2"',
                "known here: pot, master, tee, switch, left, right",
            ),
        ),
    ),
    "line back to its start": (
        circuit(lines=(*LINES, "left>left")),
        (
            Fault(
                ("line", 5, "to"),
                "the line ends where it starts",
                "a line joins two different parts",
            ),
        ),
    ),
    "no screw": (
        circuit(tuple(part(name, kind) for name, kind in KINDS.items())),
        (
            Fault((), "it has no bleed screw", "give at least one part a [[circuit.part.screw]]"),
            Fault(
                ("part", 4),
                "no bleed screw at it or after it can move its fluid",
                "give it a [[circuit.part.screw]]",
            ),
            Fault(
                ("part", 5),
                "no bleed screw at it or after it can move its fluid",
                "give it a [[circuit.part.screw]]",
            ),
        ),
    ),
    "line out of a dead end": (
        circuit(lines=(*less_line("tee>right"), "switch>right")),
        (
            Fault(
                ("line", 4, "from"),
                '"switch" is a dead end, and a line leads out of it',
                'if fluid passes, its kind is "joint" or "splitter"',
            ),
        ),
    ),
    "line into the reservoir": (
        circuit(lines=(*less_line("pot>master"), "master>pot")),
        (
            Fault(
                ("line", 4, "to"),
                "a line leads into the reservoir",
                "lines run from the reservoir outwards: swap from and to",
            ),
        ),
    ),
    "ring back to the reservoir": (
        circuit(lines=(*LINES, "right>pot")),
        (
            Fault(
                ("line", 5),
                "the lines run in a ring: pot > master > tee > right > pot",
                "a circuit is a tree, and a hydraulic loop is not reckoned",
                beyond=True,
            ),
        ),
    ),
    "ring entered from the tree": (
        circuit(
            lines=("pot>master", "master>tee", "tee>switch", "tee>left", "left>right", "right>tee")
        ),
        (
            Fault(
                ("line", 5),
                "the lines run in a ring: tee > left > right > tee",
                "a circuit is a tree, and a hydraulic loop is not reckoned",
                beyond=True,
            ),
        ),
    ),
    "ring off the tree": (
        circuit(lines=("pot>master", "master>tee", "tee>switch", "left>right", "right>left")),
        (
            Fault(
                ("line", 4),
                "the lines run in a ring: left > right > left",
                "a circuit is a tree, and a hydraulic loop is not reckoned",
                beyond=True,
            ),
        ),
    ),
    "fed twice": (
        circuit(lines=(*LINES, "master>left")),
        (
            Fault(
                ("line", 5, "to"),
                '"left" is fed twice, from "tee" and "master"',
                "one line feeds a part; if the machine really has both, it is beyond this tool",
            ),
        ),
    ),
    "unreachable part": (
        circuit(lines=less_line("tee>left")),
        (
            Fault(
                ("part", 4),
                "no line leads to it",
                "join it by a [[circuit.line]], or take it out",
            ),
        ),
    ),
    "only the first of an unreachable branch": (
        circuit(lines=(*less_line("tee>left")[:-1], "left>right")),
        (
            Fault(
                ("part", 4),
                "no line leads to it",
                "join it by a [[circuit.line]], or take it out",
            ),
        ),
    ),
    "past the master": (
        circuit(lines=(*less_line("tee>left"), "pot>left")),
        (
            Fault(
                ("part", 4),
                "fluid reaches it past the master cylinder",
                "the reservoir leads to the master cylinder, and that to the rest",
            ),
        ),
    ),
    "masters in series": (
        circuit(
            (*PARTS, part("second", PartKind.MASTER)),
            (*less_line("tee>left"), "tee>second", "second>left"),
        ),
        (
            Fault(
                ("part", 6),
                'it pushes the same pistons as master cylinder "master"',
                "two master cylinders on the same pistons are not reckoned",
                beyond=True,
            ),
        ),
    ),
    "masters on one caliper": (
        circuit((*PARTS, part("thumb", PartKind.MASTER)), (*LINES, "pot>thumb", "thumb>left")),
        (
            Fault(
                ("line", 6, "to"),
                '"left" is fed twice, from "tee" and "thumb", '
                "so two master cylinders push the same pistons",
                "that is not reckoned",
                beyond=True,
            ),
        ),
    ),
    "masters side by side": (
        circuit(
            (*PARTS, part("thumb", PartKind.MASTER)),
            (*less_line("tee>left"), "pot>thumb", "thumb>left"),
        ),
        (
            Fault(
                (),
                "it has 2 master cylinders side by side",
                "give each master cylinder a [[circuit]] of its own",
            ),
        ),
    ),
    "caliper without a screw": (
        circuit((*less("left"), part("left", PartKind.CALIPER))),
        (
            Fault(
                ("part", 5),
                "no bleed screw at it or after it can move its fluid",
                "give it a [[circuit.part.screw]]",
            ),
        ),
    ),
}


@pytest.mark.parametrize("name", FAULTY)
def test_fault_is_named(name: str) -> None:
    faulty, faults = FAULTY[name]
    assert faults_in(faulty) == faults


def test_screw_further_on_moves_the_fluid_of_a_caliper_before_it() -> None:
    parts = (*less("left"), part("left", PartKind.CALIPER))
    assert faults_in(circuit(parts, (*less_line("tee>right"), "left>right"))) == ()


def test_secondary_master_may_stand_in_the_way() -> None:
    parts = (*PARTS, part("link", PartKind.SECONDARY_MASTER))
    assert faults_in(circuit(parts, (*less_line("tee>left"), "tee>link", "link>left"))) == ()


def test_several_faults_come_at_once() -> None:
    faults = faults_in(circuit(less("master"), ("pot>tee", "tee>switch", "switch>left")))
    assert [fault.found for fault in faults] == [
        "it has no master cylinder",
        '"switch" is a dead end, and a line leads out of it',
        "no line leads to it",
    ]


def test_circuit_names_must_differ() -> None:
    assert faults_between([circuit(), circuit(name="rear"), circuit()]) == (
        Fault(
            ("circuit", 2, "name"),
            'the name "front" is used twice',
            "each circuit needs a name of its own",
        ),
    )


def bodied(name: str, wheel: str | None) -> Circuit:
    shared = Part("left", PartKind.CALIPER, screws=(LEFT,), wheel=wheel, body="left front")
    return circuit((*less("left"), shared), name=name)


def test_shared_body_must_sit_at_one_wheel() -> None:
    assert faults_between([bodied("front", "front"), bodied("rear", "rear")]) == (
        Fault(
            ("circuit", 1, "part", 5, "wheel"),
            'body "left front" is at the rear wheel here and at the front wheel in circuit "front"',
            "one body sits at one wheel",
        ),
    )


@pytest.mark.parametrize("wheel", ["front", None])
def test_shared_body_that_agrees_is_sound(wheel: str | None) -> None:
    assert faults_between([bodied("front", "front"), bodied("rear", wheel)]) == ()


def test_sequence_must_name_what_is_there() -> None:
    steps = [SequenceStep("front", "l"), SequenceStep("frnt", "l"), SequenceStep("front", "left")]
    assert faults_between([circuit()], steps) == (
        Fault(
            ("sequence", 1, "circuit"),
            'no circuit is called "frnt"',
            'the nearest known is "front"',
        ),
        Fault(
            ("sequence", 2, "screw"),
            'no bleed screw of circuit "front" is called "left"',
            "known here: m, l, r",
        ),
    )


def test_nearest_of_nothing_says_so() -> None:
    assert nearest("left", []) == "known here: none"


def with_given(given: dict[str, Quantity]) -> Circuit:
    return circuit((Part("pot", PartKind.RESERVOIR, given), *PARTS[1:]))


CONTRADICTING: dict[str, tuple[dict[str, Quantity], str, str]] = {
    "min at max": (
        {"min_ml": Exact(16), "max_ml": Exact(16)},
        "min_ml = 16 does not fit max_ml = 16",
        "min_ml is below max_ml",
    ),
    "min above max": (
        {"min_ml": Between(20, 30.5), "max_ml": Between(10, 16)},
        "min_ml = { low = 20, high = 30.5 } does not fit max_ml = { low = 10, high = 16 }",
        "min_ml is below max_ml",
    ),
    "home above now": (
        {"volume_home_ml": Exact(9.0), "volume_ml": Exact(8.5)},
        "volume_home_ml = 9 does not fit volume_ml = 8.5",
        "volume_home_ml is at most volume_ml",
    ),
}


@pytest.mark.parametrize("name", CONTRADICTING)
def test_quantities_that_exclude_each_other(name: str) -> None:
    given, found, allowed = CONTRADICTING[name]
    key = found.split(" ")[0]
    assert contradictions_in(with_given(given)) == (Fault(("part", 0, key), found, allowed),)


@pytest.mark.parametrize(
    "given",
    [
        {"volume_home_ml": Exact(8.5), "volume_ml": Exact(8.5)},
        {"min_ml": Between(10, 20), "max_ml": Between(15, 30)},
        {"min_ml": Exact(10)},
        {},
    ],
    ids=str,
)
def test_quantities_that_can_all_be_true(given: dict[str, Quantity]) -> None:
    assert contradictions_in(with_given(given)) == ()


def turned(via: tuple[tuple[float, float], ...], length: Quantity | None) -> Circuit:
    given = {} if length is None else {"length_mm": length}
    line = Line("pot", "master", given, via_mm=via)
    return Circuit("front", Control.LEVER, PARTS, (line,))


def test_turning_points_stand_in_order() -> None:
    assert contradictions_in(turned(((300, 900), (300, 800)), None)) == (
        Fault(
            ("line", 0, "via"),
            "the turning points are not in order",
            "list them by growing distance from the start",
        ),
    )


def test_turning_point_lies_within_the_line() -> None:
    assert contradictions_in(turned(((300, 900), (950.5, 800)), Exact(950))) == (
        Fault(
            ("line", 0, "via"),
            "a turning point at 950.5 mm does not fit length_mm = 950",
            "a turning point lies within the line",
        ),
    )


@pytest.mark.parametrize("length", [None, Exact(950), Between(850, 950)], ids=str)
def test_turning_points_that_fit(length: Quantity | None) -> None:
    assert contradictions_in(turned(((300, 900), (900, 800)), length)) == ()
    assert contradictions_in(turned((), length)) == ()
