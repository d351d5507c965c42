# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The oracle itself, against the exact laws and its own balance."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counts import examples
from oracle.stream_tubes import (
    RESERVOIR,
    Element,
    OracleResult,
    Reservoir,
    Target,
    Volume,
    flow_shares,
    flush,
    mean_delays,
)

ENDLESS_NEW = Reservoir(full_ml=1e9, low_ml=1.0, left_old_ml=0.0)
POT = Reservoir(full_ml=20.0, low_ml=5.0, left_old_ml=4.0)
TWIN = (
    Element("master", "stirred", 4.0),
    Element("hose", "tube", 8.0, "master"),
    Element("tee", "joint", 0.0, "hose"),
    Element("left line", "tube", 3.0, "tee"),
    Element("right line", "tube", 3.2, "tee"),
    Element("left caliper", "stirred", 6.0, "left line", unswept_ml=2.0),
    Element("right caliper", "stirred", 6.0, "right line", unswept_ml=2.0),
)


def imbalance_ml(
    result: OracleResult, elements: tuple[Element, ...], reservoir: Reservoir
) -> float:
    """Old fluid at the start less what drained and what is left."""
    start = sum(element.volume_ml + element.unswept_ml for element in elements)
    return start + reservoir.left_old_ml - result.drained_old_ml - result.total_old_ml


def test_rings_hold_the_line_and_carry_the_flow() -> None:
    flow, delay = flow_shares(200), mean_delays(200)
    assert math.fsum(flow) == pytest.approx(1.0, abs=1e-14)
    held = math.fsum(share * late for share, late in zip(flow, delay, strict=True))
    assert held == pytest.approx(1.0, abs=1e-14)


def test_line_follows_the_laminar_law() -> None:
    """What is left, and the new share averaged over a tenth of the line's volume."""
    line = (Element("line", "tube", 10.0),)
    for volumes in (0.4, 1.0, 2.5, 6.0):
        result = flush(line, ENDLESS_NEW, [("line", Volume(10.0 * volumes))])
        exact = 1.0 - volumes if volumes < 0.5 else 0.25 / volumes
        assert result.left_old_ml["line"] == pytest.approx(10.0 * exact, rel=3e-3)
    for low, high in ((0.5, 0.6), (0.9, 1.0), (1.9, 2.1), (4.5, 5.5)):
        shares = [new for volume, new in result.curves[0] if low <= volume / 10.0 < high]
        exact = 1.0 - 0.25 * (1.0 / low - 1.0 / high) / (high - low)
        assert sum(shares) / len(shares) == pytest.approx(exact, abs=5e-3)


def test_chamber_follows_the_exponential() -> None:
    chamber = (Element("chamber", "stirred", 6.0),)
    result = flush(chamber, ENDLESS_NEW, [("chamber", Volume(12.0))])
    assert result.left_old_ml["chamber"] == pytest.approx(6.0 * math.exp(-2.0), rel=1e-9)
    for volume, new in result.curves[0][::100]:
        assert new == pytest.approx(1.0 - math.exp(-volume / 6.0), abs=1e-5)
    to_target = flush(chamber, ENDLESS_NEW, [("chamber", Target(0.95))])
    assert to_target.volumes_ml[0] == pytest.approx(6.0 * math.log(20.0), rel=1e-4)


def test_joint_changes_nothing_and_two_lines_are_one() -> None:
    """Ring by ring: two lines through a joint are one line of their whole volume."""
    whole = (Element("line", "tube", 9.0), Element("caliper", "stirred", 5.0, "line"))
    halves = (
        Element("first", "tube", 4.0),
        Element("joint", "joint", 0.0, "first"),
        Element("second", "tube", 5.0, "joint"),
        Element("caliper", "stirred", 5.0, "second"),
    )
    steps = [("caliper", Target(0.95))]
    one, two = flush(whole, POT, steps), flush(halves, POT, steps)
    assert two.volumes_ml[0] == pytest.approx(one.volumes_ml[0], rel=1e-3)
    assert two.total_old_ml == pytest.approx(one.total_old_ml, rel=2e-3)


def test_mixing_between_two_lines_is_not_a_joint() -> None:
    """A stirred part, however small, ends the rings: the curve is another one."""
    line = (Element("line", "tube", 10.0),)
    mixed = (
        Element("first", "tube", 5.0),
        Element("splitter", "stirred", 0.01, "first"),
        Element("second", "tube", 5.0, "splitter"),
    )
    straight = flush(line, ENDLESS_NEW, [("line", Target(0.95))])
    through = flush(mixed, ENDLESS_NEW, [("second", Target(0.95))])
    assert through.volumes_ml[0] < 0.95 * straight.volumes_ml[0]


def test_reservoir_is_topped_up_over_what_is_left_in_it() -> None:
    """By hand: 4 of 20 ml old; after 15 ml are drawn, 1 of 5, filled up to 1 of 20."""
    nothing_between = (Element("stub", "stirred", 1e-6),)
    result = flush(nothing_between, POT, [("stub", Volume(30.0))], parcel_ml=0.25)
    shares = [new for _, new in result.curves[0]]
    assert shares[1:60] == pytest.approx([0.8] * 59, abs=1e-9)
    assert shares[61:] == pytest.approx([0.95] * 59, abs=1e-9)
    assert result.left_old_ml[RESERVOIR] == pytest.approx(0.25, abs=1e-9)


def test_a_branch_starts_from_its_own_state() -> None:
    """The shared path is clean by then, so the second branch needs less than the first."""
    steps = [("left caliper", Target(0.95)), ("right caliper", Target(0.95))]
    result = flush(TWIN, POT, steps)
    assert result.volumes_ml[1] < 0.5 * result.volumes_ml[0]
    assert result.curves[1][0][1] == pytest.approx(0.0, abs=1e-12)
    assert result.left_old_ml["left caliper"] > 2.0


def test_smaller_parcels_change_nothing() -> None:
    steps = [("left caliper", Target(0.95)), ("right caliper", Target(0.95))]
    usual = flush(TWIN, POT, steps)
    finer = flush(TWIN, POT, steps, parcel_ml=0.03)
    assert usual.volumes_ml == pytest.approx(finer.volumes_ml, rel=1e-3)
    assert usual.total_old_ml == pytest.approx(finer.total_old_ml, rel=3e-3)


volumes = st.floats(0.2, 12.0)


@given(
    master=volumes,
    hose=volumes,
    branches=st.lists(st.tuples(volumes, volumes), min_size=1, max_size=3),
    targets=st.floats(0.5, 0.97),
    old=st.floats(0.0, 10.0),
)
@settings(max_examples=examples(15))
def test_old_fluid_is_conserved(
    master: float, hose: float, branches: list[tuple[float, float]], targets: float, old: float
) -> None:
    elements = [
        Element("master", "stirred", master),
        Element("hose", "tube", hose, "master"),
        Element("tee", "joint", 0.0, "hose"),
    ]
    for place, (line, caliper) in enumerate(branches):
        elements.append(Element(f"line {place}", "tube", line, "tee"))
        elements.append(Element(f"caliper {place}", "stirred", caliper, f"line {place}", 0.5))
    reservoir = Reservoir(25.0, 6.0, old)
    steps = [(f"caliper {place}", Target(targets)) for place in range(len(branches))]
    whole = sum(element.volume_ml for element in elements)
    result = flush(elements, reservoir, steps, parcel_ml=whole / 150, rings=60)
    assert imbalance_ml(result, tuple(elements), reservoir) == pytest.approx(0.0, abs=1e-9)
    assert result.pushed_ml == pytest.approx(
        sum(len(curve) for curve in result.curves) * whole / 150, rel=1e-12
    )
    assert all(left >= 0.0 for left in result.left_old_ml.values())


def test_an_unknown_kind_is_refused() -> None:
    with pytest.raises(ValueError, match="sponge: porous with 1 ml"):
        flush([Element("sponge", "porous", 1)], POT, [("sponge", Volume(1.0))])
