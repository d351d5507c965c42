# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The laboratory's flush against the literal oracle, and its grains against exact laws."""

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, given, settings

from bench_lab.delays import BUNDLE_FLOW, KAPPAS, bundle_delays
from bench_lab.flow import Bundles, Flow, Stirred, Tube
from circuits import Case, cases
from counts import examples
from oracle.stream_tubes import Element, Reservoir, Target, Volume, flush

TARGET = 0.95
# share of new fluid at the end of a tube, radial diffusion number to (volumes: share);
# derived: random walks of 200,000 grains, good to 0.003
_THROUGH_A_TUBE = {
    3e-3: {0.75: 0.552, 1.0: 0.743, 1.5: 0.879, 2.0: 0.924, 3.0: 0.958},
    1e-2: {0.75: 0.543, 1.0: 0.730, 1.5: 0.856, 2.0: 0.904, 3.0: 0.963},
    1e-1: {0.75: 0.434, 1.0: 0.609, 1.5: 0.838, 2.0: 0.957},
}


def as_the_laboratory_sees_it(case: Case, parcel_ml: float) -> Flow:
    """The oracle's elements in the laboratory's words: old fluid first, new fluid second."""
    old, names = np.array([1.0, 0.0]), [element.name for element in case.elements]
    joints = {element.name for element in case.elements if element.kind == "joint"}
    into_joint = {element.parent for element in case.elements if element.name in joints}
    parts: list[Tube | Stirred] = []
    for element in case.elements:
        if element.kind == "tube":
            unmixed = element.name in into_joint
            parts.append(Tube(element.volume_ml, old, Bundles.convective(), parcel_ml, unmixed))
        else:
            parts.append(Stirred(element.volume_ml, old, parcel_ml))
    parent = {element.name: element.parent for element in case.elements}
    paths: list[list[int]] = []
    for outlet in case.outlets:
        path: list[int] = []
        name: str | None = outlet
        while name is not None:
            if name not in joints:
                path.append(names.index(name))
            name = parent[name]
        paths.append(path[::-1])
    return Flow(parts, paths, parcel_ml)


@given(case=cases())
@settings(
    max_examples=examples(4),
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[HealthCheck.too_slow],
)
def test_the_flush_is_the_oracles(case: Case) -> None:
    """Pushed set by set, screw after screw, from a full pot topped up at its low mark."""
    literal = flush(case.elements, case.reservoir, [(o, Target(TARGET)) for o in case.outlets])
    parcel_ml = 2.0 * literal.curves[0][0][0]
    flow, pot = as_the_laboratory_sees_it(case, parcel_ml), case.reservoir
    content_ml, old_ml = pot.full_ml, pot.left_old_ml
    for screw, curve in enumerate(literal.curves):
        flow.turn_to()
        came = np.empty((0, 2))
        while len(came) < len(curve):
            if content_ml - pot.low_ml < parcel_ml:
                content_ml = pot.full_ml
            old = old_ml / content_ml
            parcels = min(
                max(1, int((content_ml - pot.low_ml) / parcel_ml)), 40, len(curve) - len(came)
            )
            came = np.concatenate(
                [came, flow.push(screw, parcels * parcel_ml, np.array([old, 1.0 - old]))]
            )
            old_ml -= old * parcels * parcel_ml
            content_ml -= parcels * parcel_ml
        assert came[:, 1] == pytest.approx([new for _, new in curve], abs=0.004)
        assert came.sum(axis=1) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize("kappa", _THROUGH_A_TUBE)
def test_grains_come_out_as_they_should(kappa: float) -> None:
    delays = bundle_delays(kappa)
    for volumes, share in _THROUGH_A_TUBE[kappa].items():
        arrived = np.interp(volumes, delays, np.cumsum(BUNDLE_FLOW) - BUNDLE_FLOW / 2.0)
        assert arrived == pytest.approx(share, abs=0.01)


def test_bundles_hold_the_tube_and_carry_the_flow() -> None:
    for kappa in KAPPAS:
        assert BUNDLE_FLOW @ bundle_delays(kappa) == pytest.approx(1.0, abs=1e-12)
    assert BUNDLE_FLOW.sum() == pytest.approx(1.0, abs=1e-12)


def test_almost_no_diffusion_is_the_parabola() -> None:
    """Old fluid that a tube still lets out, against the law of the literal flush."""
    tube = Tube(10.0, np.array([1.0, 0.0]), Bundles(bundle_delays(1e-9), BUNDLE_FLOW), 0.05)
    flow = Flow([tube], [[0]], 0.05)
    came = flow.push(0, 60.0, np.array([0.0, 1.0]))
    for low, high in ((0.5, 0.6), (0.9, 1.0), (1.9, 2.1), (4.5, 5.5)):
        share = came[round(low * 200) : round(high * 200), 1].mean()
        exact = 1.0 - 0.25 * (1.0 / low - 1.0 / high) / (high - low)
        assert share == pytest.approx(exact, abs=0.01)


def test_another_case_would_be_found_out() -> None:
    """A tenth more hose in one description only is more than the comparison lets pass."""
    endless = Reservoir(1e9, 1.0, 0.0)
    curves = [
        flush([Element("hose", "tube", size)], endless, [("hose", Volume(20.0))], parcel_ml=0.1)
        for size in (8.0, 8.8)
    ]
    shares = [np.array(one.curves[0])[:, 1] for one in curves]
    assert np.abs(shares[0] - shares[1]).max() > 0.05
