# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a dry circuit takes fluid up: which volume goes in at which turn.

Nothing mixes, for there is no old fluid: what a screw gives is air until its way is full, and
new fluid after that. A turn fills whatever lies on the way to its screw and is still dry, with
the dead ends that hang on it, and then pushes so much further until no bubbles come.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, Part
from firmlever.domain.graph import route, screws_in
from firmlever.solve.hydraulics import Pace, swept_m3
from firmlever.solve.job import Job, Turn
from firmlever.solve.network import ARROW, Network
from firmlever.solve.simulate import Flow

Array = NDArray[np.float64]

# shares of a part that differ from all of it by rounding alone
_LEAST_REST = 1e-9


@dataclass(frozen=True, slots=True)
class Station:
    """A part as it is filled: its screw if it is done there, and its volume.

    ``volume_m3`` holds the part, or one screw's share of it, and the line into it.
    """

    part: Part
    turn: Turn | None
    volume_m3: Array


@dataclass(frozen=True, slots=True)
class Filled:
    """One turn's fluid, one value a draw: what fills its way, what follows, and its pace."""

    dry_m3: Array
    after_m3: Array
    pace: Pace

    @property
    def volume_m3(self) -> Array:
        """Return what is drawn from the reservoir during the turn."""
        return self.dry_m3 + self.after_m3


def owned_m3(network: Network) -> dict[str, Array]:
    """Return what each part and run of lines holds, swept or not (m3)."""
    held = dict(network.still_m3)
    for place in network.places:
        held[place.owner] = held.get(place.owner, 0.0) + place.pocket.volume
    return held


def stations(job: Job, flow: Flow, turns: Sequence[Turn]) -> tuple[Station, ...]:
    """Return every part below the reservoir, none before what feeds it.

    Each turn is preceded by the parts on its way that are still dry; what leads to no
    screw comes last. Parts inside a run of lines are passed over.
    """
    circuit, dry = job.circuit, _Dry(job.circuit, owned_m3(flow.network))
    found: list[Station] = []
    for turn in _every_screw_once(circuit, turns):
        found += [Station(part, None, dry.take(part)) for part in dry.on_the_way(turn.part)]
        found.append(Station(turn.part, turn, dry.take(turn.part, len(turn.part.screws))))
    for end in circuit.parts:
        rest = [*dry.on_the_way(end), *([end] if dry.is_dry(end) else [])]
        found += [Station(part, None, dry.take(part)) for part in rest]
    return tuple(found)


class _Dry:
    """What is still dry, taken out part by part."""

    def __init__(self, circuit: Circuit, held: Mapping[str, Array]) -> None:
        self._circuit = circuit
        self._lines = {
            name.rpartition(ARROW)[2]: volume for name, volume in held.items() if ARROW in name
        }
        self._own = {name: volume for name, volume in held.items() if ARROW not in name}
        self._whole = dict(self._own)
        self._nothing = np.zeros_like(next(iter(held.values())))

    def is_dry(self, part: Part) -> bool:
        """Whether there is something to fill."""
        return part.id in self._lines or part.id in self._own

    def on_the_way(self, part: Part) -> list[Part]:
        """Return what feeds a part and is dry, from the reservoir on."""
        return [one for one in route(self._circuit, part.id)[1:-1] if self.is_dry(one)]

    def take(self, part: Part, screws: int = 1) -> Array:
        """Fill the line into a part and one screw's share of it, or all that is left (m3)."""
        line = self._lines.pop(part.id, self._nothing)
        own = self._own.pop(part.id, self._nothing)
        share = np.minimum(self._whole.get(part.id, self._nothing) / screws, own)
        if np.any(own - share > _LEAST_REST * own):
            self._own[part.id] = own - share
        else:
            share = own
        taken: Array = line + share
        return taken


def _every_screw_once(circuit: Circuit, turns: Sequence[Turn]) -> tuple[Turn, ...]:
    """Return the turns, a screw that comes twice only the first time, and those left out."""
    first: dict[str, Turn] = {}
    for turn in turns:
        first.setdefault(turn.screw.id, turn)
    for part, screw in screws_in(circuit):
        first.setdefault(screw.id, Turn(part, screw))
    return tuple(first.values())


def filled(
    job: Job, flow: Flow, turns: Sequence[Turn], paces: Sequence[Pace] | None = None
) -> tuple[Filled, ...]:
    """Return what each turn takes, at the flow's own paces or others."""
    after = flow.inputs.prior("work", "work", "after_fill")
    takes = _dry_m3(job, flow, turns)
    return tuple(
        Filled(
            dry,
            after * way,
            _slowed(job, flow, one, dry, after * way),
        )
        for dry, way, one in zip(takes, _ways_m3(flow, turns), paces or flow.paces, strict=True)
    )


def _dry_m3(job: Job, flow: Flow, turns: Sequence[Turn]) -> list[Array]:
    """Share the stations out among the turns: each goes to the turn that first reaches it."""
    volumes: dict[str, Array] = {}
    for station in stations(job, flow, turns):
        volumes[station.part.id] = volumes.get(station.part.id, 0.0) + station.volume_m3
    takes = []
    for turn in turns:
        reached = {part.id for part in route(job.circuit, turn.part.id)}
        reached |= _hanging_on(job.circuit, reached)
        gone = [volumes.pop(part_id) for part_id in sorted(reached) if part_id in volumes]
        takes.append(np.sum([np.zeros(flow.inputs.count), *gone], axis=0))
    # what no turn reaches is filled with the last
    takes[-1] = np.sum([takes[-1], *volumes.values()], axis=0)
    return takes


def _hanging_on(circuit: Circuit, reached: set[str]) -> set[str]:
    """Return the parts that lead to no screw and hang on one that is reached."""
    leading = {passed.id for part, _ in screws_in(circuit) for passed in route(circuit, part.id)}
    return {
        part.id
        for part in circuit.parts
        if part.id not in leading
        and next(passed.id for passed in reversed(route(circuit, part.id)) if passed.id in leading)
        in reached
    }


def _ways_m3(flow: Flow, turns: Sequence[Turn]) -> list[Array]:
    pockets = flow.network.places
    return [
        np.sum([pockets[index].pocket.volume for index in flow.path(turn.screw.id)], axis=0)
        for turn in turns
    ]


def priming_stroke_m3(job: Job, flow: Flow) -> Array:
    """Return what one stroke brings while air is in the way (m3)."""
    share = flow.inputs.prior("work", "work", "priming_share")
    return swept_m3(job.circuit, flow.inputs) * share


def _slowed(job: Job, flow: Flow, pace: Pace, dry: Array, after: Array) -> Pace:
    """Return the mean pace of a turn: a stroke brings less as long as there is air in the way."""
    if pace.stroke_m3 is None or pace.stroke_s is None:
        return pace
    priming = np.minimum(priming_stroke_m3(job, flow), pace.stroke_m3)
    strokes = dry / priming + after / pace.stroke_m3
    mean = (dry + after) / strokes
    return Pace(mean / pace.stroke_s, mean, pace.stroke_s, pace.turbulent)
