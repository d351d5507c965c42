# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where each coming millilitre at a screw comes from.

The middle circuit (every input at its median) is flushed once for each origin, with
that origin's first content marked. By linearity the marks add up to the whole.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.plan import Strip
from firmlever.solve.job import Job, Turn
from firmlever.solve.network import Network
from firmlever.solve.simulate import Flow, lay_out
from firmlever.solve.transport import Pocket, Step, StepResult, run
from firmlever.solve.transport import Supply as Given
from firmlever.units import from_si, to_si

Array = NDArray[np.float64]

LINES = "lines"
NEW = "new"
_SLICES = 512
_LONGEST = 200
_SLICES_ML = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)


def strips(
    job: Job,
    turns: Sequence[Turn],
    home: frozenset[str],
    volumes_m3: Sequence[tuple[float, float]],
    dimensions: int,
) -> tuple[Strip, ...]:
    """Return the strip of each turn.

    ``volumes_m3`` holds for each turn the volume after which the next one begins and
    the volume up to which its strip is shown.
    """
    flow = lay_out(job, np.full((1, dimensions), 0.5), turns, home)
    network = flow.network
    origins = _origins(network, turns)
    cuts = [cut_of(from_si(show, "ml")) for _, show in volumes_m3]
    steps = [
        Step(
            flow.path(screw),
            reach=np.full(len(origins), cut.edges_m3[-1]),
            least=np.full(len(origins), end),
        )
        for screw, cut, (end, _) in zip(flow.screws, cuts, volumes_m3, strict=True)
    ]
    result = run(
        [_repeat(pocket, len(origins)) for pocket in flow.pockets],
        steps,
        _marked_supply(flow, origins),
        _SLICES,
        [_marks(network, index, origins) for index in range(len(flow.pockets))],
    )
    return tuple(_strip(step, cut, origins) for step, cut in zip(result.steps, cuts, strict=True))


@dataclass(frozen=True, slots=True)
class Cut:
    """So many slices of a round size."""

    slice_ml: float
    count: int

    @property
    def edges_m3(self) -> Array:
        """Return where each begins and the last one ends."""
        return np.linspace(0.0, to_si(self.slice_ml * self.count, "ml"), self.count + 1)


def cut_of(shown_ml: float) -> Cut:
    """Return the slices that a strip up to so many millilitres is cut into."""
    slice_ml = next((size for size in _SLICES_ML if shown_ml / size <= _LONGEST), _SLICES_ML[-1])
    return Cut(slice_ml, max(1, math.ceil(shown_ml / slice_ml)))


def _strip(step: StepResult, cut: Cut, origins: tuple[str, ...]) -> Strip:
    shares = step.new_share(np.tile(cut.edges_m3, (len(origins), 1)))
    # rounding leaves a share of nothing a hair below zero
    rows = tuple(tuple(float(share) for share in column) for column in np.clip(shares, 0.0, 1.0).T)
    return Strip(cut.slice_ml, origins, rows)


def _origins(network: Network, turns: Sequence[Turn]) -> tuple[str, ...]:
    """Name what can come out, nearest to the screws first."""
    names: dict[str, None] = {}
    used = sorted({index for turn in turns for index in network.outlets[turn.screw.id]})
    for index in reversed(used):
        place = network.places[index]
        if not place.is_line:
            names.setdefault(place.owner)
    names.update(dict.fromkeys((LINES, network.pot.part.id, NEW)))
    return tuple(names)


def _repeat(pocket: Pocket, count: int) -> Pocket:
    return Pocket(
        pocket.mixing,
        np.repeat(pocket.volume, count),
        np.repeat(pocket.kappa, count),
        pocket.follows,
    )


def _marks(network: Network, index: int, origins: tuple[str, ...]) -> Array:
    place = network.places[index]
    name = LINES if place.is_line else place.owner
    return np.array([float(origin == name) for origin in origins])


def _marked_supply(flow: Flow, origins: tuple[str, ...]) -> Given:
    supply, pot = flow.supply, flow.network.pot.part.id
    old = np.array([float(origin == pot) for origin in origins])[:, None]
    new = np.array([float(origin == NEW) for origin in origins])[:, None]

    def given(drawn: Array) -> Array:
        return old * supply.old(drawn) + new * supply.new(drawn)

    return given
