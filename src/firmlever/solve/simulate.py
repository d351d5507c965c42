# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""One flush, in all draws at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.tables import Method
from firmlever.solve.hydraulics import Pace, fluid_at_work, pace
from firmlever.solve.inputs import Inputs
from firmlever.solve.job import Job, Turn, twins
from firmlever.solve.network import Network, build
from firmlever.solve.supply import Supply, fill_to_m3
from firmlever.solve.transport import Pocket, Step, Transport, run

Array = NDArray[np.float64]

# signals are kept in so many slices; the benchmark "slices" says what it costs
SLICES = 128
# a first guess of how far signals must reach, in volumes of path and pot, and the least
# room left above the furthest draw of the pilot
_PILOT_DRAWS = 64
_BLOCK = 512
_FIRST_REACH = 6.0
_ROOM = 1.15
_MORE_REACH = 1.8
# what a turn takes at least where nothing is stroked (judgement); else one stroke
_LEAST_TURN_M3 = 1e-6


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a flush took and what it left, one value a draw.

    ``left_m3`` and ``volume_m3`` are by owner: parts, lines and the reservoir.
    ``drawn_m3`` is what left the reservoir, with what filled the space behind pistons
    that went home and came out again.
    """

    inputs: Inputs
    network: Network
    supply: Supply
    paces: tuple[Pace, ...]
    transport: Transport
    reach: Mapping[str, float]
    fill_to_m3: Array
    drawn_m3: Array
    left_m3: Mapping[str, Array]
    volume_m3: Mapping[str, Array]

    @property
    def through_m3(self) -> Array:
        """Return the volume that came out of all screws together."""
        return self.transport.through

    @property
    def left_whole(self) -> Array:
        """Return the share of old fluid in everything."""
        return _total(self.left_m3) / self.volume_whole

    @property
    def volume_whole(self) -> Array:
        """Return the volume from the reservoir's floor to the screws (m3)."""
        return _total(self.volume_m3)

    def share(self, owner: str) -> Array:
        """Return the share of old fluid in one part."""
        return self.left_m3[owner] / np.maximum(self.volume_m3[owner], np.finfo(float).tiny)


def simulate(
    job: Job,
    points: Array,
    turns: Sequence[Turn],
    home: frozenset[str] = frozenset(),
    expected: Mapping[str, float] | None = None,
    *,
    slices: int = SLICES,
) -> Outcome:
    """Work through the turns until each outlet reaches the target.

    ``expected`` is the reach of each screw that a run like this one needed
    (`Outcome.reach`); without it a pilot of few draws finds it out. ``slices`` says
    how finely signals are kept.
    """
    flow = lay_out(job, points, turns, home)
    network, supply = flow.network, flow.supply
    reach = dict(expected or _pilot(flow, slices))
    transport = _in_blocks(flow, reach, slices)
    left, volume, drawn = _take_stock(network, supply, transport, home)
    fill_to = fill_to_m3(job.circuit, network)
    pot = network.pot.part.id
    left[pot] = supply.old_share(drawn) * np.minimum(supply.level(drawn), fill_to)
    volume[pot] = fill_to
    return Outcome(
        flow.inputs, network, supply, flow.paces, transport, reach, fill_to, drawn, left, volume
    )


@dataclass(frozen=True, slots=True)
class Flow:
    """Pockets, what feeds them and the screws they are pushed through, in turn.

    ``least`` is what a turn takes even where its screw already runs new (m3).
    ``inputs``, ``network`` and ``paces`` are what the rest was made from.
    """

    pockets: tuple[Pocket, ...]
    supply: Supply
    least: Array
    screws: tuple[str, ...]
    target: float
    inputs: Inputs
    network: Network
    paces: tuple[Pace, ...]

    def path(self, screw: str) -> tuple[int, ...]:
        """Return the pockets in the order of flow."""
        downwards = self.network.outlets[screw]
        return downwards[::-1] if self.supply.upwards else downwards

    def size(self, screw: str) -> Array:
        """Return the volume of a path with one filling of the reservoir (m3)."""
        passed = (self.pockets[index].volume for index in self.path(screw))
        return sum(passed, self.supply.usable)

    def rows(self, chosen: slice) -> "Flow":
        """Return the same flow for some of the draws."""
        pockets = tuple(pocket.rows(chosen) for pocket in self.pockets)
        least = self.least[chosen]
        return replace(self, pockets=pockets, supply=self.supply.rows(chosen), least=least)


def lay_out(job: Job, points: Array, turns: Sequence[Turn], home: frozenset[str]) -> Flow:
    """Draw what a job rests on and return its flow, at its own pace.

    Upwards, branches run together at a joint and their streamlines with them: there
    each tube mixes across its bore.
    """
    inputs = Inputs(points, job.priors, job.circuit.family, job.bike.bike_class, twins(job.circuit))
    network = build(job.circuit, inputs, home)
    fluid = fluid_at_work(job.grade, inputs, job.request.workshop_degc)
    paces = tuple(
        pace(job.circuit, turn.part, turn.screw, job.technique, fluid, inputs) for turn in turns
    )
    upwards = job.request.method is Method.REVERSE
    pace_m3_s = np.mean([one.flow_m3_s for one in paces], axis=0)
    pockets = network.pockets(inputs.prior("work", "work", "diffusion_mm2_s"), pace_m3_s)
    if upwards:
        pockets = tuple(replace(pocket, follows=None) for pocket in pockets)
    return Flow(
        pockets,
        Supply(network.pot, upwards),
        np.mean([_least_m3(one) for one in paces], axis=0),
        tuple(turn.screw.id for turn in turns),
        job.request.target,
        inputs,
        network,
        paces,
    )


def _least_m3(pace: Pace) -> Array:
    if pace.stroke_m3 is None:
        return np.full_like(pace.flow_m3_s, _LEAST_TURN_M3)
    return pace.stroke_m3


def _pilot(flow: Flow, slices: int) -> dict[str, float]:
    """Find with few draws how many volumes of path and pot each screw needs."""
    every = max(1, len(flow.supply.usable) // _PILOT_DRAWS)
    few = flow.rows(slice(None, None, every))
    transport = _reaching(few, dict.fromkeys(flow.screws, _FIRST_REACH), slices)
    needed: dict[str, float] = {}
    for screw, step in zip(flow.screws, transport.steps, strict=True):
        share = float(np.max(step.volume / few.size(screw)))
        needed[screw] = max(needed.get(screw, 0.0), _ROOM * share)
    return needed


def _in_blocks(flow: Flow, reach: dict[str, float], slices: int) -> Transport:
    """Run a block of draws after the other: small arrays stay in the processor's cache."""
    count = len(flow.supply.usable)
    blocks = [slice(start, start + _BLOCK) for start in range(0, count, _BLOCK)]
    return Transport.joined([_reaching(flow.rows(block), reach, slices) for block in blocks])


def _reaching(flow: Flow, reach: dict[str, float], slices: int) -> Transport:
    """Run until every draw meets the target at every screw, raising ``reach`` as needed."""
    while True:
        steps = [
            Step(flow.path(screw), flow.size(screw) * reach[screw], flow.least, flow.target)
            for screw in flow.screws
        ]
        transport = run(flow.pockets, steps, flow.supply.new, slices)
        if np.all(np.isfinite(transport.steps[-1].volume)):
            return transport
        reach[flow.screws[len(transport.steps) - 1]] *= _MORE_REACH


def _take_stock(
    network: Network, supply: Supply, transport: Transport, home: frozenset[str]
) -> tuple[dict[str, Array], dict[str, Array], Array]:
    """Return by owner what is old and what is held, pistons back out, and what was drawn (m3)."""
    left, volume = dict(network.still_m3), dict(network.still_m3)
    for place, new in zip(network.places, transport.new_inside, strict=True):
        held = place.pocket.volume
        left[place.owner] = left.get(place.owner, 0.0) + held - new
        volume[place.owner] = volume.get(place.owner, 0.0) + held
    drawn = transport.through
    for part in sorted(home):
        behind = network.rooms[part].gone_home_m3
        left[part] = left[part] + supply.old(drawn + behind) - supply.old(drawn)
        volume[part] = volume[part] + behind
        drawn = drawn + behind
    return left, volume, drawn


def _total(by_owner: Mapping[str, Array]) -> Array:
    total: Array = np.sum(list(by_owner.values()), axis=0)
    return total
