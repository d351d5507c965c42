# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a dry, opened or rebuilt circuit is filled: the master first, then joint by joint."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import PartKind
from firmlever.domain.fill import FillPlan, FillStep, ReverseFill
from firmlever.domain.graph import WHEEL_END, route
from firmlever.domain.quantity import Band, CountBand
from firmlever.domain.tables import Method
from firmlever.solve.bands import count_up, ml_band
from firmlever.solve.fill_words import POT_STEP, PRIME, wording_of
from firmlever.solve.filling import Station, owned_m3, priming_stroke_m3, stations
from firmlever.solve.findings import refusal_of
from firmlever.solve.job import Job, Turn
from firmlever.solve.network import ARROW
from firmlever.solve.simulate import Flow

Array = NDArray[np.float64]

# so many times the strokes at the bad end without fluid is a fault (judgement)
_SUSPECT = 2


def fill_plan(job: Job, flow: Flow, turns: Sequence[Turn], fill_to_m3: Array) -> FillPlan:
    """Return the steps of a fill.

    ``fill_to_m3`` is what the reservoir holds at the end.
    """
    owned = owned_m3(flow.network)
    whole: Array = np.sum([fill_to_m3, *owned.values()], axis=0)
    pot = flow.network.pot.part.id
    first = FillStep(
        f"fill {pot}", pot, POT_STEP.words, POT_STEP.see, POT_STEP.stop, ml_band(fill_to_m3), None
    )
    return FillPlan(
        volume_ml=ml_band(whole),
        steps=(first, *_steps(job, flow, turns)),
        reverse=_reverse(job, flow, owned),
        prime=PRIME,
    )


def _steps(job: Job, flow: Flow, turns: Sequence[Turn]) -> tuple[FillStep, ...]:
    found = stations(job, flow, turns)
    if job.technique.method is Method.REVERSE:
        found = _from_below(job, found)
    return tuple(_step(job, flow, station) for station in found)


def _from_below(job: Job, found: Sequence[Station]) -> tuple[Station, ...]:
    """Leave out the joints on the way to a screw: a syringe there fills them too."""
    ways = [route(job.circuit, station.part.id) for station in found if station.turn is not None]
    passed = {part.id for way in ways for part in way[:-1] if part.kind is not PartKind.MASTER}
    kept: list[Station] = []
    waiting: list[Array] = []
    for station in found:
        if station.turn is None and station.part.id in passed:
            waiting.append(station.volume_m3)
        elif station.turn is not None:
            volume = np.sum([station.volume_m3, *waiting], axis=0)
            kept.append(replace(station, volume_m3=volume))
            waiting = []
        else:
            kept.append(station)
    return tuple(kept)


def _step(job: Job, flow: Flow, station: Station) -> FillStep:
    stroked = job.technique.method is Method.LEVER or station.part.kind is PartKind.MASTER
    strokes = count_up(station.volume_m3 / priming_stroke_m3(job, flow)) if stroked else None
    words = wording_of(station.part, station.turn, job.technique)
    return FillStep(
        id=_step_id(station),
        at=station.turn.screw.id if station.turn else station.part.id,
        words=words.words,
        see=words.see,
        stop=f"{_when(strokes, ml_band(station.volume_m3))}, stop: {words.stop}.",
        volume_ml=ml_band(station.volume_m3),
        strokes=strokes,
    )


def _step_id(station: Station) -> str:
    if station.turn is not None:
        return f"screw {station.turn.screw.id}"
    return f"joint {station.part.id}"


def _when(strokes: CountBand | None, volume_ml: Band) -> str:
    if strokes is None:
        return f"If {max(1, round(_SUSPECT * volume_ml.p95))} ml have gone and no fluid has come"
    return f"If no fluid has come after {max(1, _SUSPECT * strokes.p95)} strokes"


def _reverse(job: Job, flow: Flow, owned: dict[str, Array]) -> tuple[ReverseFill, ...]:
    """Offer a fill from each wheel end's screws.

    The guard reckons with a way that is full already, as it is where a circuit was only
    opened: then all that goes in comes up in the reservoir.
    """
    pot = flow.network.pot
    room = ml_band(pot.full_m3 - pot.left_old_m3).p05
    reason = refusal_of(Method.REVERSE, job.circuit, job.request.on, job.request.work) or ""
    return tuple(
        ReverseFill(
            at=screw.id,
            volume_ml=ml_band(_way_m3(job, part.id, owned)),
            draw_off_after_ml=max(0.0, room),
            allowed=not reason,
            reason=reason,
        )
        for part in job.circuit.of_kind(*WHEEL_END)
        for screw in part.screws
    )


def _way_m3(job: Job, part_id: str, owned: dict[str, Array]) -> Array:
    on_it = {part.id for part in route(job.circuit, part_id)}
    held = [
        volume
        for name, volume in owned.items()
        if (name.rpartition(ARROW)[2] if ARROW in name else name) in on_it
    ]
    way: Array = np.sum(held, axis=0)
    return way
