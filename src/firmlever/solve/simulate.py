# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""One flush, in all draws at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import PartKind
from firmlever.solve.hydraulics import Fluid, Pace, fluid_at_work, pace
from firmlever.solve.inputs import Inputs
from firmlever.solve.job import Job, Turn
from firmlever.solve.network import Network, Pot, build
from firmlever.solve.transport import Pocket, Step, Transport, run

Array = NDArray[np.float64]

SLICES = 128
# a first guess of how far signals must reach, in volumes of path and pot, and the least
# room left above the furthest draw of the pilot
_PILOT_DRAWS = 64
_FIRST_REACH = 6.0
_ROOM = 1.15
_MORE_REACH = 1.8


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a flush took and what it left, one value a draw.

    ``left_m3`` and ``volume_m3`` are by owner: parts, lines and the reservoir.
    ``drawn_m3`` is what left the reservoir, with what filled the space behind pistons
    that went home and came out again.
    """

    inputs: Inputs
    network: Network
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
        return _total(self.left_m3) / _total(self.volume_m3)

    def share(self, owner: str) -> Array:
        """Return the share of old fluid in one part."""
        return self.left_m3[owner] / np.maximum(self.volume_m3[owner], np.finfo(float).tiny)


@dataclass(frozen=True, slots=True)
class Supply:
    """What the reservoir gives: stirred, topped up to full whenever it is down to low."""

    pot: Pot

    @property
    def usable(self) -> Array:
        """Return what one filling gives."""
        return self.pot.full_m3 - self.pot.low_m3

    def refills(self, drawn: Array) -> Array:
        """Return how often it has been topped up after so much was drawn."""
        return np.floor(drawn / _like(self.usable, drawn))

    def old_share(self, drawn: Array) -> Array:
        """Return the share of old fluid in it."""
        pot = self.pot
        first, fade = pot.left_old_m3 / pot.full_m3, pot.low_m3 / pot.full_m3
        shares: Array = _like(first, drawn) * _like(fade, drawn) ** self.refills(drawn)
        return shares

    def old(self, drawn: Array) -> Array:
        """Return the old volume it has given after so much was drawn."""
        pot = self.pot
        first, fade = pot.left_old_m3 / pot.full_m3, pot.low_m3 / pot.full_m3
        usable, refills = _like(self.usable, drawn), self.refills(drawn)
        gone: Array = _like(fade, drawn) ** refills
        fillings = usable * (1.0 - gone) / _like(1.0 - fade, drawn)
        return _like(first, drawn) * (fillings + (drawn - refills * usable) * gone)

    def new(self, drawn: Array) -> Array:
        """Return the new volume it has given after so much was drawn."""
        return drawn - self.old(drawn)


def simulate(
    job: Job,
    points: Array,
    turns: Sequence[Turn],
    home: frozenset[str] = frozenset(),
    expected: Mapping[str, float] | None = None,
) -> Outcome:
    """Work through the turns until each outlet reaches the target.

    ``expected`` is the reach of each screw that a run like this one needed
    (`Outcome.reach`); without it a pilot of few draws finds it out.
    """
    inputs = Inputs(points, job.priors, job.circuit.family, job.bike.bike_class)
    network = build(job.circuit, inputs, home)
    fluid = fluid_at_work(job.grade, inputs, job.request.workshop_degc)
    paces = tuple(paces_to(job, turns, fluid, inputs))
    pockets = pockets_at(network, paces, inputs)
    sizes = {
        turn.screw.id: network.path_volume_m3(turn.screw.id) + Supply(network.pot).usable
        for turn in turns
    }
    reach = dict(expected or _pilot(job, network, pockets, turns, sizes))
    transport = _reaching(job, network, pockets, turns, sizes, reach)
    return _settle(job, inputs, network, paces, transport, reach, home)


def paces_to(job: Job, turns: Sequence[Turn], fluid: Fluid, inputs: Inputs) -> list[Pace]:
    """Return how fast the job's technique serves each turn."""
    return [
        pace(job.circuit, turn.part, turn.screw, job.technique, fluid, inputs) for turn in turns
    ]


def pockets_at(network: Network, paces: Sequence[Pace], inputs: Inputs) -> tuple[Pocket, ...]:
    """Return the pockets with the diffusion of the job's own pace."""
    flow = np.mean([one.flow_m3_s for one in paces], axis=0)
    return network.pockets(inputs.prior("work", "work", "diffusion_m2_s"), flow)


def _pilot(
    job: Job,
    network: Network,
    pockets: Sequence[Pocket],
    turns: Sequence[Turn],
    sizes: Mapping[str, Array],
) -> dict[str, float]:
    """Find with few draws how many volumes of path and pot each screw needs."""
    few = slice(None, None, max(1, len(network.pot.full_m3) // _PILOT_DRAWS))
    few_sizes = {screw: size[few] for screw, size in sizes.items()}
    first = dict.fromkeys(sizes, _FIRST_REACH)
    transport = _reaching(
        job,
        replace(network, pot=network.pot.rows(few)),
        [pocket.rows(few) for pocket in pockets],
        turns,
        few_sizes,
        first,
    )
    needed: dict[str, float] = {}
    for turn, step in zip(turns, transport.steps, strict=True):
        share = float(np.max(step.volume / few_sizes[turn.screw.id]))
        needed[turn.screw.id] = max(needed.get(turn.screw.id, 0.0), _ROOM * share)
    return needed


def _reaching(
    job: Job,
    network: Network,
    pockets: Sequence[Pocket],
    turns: Sequence[Turn],
    sizes: Mapping[str, Array],
    reach: dict[str, float],
) -> Transport:
    """Run with ever more reach until every draw meets the target at every screw."""
    supply = Supply(network.pot)
    while True:
        steps = [
            Step(network.outlets[screw], sizes[screw] * reach[screw], target=job.request.target)
            for screw in (turn.screw.id for turn in turns)
        ]
        transport = run(pockets, steps, supply.new, SLICES)
        if np.all(np.isfinite(transport.steps[-1].volume)):
            return transport
        reach[turns[len(transport.steps) - 1].screw.id] *= _MORE_REACH


def _settle(
    job: Job,
    inputs: Inputs,
    network: Network,
    paces: tuple[Pace, ...],
    transport: Transport,
    reach: Mapping[str, float],
    home: frozenset[str],
) -> Outcome:
    """Take stock: what each part holds when the pistons are back out and the pot is full."""
    left, volume = dict(network.still_m3), dict(network.still_m3)
    for place, new in zip(network.places, transport.new_inside, strict=True):
        held = place.pocket.volume
        left[place.owner] = left.get(place.owner, 0.0) + held - new
        volume[place.owner] = volume.get(place.owner, 0.0) + held
    drawn = transport.through
    supply = Supply(network.pot)
    for part in sorted(home):
        behind = network.rooms[part].gone_home_m3
        left[part] = left[part] + supply.old(drawn + behind) - supply.old(drawn)
        volume[part] = volume[part] + behind
        drawn = drawn + behind
    fill_to = _fill_to(job, network)
    level = network.pot.full_m3 - (drawn - supply.refills(drawn) * supply.usable)
    pot = network.pot.part.id
    left[pot] = supply.old_share(drawn) * np.minimum(level, fill_to)
    volume[pot] = fill_to
    return Outcome(inputs, network, paces, transport, reach, fill_to, drawn, left, volume)


def _fill_to(job: Job, network: Network) -> Array:
    """Where the level belongs now, so that new pads do not push it over the brim."""
    worn = sum(
        (
            network.rooms[part.id].gone_home_m3 + network.rooms[part.id].behind_m3
            for part in job.circuit.of_kind(PartKind.CALIPER)
        ),
        np.zeros_like(network.pot.full_m3),
    )
    return np.clip(network.pot.full_m3 - worn, network.pot.low_m3, network.pot.full_m3)


def _total(by_owner: Mapping[str, Array]) -> Array:
    total: Array = np.sum(list(by_owner.values()), axis=0)
    return total


def _like(column: Array, drawn: Array) -> Array:
    return column[:, None] if drawn.ndim > column.ndim else column
