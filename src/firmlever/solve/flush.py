# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A flush plan: draws in, bands out."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import PartKind
from firmlever.domain.plan import (
    FlushPlan,
    LeftOld,
    MethodTime,
    Narrow,
    OrderNote,
    PistonsHome,
    PlanPoint,
    ReservoirPlan,
    Tool,
    Washout,
)
from firmlever.domain.quantity import Band, Exact
from firmlever.domain.tables import Technique
from firmlever.solve.assumed import assumed_of
from firmlever.solve.bands import band, bands, count_down, count_up, ml_band
from firmlever.solve.draws import lattice
from firmlever.solve.findings import findings_of, refusal_of
from firmlever.solve.hydraulics import Fluid, Pace, fluid_at_work, pace
from firmlever.solve.inputs import Input
from firmlever.solve.job import Job, Turn, manual_turns, usual_turns, usual_ways
from firmlever.solve.narrow import first_order_shares
from firmlever.solve.simulate import Outcome, simulate
from firmlever.solve.sources import sources_of
from firmlever.solve.strip import strips
from firmlever.solve.times import refills_of_turns, seconds_in_all, seconds_of_turns
from firmlever.solve.tube import tube_figures
from firmlever.units import from_si

Array = NDArray[np.float64]

DRAWS = 2048
# every sixteenth point of the lattice is itself a lattice: enough to compare two plans
_COMPARE_EVERY = 16
DIMENSIONS = 160
_CURVE_POINTS = 41
_BEYOND_END = 1.1
_EITHER_BELOW = 0.05
_NARROW_AT_LEAST = 1.0
_NARROW_MOST = 8
_RESERVE = 1.2
_CONTAINERS_ML = (250, 500, 1000)


def plan_flush(job: Job, techniques: Sequence[Technique], cautions: tuple[str, ...]) -> FlushPlan:
    """Plan a flush and everything that goes with it."""
    points = lattice(DRAWS, DIMENSIONS, job.request.seed)
    home = job.parts_home
    turns = manual_turns(job) or usual_turns(job)
    outcome = simulate(job, points, turns, home)
    uncertain = tuple(outcome.inputs.uncertain)
    seconds = _seconds(outcome, outcome.paces)
    fluid = fluid_at_work(job.grade, outcome.inputs, job.request.workshop_degc)
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
        left_old=_left_old(job, outcome),
        points=_points(job, outcome, turns, seconds, home),
        reservoir=reservoir_plan(outcome),
        through_ml=ml_band(outcome.through_m3),
        pots_min_max=band(outcome.through_m3 / outcome.supply.usable),
        minutes=band(seconds_in_all(seconds, outcome.inputs) / 60.0),
        buy_ml=buy_ml_of(outcome),
        unit_ml=unit_ml_of(outcome.paces),
        tube=tube_figures(job.technique, job.grade, fluid),
        order=_order(job, points[::_COMPARE_EVERY], turns, home, outcome),
        pistons_home=_pistons_home(job, points[::_COMPARE_EVERY], turns, home, outcome),
        methods=_methods(job, outcome, turns, techniques, fluid),
        tools=tools_of(turns),
        assumed=assumed_of(uncertain),
        narrow=narrow_by(outcome.left_whole, uncertain),
        cautions=cautions,
        findings=findings_of(job, outcome, turns),
        sources=sources_of(uncertain, job.technique, job.grade),
    )


def _left_old(job: Job, outcome: Outcome) -> LeftOld:
    ends = [part.id for part in job.circuit.of_kind(PartKind.CALIPER, PartKind.SLAVE)]
    held = np.sum([outcome.volume_m3[end] for end in ends], axis=0)
    old = np.sum([outcome.left_m3[end] for end in ends], axis=0)
    return LeftOld(
        whole=band(outcome.left_whole),
        after_mixing=band(old / held),
        parts={owner: band(outcome.share(owner)) for owner in outcome.volume_m3},
        parts_ml={owner: ml_band(left) for owner, left in outcome.left_m3.items()},
        of_whole={
            owner: band(left / outcome.volume_whole) for owner, left in outcome.left_m3.items()
        },
    )


def _volumes(outcome: Outcome) -> tuple[Array, ...]:
    return tuple(step.volume for step in outcome.transport.steps)


def _seconds(outcome: Outcome, paces: Sequence[Pace]) -> tuple[Array, ...]:
    supply = outcome.supply
    return seconds_of_turns(_volumes(outcome), paces, supply, outcome.inputs)


def _points(
    job: Job,
    outcome: Outcome,
    turns: Sequence[Turn],
    seconds: Sequence[Array],
    home: frozenset[str],
) -> tuple[PlanPoint, ...]:
    volumes = _volumes(outcome)
    supply = outcome.supply
    ends = [np.quantile(volume, (0.5, 0.95)) for volume in volumes]
    shown = [(float(middle), float(high)) for middle, high in ends]
    return tuple(
        PlanPoint(
            at=turn.screw.id,
            part=turn.part.id,
            volume_ml=ml_band(volume),
            strokes=None if one.stroke_m3 is None else count_up(volume / one.stroke_m3),
            topups=count_up(refills),
            minutes=band(spent / 60.0),
            posture=turn.posture,
            note=turn.note,
            hex_mm=hex_mm_of(turn),
            strip=strip,
            washout=_washout(outcome, index),
        )
        for index, (turn, volume, one, refills, spent, strip) in enumerate(
            zip(
                turns,
                volumes,
                outcome.paces,
                refills_of_turns(volumes, supply),
                seconds,
                strips(job, turns, home, shown, DIMENSIONS),
                strict=True,
            )
        )
    )


def _washout(outcome: Outcome, index: int) -> Washout:
    step = outcome.transport.steps[index]
    end = float(np.quantile(step.volume, 0.95)) * _BEYOND_END
    edges = np.linspace(0.0, end, _CURVE_POINTS)
    shares = step.new_share(np.broadcast_to(edges, (step.volume.size, edges.size)))
    middles = from_si((edges[1:] + edges[:-1]) / 2.0, "ml")
    curve = bands(np.clip(shares, 0.0, 1.0))
    return Washout(tuple(float(middle) for middle in middles), curve)


def hex_mm_of(turn: Turn) -> float | None:
    """Return the size of a screw, where it is known."""
    match turn.screw.given.get("hex_mm"):
        case Exact(value):
            return value
        case _:
            return None


def reservoir_plan(outcome: Outcome) -> ReservoirPlan:
    """Return how the reservoir behaves."""
    usable = outcome.supply.usable
    lost = outcome.inputs.prior("work", "work", "side_stand_loss_share")
    strokes = outcome.paces[0].stroke_m3
    return ReservoirPlan(
        usable_ml=ml_band(usable),
        strokes_to_min=None if strokes is None else count_down(usable / strokes),
        ml_to_min=ml_band(usable),
        on_side_stand_ml=ml_band(usable * (1.0 - np.clip(lost, 0.0, 1.0))),
        fill_to_ml=ml_band(outcome.fill_to_m3),
        fill_above_min_ml=ml_band(outcome.fill_to_m3 - outcome.supply.pot.low_m3),
    )


def buy_ml_of(outcome: Outcome) -> int:
    """Return what to buy, in whole bottles."""
    spilt = outcome.inputs.prior("work", "work", "spill_ml")
    needed = outcome.drawn_m3 + outcome.fill_to_m3 + spilt
    wanted = ml_band(needed).p95 * _RESERVE
    for size in _CONTAINERS_ML:
        if wanted <= size:
            return size
    largest = _CONTAINERS_ML[-1]
    return int(np.ceil(wanted / largest)) * largest


def unit_ml_of(paces: Sequence[Pace]) -> Band:
    """What one stroke or one second brings; screws of different pace are pooled."""
    units = [one.flow_m3_s if one.stroke_m3 is None else one.stroke_m3 for one in paces]
    return ml_band(np.concatenate(units))


def _order(
    job: Job, points: Array, turns: Sequence[Turn], home: frozenset[str], outcome: Outcome
) -> OrderNote:
    if manual_turns(job):
        return OrderNote("the order of the machine's manual, as entered in the file", 0.0, False)
    first = [turn for turn in turns if turn.part.kind is PartKind.MASTER]
    branches = [turn for turn in turns if turn.part.kind is not PartKind.MASTER]
    if len(branches) < 2:
        return OrderNote("only one way to go", 0.0, False)
    furthest = dict.fromkeys(outcome.reach, max(outcome.reach.values()))
    swapped = [*first, *reversed(branches)]
    usual = np.median(outcome.through_m3[::_COMPARE_EVERY])
    other = np.median(simulate(job, points, swapped, home, furthest).through_m3)
    difference = float(from_si(other - usual, "ml"))
    either = abs(other - usual) < _EITHER_BELOW * usual
    reason = (
        "the master's screw first, then the nearest to the reservoir"
        if first
        else "the nearest to the reservoir first"
    )
    return OrderNote(reason, difference, bool(either))


def _pistons_home(
    job: Job, points: Array, turns: Sequence[Turn], home: frozenset[str], outcome: Outcome
) -> tuple[PistonsHome, ...]:
    """Compare the same draws with each caliper's pistons as they stand and pushed home."""
    if home:
        stand = simulate(job, points, turns, frozenset(), outcome.reach)
        through, left = stand.through_m3, stand.left_whole
    else:
        through = outcome.through_m3[::_COMPARE_EVERY]
        left = outcome.left_whole[::_COMPARE_EVERY]
    offers = []
    for part in job.piston_parts:
        pushed = simulate(job, points, turns, frozenset({part.id}), outcome.reach)
        offers.append(
            PistonsHome(
                at=part.id,
                saves_ml=ml_band(through - pushed.through_m3),
                left_old_less=band(left - pushed.left_whole),
                done=part.id in home,
                how=_how_home(job),
            )
        )
    return tuple(offers)


def _how_home(job: Job) -> str:
    how = "clean the pistons, open the screw, push them home, close the screw, then flush"
    if job.has_modulator:
        return f"{how}; never push against a closed screw, that drives old fluid into the ABS unit"
    return how


def _methods(
    job: Job,
    outcome: Outcome,
    turns: Sequence[Turn],
    techniques: Sequence[Technique],
    fluid: Fluid,
) -> tuple[MethodTime, ...]:
    """Time the same millilitres by the usual technique of every method."""
    times = []
    for technique in usual_ways(job, techniques):
        paces = [
            pace(job.circuit, turn.part, turn.screw, technique, fluid, outcome.inputs)
            for turn in turns
        ]
        seconds = seconds_in_all(_seconds(outcome, paces), outcome.inputs)
        refusal = refusal_of(technique.method, job.circuit, job.request.on)
        minutes = band(seconds / 60.0)
        allowed = refusal is None
        times.append(MethodTime(technique.method, technique.name, minutes, allowed, refusal or ""))
    return tuple(times)


def tools_of(turns: Sequence[Turn]) -> tuple[Tool, ...]:
    """Return the spanners and what each is for."""
    by_size: dict[float | None, dict[str, None]] = {}
    for turn in turns:
        by_size.setdefault(hex_mm_of(turn), {}).setdefault(turn.screw.id)
    sizes = sorted(by_size, key=lambda size: (size is None, size or 0.0))
    return tuple(Tool(size, tuple(by_size[size])) for size in sizes)


def narrow_by(result: Array, uncertain: Sequence[Input]) -> tuple[Narrow, ...]:
    """Return what is worth measuring to narrow a result, most first."""
    shares = first_order_shares(result, [one.u for one in uncertain])
    found: dict[str, Narrow] = {}
    for one, share in zip(uncertain, shares, strict=True):
        about, before = one.about, found.get(one.about.name)
        if about.measure:
            per_cent = 100.0 * share + (before.per_cent if before else 0.0)
            found[about.name] = Narrow(about.name, about.asks, about.measure, per_cent, about.also)
    ranked = sorted(found.values(), key=lambda one: -one.per_cent)
    worth = [one for one in ranked if one.per_cent >= _NARROW_AT_LEAST]
    return tuple(worth[:_NARROW_MOST])
