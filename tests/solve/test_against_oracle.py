# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The fast solver against the slow, literal flush (independent), on random circuits."""

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from circuits import Case, cases, job
from counts import examples
from firmlever.solve.job import Turn, usual_turns
from firmlever.solve.simulate import Outcome, simulate
from oracle.stream_tubes import Element, Reservoir, Target, flush

ML = 1e-6
MIDDLE = np.full((1, 160), 0.5)
TARGET = 0.95
# the oracle is too slow for a search after the smallest failing circuit
UNSHRUNK = (Phase.explicit, Phase.generate)


def turns_of(case: Case) -> list[Turn]:
    by_part = {turn.part.id: turn for turn in usual_turns(job(case.circuit))}
    return [by_part[outlet] for outlet in case.outlets]


def solved(case: Case, *, diffusing: bool = False) -> Outcome:
    made = job(case.circuit, TARGET, diffusing=diffusing)
    return simulate(made, MIDDLE, turns_of(case))


def averages(curve: list[tuple[float, float]], slice_ml: float) -> tuple[np.ndarray, np.ndarray]:
    """The literal curve over slices of this width."""
    middles, shares = np.array(curve).T
    parcel_ml = 2.0 * middles[0]
    total = np.concatenate(([0.0], np.cumsum(shares) * parcel_ml))
    ends = np.arange(len(total)) * parcel_ml
    edges = np.arange(0.0, ends[-1], slice_ml)
    return edges, np.diff(np.interp(edges, ends, total)) / slice_ml


@given(case=cases())
@settings(max_examples=examples(12), phases=UNSHRUNK, suppress_health_check=[HealthCheck.too_slow])
def test_volumes_curves_and_what_stays_agree(case: Case) -> None:
    literal = flush(case.elements, case.reservoir, [(o, Target(TARGET)) for o in case.outlets])
    fast = solved(case)
    volumes = [step.volume[0] / ML for step in fast.transport.steps]
    whole = sum(literal.volumes_ml)
    assert sum(volumes) == pytest.approx(whole, rel=0.01)
    for mine, theirs in zip(volumes, literal.volumes_ml, strict=True):
        assert mine == pytest.approx(theirs, rel=0.01, abs=0.01 * whole)
    for step, curve in zip(fast.transport.steps, literal.curves, strict=True):
        edges, shares = averages(curve, 2.0 * float(step.outlet.slice_[0]) / ML)
        assert step.new_share(edges[None, :] * ML)[0] == pytest.approx(shares, abs=0.01)
    assert fast.left_whole[0] == pytest.approx(
        literal.total_old_ml / literal.total_volume_ml, abs=0.001
    )


@given(case=cases(), diffusing=st.booleans())
@settings(max_examples=examples(60), phases=UNSHRUNK)
def test_volume_and_old_fluid_are_conserved(case: Case, diffusing: bool) -> None:
    fast = solved(case, diffusing=diffusing)
    supply_old = case.reservoir.left_old_ml * ML
    swept = sum(place.pocket.volume[0] for place in fast.network.places)
    still = sum(float(volume[0]) for volume in fast.network.still_m3.values())
    before = swept + still + supply_old
    came_out = sum(
        step.volume[0]
        - (
            step.outlet.integral((step.start + step.volume)[:, None])
            - step.outlet.integral(step.start[:, None])
        )[0, 0]
        for step in fast.transport.steps
    )
    pot = fast.network.pot.part.id
    left = sum(float(old[0]) for owner, old in fast.left_m3.items() if owner != pot)
    drawn = fast.through_m3
    in_pot = float((fast.supply.old_share(drawn) * fast.supply.level(drawn))[0])
    assert (left + in_pot + came_out) == pytest.approx(before, rel=1e-9)


def test_the_comparison_can_fail() -> None:
    """A line a tenth longer in one description only is found out."""
    elements = (Element("hose", "tube", 8.0), Element("chamber", "stirred", 10.0, "hose"))
    longer = (Element("hose", "tube", 8.8), elements[1])
    reservoir = Reservoir(30.0, 12.0, 1.0)
    one, other = (
        flush(each, reservoir, [("chamber", Target(TARGET))]).volumes_ml[0]
        for each in (elements, longer)
    )
    assert abs(other / one - 1.0) > 0.01
