# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What must hold for any flush, whatever the numbers."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from circuits import Case, cases, exact, job
from counts import examples
from firmlever.domain.circuit import Circuit, Control, FluidFill, Line, Part, PartKind, Screw
from firmlever.domain.quantity import Exact
from firmlever.solve.job import usual_turns
from firmlever.solve.simulate import Outcome, simulate

MIDDLE = np.full((1, 160), 0.5)
UNSHRUNK = (Phase.explicit, Phase.generate)


def flushed(circuit: Circuit, target: float = 0.95) -> Outcome:
    made = job(circuit, target)
    return simulate(made, MIDDLE, usual_turns(made))


def needed(circuit: Circuit, target: float = 0.95) -> float:
    return float(flushed(circuit, target).through_m3[0])


def scaled(circuit: Circuit, key: str, factor: float) -> Circuit:
    """The circuit with one key of every line scaled."""
    lines = tuple(
        replace(line, given={**line.given, key: Exact(_value(line, key) * factor)})
        for line in circuit.lines
    )
    return replace(circuit, lines=lines)


def _value(line: Line, key: str) -> float:
    quantity = line.given[key]
    assert isinstance(quantity, Exact)
    return quantity.value


@given(case=cases(), factor=st.floats(1.1, 2.0), key=st.sampled_from(("length_mm", "bore_mm")))
@settings(max_examples=examples(25), phases=UNSHRUNK)
def test_longer_or_wider_lines_never_need_less(case: Case, factor: float, key: str) -> None:
    assert needed(scaled(case.circuit, key, factor)) >= needed(case.circuit) * (1 - 2e-3)


def with_bigger_chambers(circuit: Circuit, factor: float) -> Circuit:
    """The circuit with every chamber that much bigger, its unswept part too."""
    keys = ("volume_ml", "volume_home_ml", "unswept_ml")
    parts = tuple(
        replace(
            part,
            given={
                key: Exact(known.value * factor)
                if key in keys and isinstance(known, Exact)
                else known
                for key, known in part.given.items()
            },
        )
        for part in circuit.parts
    )
    return replace(circuit, parts=parts)


@given(case=cases(), factor=st.floats(1.1, 2.0))
@settings(max_examples=examples(25), phases=UNSHRUNK)
def test_bigger_chambers_never_need_less(case: Case, factor: float) -> None:
    assert needed(with_bigger_chambers(case.circuit, factor)) >= needed(case.circuit) * (1 - 2e-3)


@given(case=cases(), low=st.floats(0.6, 0.9), more=st.floats(0.01, 0.08))
@settings(max_examples=examples(25), phases=UNSHRUNK)
def test_a_higher_target_never_needs_less_and_never_leaves_more(
    case: Case, low: float, more: float
) -> None:
    modest, strict = flushed(case.circuit, low), flushed(case.circuit, low + more)
    assert strict.through_m3[0] >= modest.through_m3[0] * (1 - 2e-3)
    assert strict.left_whole[0] <= modest.left_whole[0] + 2e-3


def chain(*middle: tuple[str, PartKind], lengths: tuple[float, ...]) -> Circuit:
    """One caliper behind lines of these lengths with parts of no great size between."""
    ids = ["master", *(name for name, _ in middle), "caliper"]
    parts = (
        Part("pot", PartKind.RESERVOIR, exact(max_ml=30, min_ml=12, left_after_draw_ml=1)),
        Part(
            "master",
            PartKind.MASTER,
            exact(volume_ml=2, bore_mm=14, stroke_mm=12, stroke_used=0.9, port_travel_mm=1),
        ),
        *(
            Part(name, kind, exact(volume_ml=0.02) if kind is PartKind.SPLITTER else {})
            for name, kind in middle
        ),
        Part(
            "caliper",
            PartKind.CALIPER,
            exact(volume_ml=10, volume_home_ml=10, unswept_ml=0),
            (Screw("caliper"),),
        ),
    )
    feed = Line("pot", "master", exact(bore_mm=6, length_mm=8))
    lines = (
        Line(start, end, exact(bore_mm=3.2, length_mm=length))
        for start, end, length in zip(ids[:-1], ids[1:], lengths, strict=True)
    )
    fluid = FluidFill(("DOT 4",), "DOT 4")
    return Circuit("front", Control.LEVER, parts, (feed, *lines), fluid)


def test_a_joint_changes_nothing() -> None:
    one = flushed(chain(lengths=(1200,)))
    two = flushed(chain(("joint", PartKind.JOINT), lengths=(450, 750)))
    assert two.through_m3[0] == pytest.approx(one.through_m3[0], rel=1e-12)
    assert two.left_whole[0] == pytest.approx(one.left_whole[0], rel=1e-9)


def test_a_mixed_part_between_lowers_the_volume() -> None:
    """Mixing cuts the slow tail of one long line into two shorter ones (derived)."""
    one = needed(chain(lengths=(2400,)))
    two = needed(chain(("tee", PartKind.SPLITTER), lengths=(1200, 1200)))
    assert two < 0.97 * one


@given(case=cases())
@settings(max_examples=examples(15), phases=UNSHRUNK)
def test_renaming_changes_nothing(case: Case) -> None:
    circuit = case.circuit
    new = {part.id: f"x{index}" for index, part in enumerate(circuit.parts)}
    parts = tuple(replace(part, id=new[part.id]) for part in circuit.parts)
    lines = tuple(replace(line, start=new[line.start], end=new[line.end]) for line in circuit.lines)
    renamed = flushed(replace(circuit, parts=parts, lines=lines))
    plain = flushed(circuit)
    assert renamed.through_m3[0] == plain.through_m3[0]
    assert renamed.left_whole[0] == pytest.approx(plain.left_whole[0], rel=1e-12)


def test_drawing_down_first_saves_fluid() -> None:
    """Common practice, no source: a reservoir drawn down and wiped needs less fluid."""
    wiped = chain(lengths=(1200,))
    pot = replace(wiped.parts[0], given={**wiped.parts[0].given, "left_after_draw_ml": Exact(12.0)})
    left_full = replace(wiped, parts=(pot, *wiped.parts[1:]))
    assert needed(wiped) < needed(left_full) - 12.0e-6
