# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where each coming millilitre is from, against the flush itself and by hand."""

import numpy as np
import pytest

from firmlever.domain.circuit import Bike
from firmlever.domain.plan import Strip
from firmlever.solve.job import Job, manual_turns, usual_turns
from firmlever.solve.simulate import Outcome, simulate
from firmlever.solve.strip import LINES, NEW, strips
from solve.machines import everything, job

DIMENSIONS = 160
ML = 1e-6


def middle_of(made: Job) -> tuple[Outcome, tuple[Strip, ...]]:
    """The middle circuit flushed, and the strips of the same turns."""
    turns, home = manual_turns(made) or usual_turns(made), frozenset[str]()
    outcome = simulate(made, np.full((1, DIMENSIONS), 0.5), turns, home, slices=512)
    ends = [float(step.volume[0]) for step in outcome.transport.steps]
    return outcome, strips(made, turns, home, [(end, end) for end in ends], DIMENSIONS)


@pytest.mark.parametrize(
    ("name", "bike", "circuit"), list(everything()), ids=lambda each: str(each)[:20]
)
def test_what_is_new_in_the_strip_is_new_at_the_screw(name: str, bike: Bike, circuit: str) -> None:
    """The marks are followed one origin at a time; the flush knows only old and new."""
    outcome, found = middle_of(job(bike, circuit))
    for step, strip in zip(outcome.transport.steps, found, strict=True):
        shares = np.array(strip.shares)
        assert shares.sum(axis=1) == pytest.approx(1.0, abs=1e-12)
        whole_slices = int(step.volume[0] / (strip.slice_ml * ML))
        edges = np.linspace(0.0, whole_slices * strip.slice_ml * ML, whole_slices + 1)
        new = shares[:whole_slices, strip.origins.index(NEW)]
        assert new == pytest.approx(step.new_share(edges[None, :])[0], abs=0.002)


def test_a_strip_holds_what_lay_there() -> None:
    """Pushed far on, each origin's millilitres add up to what the circuit held of it."""
    bike, name = next((bike, name) for of, bike, name in everything() if of == "Limpet 125")
    made = job(bike, name)
    turns = usual_turns(made)
    outcome = simulate(made, np.full((1, DIMENSIONS), 0.5), turns)
    (strip,) = strips(made, turns, frozenset(), [(1000 * ML, 1000 * ML)], DIMENSIONS)
    came = dict(zip(strip.origins, np.sum(strip.shares, axis=0) * strip.slice_ml, strict=True))
    held = {place.owner: 0.0 for place in outcome.network.places if not place.is_line}
    held[LINES] = 0.0
    for place in outcome.network.places:
        held[LINES if place.is_line else place.owner] += float(place.pocket.volume[0]) / ML
    for owner, volume in held.items():
        assert came[owner] == pytest.approx(volume, rel=0.02), owner
    assert came[outcome.network.pot.part.id] == pytest.approx(
        float(outcome.supply.old(np.array([1000 * ML]))[0]) / ML, rel=0.02
    )


def test_the_first_to_come_is_what_lies_at_the_screw() -> None:
    bike, name = next((bike, name) for of, bike, name in everything() if of == "Limpet 125")
    _, (strip,) = middle_of(job(bike, name))
    first = dict(zip(strip.origins, strip.shares[0], strict=True))
    assert strip.origins[0] == "front caliper"
    assert first["front caliper"] > 0.9
    assert first[NEW] == pytest.approx(0.0, abs=1e-6)
