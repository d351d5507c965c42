# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A fill as a plan like any other: its turns, its minutes, what to buy.

A dry circuit holds no old fluid, so nothing stays old. A screw gives air until its way is
full and new fluid from then on; the share of new fluid in each draw is a step.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.beyond import beyond_for, conditions_of
from firmlever.domain.plan import (
    FlushPlan,
    LeftOld,
    MethodTime,
    OrderNote,
    PlanPoint,
    Strip,
    Washout,
)
from firmlever.domain.quantity import Band
from firmlever.domain.tables import Technique, Work
from firmlever.solve.assumed import assumed_of
from firmlever.solve.bands import band, bands, count_up, ml_band
from firmlever.solve.draws import lattice
from firmlever.solve.fill import fill_plan
from firmlever.solve.filling import Filled, filled, owned_m3
from firmlever.solve.findings import findings_of, refusal_of
from firmlever.solve.flush import (
    DIMENSIONS,
    DRAWS,
    buy_ml_of,
    hex_mm_of,
    narrow_by,
    reservoir_plan,
    tools_of,
    unit_ml_of,
)
from firmlever.solve.hydraulics import Fluid, fluid_at_work, pace
from firmlever.solve.job import Job, Turn, manual_turns, usual_turns, usual_ways
from firmlever.solve.simulate import Flow, Outcome, lay_out
from firmlever.solve.sources import sources_of
from firmlever.solve.strip import NEW, cut_of
from firmlever.solve.supply import fill_to_m3
from firmlever.solve.times import refills_of_turns, seconds_in_all, seconds_of_turns
from firmlever.solve.transport import Signal, StepResult, Transport
from firmlever.solve.tube import tube_figures
from firmlever.units import from_si

Array = NDArray[np.float64]

AIR = "air"
_CURVE_POINTS = 41
_BEYOND_END = 1.1
_NOTHING = Band(0.0, 0.0, 0.0)


def plan_fill(job: Job, techniques: Sequence[Technique], cautions: tuple[str, ...]) -> FlushPlan:
    """Plan a fill and everything that goes with it."""
    turns = manual_turns(job) or usual_turns(job)
    flow = lay_out(job, lattice(DRAWS, DIMENSIONS, job.request.seed), turns, job.parts_home)
    takes = filled(job, flow, turns)
    outcome = _outcome(job, flow, takes)
    fill = fill_plan(job, flow, turns, outcome.fill_to_m3)
    seconds = seconds_of_turns(_volumes(takes), outcome.paces, flow.supply, flow.inputs)
    fluid = fluid_at_work(job.grade, flow.inputs, job.request.workshop_degc)
    methods = _methods(job, flow, turns, techniques, fluid)
    uncertain = tuple(flow.inputs.uncertain)
    return FlushPlan(
        bike=job.bike.name,
        circuit=job.circuit.name,
        on=job.request.on,
        work=job.request.work,
        method=job.request.method,
        technique=job.technique.name,
        technique_steps=job.technique.steps,
        fluid=job.grade.name,
        target=job.request.target,
        pistons_home_first=job.request.pistons_home,
        left_old=_nothing_old(outcome),
        points=_points(turns, takes, outcome, seconds),
        reservoir=reservoir_plan(outcome),
        through_ml=ml_band(outcome.through_m3),
        pots_min_max=band(outcome.through_m3 / flow.supply.usable),
        minutes=band(seconds_in_all(seconds, flow.inputs) / 60.0),
        buy_ml=buy_ml_of(outcome),
        unit_ml=unit_ml_of(outcome.paces),
        tube=tube_figures(job.technique, job.grade, fluid),
        order=_order(job),
        pistons_home=(),
        methods=methods,
        tools=tools_of(turns),
        assumed=assumed_of(uncertain),
        narrow=narrow_by(outcome.through_m3, uncertain),
        cautions=cautions,
        findings=findings_of(job, outcome, turns),
        sources=sources_of(uncertain, job.technique, job.grade),
        fill=fill,
        beyond=beyond_for(
            conditions_of(
                emptied=True,
                has_modulator=job.has_modulator,
                linked=not manual_turns(job),
                fluid_known=job.circuit.fluid.filled is not None,
            )
        ),
    )


def _volumes(takes: Sequence[Filled]) -> tuple[Array, ...]:
    return tuple(take.volume_m3 for take in takes)


def _outcome(job: Job, flow: Flow, takes: Sequence[Filled]) -> Outcome:
    """Return the fill as the rest of a plan knows an outcome: all that is inside is new."""
    fill_to = fill_to_m3(job.circuit, flow.network)
    volume = {**owned_m3(flow.network), flow.network.pot.part.id: fill_to}
    drawn = np.sum(_volumes(takes), axis=0)
    steps = tuple(StepResult(take.volume_m3, np.zeros_like(drawn), _front(take)) for take in takes)
    inside = tuple(place.pocket.volume for place in flow.network.places)
    return Outcome(
        flow.inputs,
        flow.network,
        flow.supply,
        tuple(take.pace for take in takes),
        Transport(steps, inside, drawn),
        {},
        fill_to,
        drawn,
        {owner: np.zeros_like(drawn) for owner in volume},
        volume,
    )


def _front(take: Filled) -> Signal:
    """Return what the screw gives: two slices, air and then new fluid, of each draw's own size."""
    reach = 2.0 * np.maximum(take.dry_m3, np.finfo(float).tiny)
    return Signal.of(reach / 2.0, np.tile([0.0, 1.0], (len(reach), 1)))


def _nothing_old(outcome: Outcome) -> LeftOld:
    none = dict.fromkeys(outcome.volume_m3, _NOTHING)
    return LeftOld(_NOTHING, _NOTHING, none, dict(none), dict(none))


def _points(
    turns: Sequence[Turn], takes: Sequence[Filled], outcome: Outcome, seconds: Sequence[Array]
) -> tuple[PlanPoint, ...]:
    refills = refills_of_turns(_volumes(takes), outcome.supply)
    return tuple(
        PlanPoint(
            at=turn.screw.id,
            part=turn.part.id,
            volume_ml=ml_band(take.volume_m3),
            strokes=None
            if take.pace.stroke_m3 is None
            else count_up(take.volume_m3 / take.pace.stroke_m3),
            topups=count_up(topped),
            minutes=band(spent / 60.0),
            posture=turn.posture,
            note=turn.note,
            hex_mm=hex_mm_of(turn),
            strip=_strip(take),
            washout=_washout(take),
        )
        for turn, take, topped, spent in zip(turns, takes, refills, seconds, strict=True)
    )


def _shown_ml(take: Filled) -> float:
    return max(1.0, ml_band(take.volume_m3).p95)


def _strip(take: Filled) -> Strip:
    """Show the middle fill: air, then new fluid."""
    cut = cut_of(_shown_ml(take))
    begins = np.arange(cut.count) * cut.slice_ml
    air = np.clip((ml_band(take.dry_m3).p50 - begins) / cut.slice_ml, 0.0, 1.0)
    return Strip(cut.slice_ml, (AIR, NEW), tuple((float(one), float(1.0 - one)) for one in air))


def _washout(take: Filled) -> Washout:
    edges_ml = np.linspace(0.0, _shown_ml(take) * _BEYOND_END, _CURVE_POINTS)
    dry_ml = np.asarray(from_si(take.dry_m3, "ml"))[:, None]
    middles = (edges_ml[1:] + edges_ml[:-1]) / 2.0
    new = np.clip((edges_ml[1:] - dry_ml) / np.diff(edges_ml), 0.0, 1.0)
    return Washout(tuple(float(one) for one in middles), bands(new))


def _order(job: Job) -> OrderNote:
    if manual_turns(job):
        return OrderNote("the order of the machine's manual, as entered in the file", 0.0, False)
    return OrderNote("the master first, then each part after what feeds it", 0.0, False)


def _methods(
    job: Job, flow: Flow, turns: Sequence[Turn], techniques: Sequence[Technique], fluid: Fluid
) -> tuple[MethodTime, ...]:
    """Time the same fill by the usual technique of every method."""
    return tuple(
        _method(job, flow, turns, technique, fluid) for technique in usual_ways(job, techniques)
    )


def _method(
    job: Job, flow: Flow, turns: Sequence[Turn], technique: Technique, fluid: Fluid
) -> MethodTime:
    paces = [
        pace(job.circuit, turn.part, turn.screw, technique, fluid, flow.inputs) for turn in turns
    ]
    takes = filled(job, flow, turns, paces)
    spent = seconds_of_turns(
        _volumes(takes), [take.pace for take in takes], flow.supply, flow.inputs
    )
    refusal = refusal_of(technique.method, job.circuit, job.request.on, Work.FILL)
    minutes = band(seconds_in_all(spent, flow.inputs) / 60.0)
    return MethodTime(technique.method, technique.name, minutes, refusal is None, refusal or "")
