# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Take a plan to the bench: freeze it, with all that the bench needs, as a job sheet."""

from collections.abc import Sequence

from firmlever.domain.bench.gates import FOLLOW_UPS, Touched, gates_for
from firmlever.domain.bench.screw_gates import screw_gates
from firmlever.domain.bench.sheet import (
    AirPlace,
    CupError,
    JobSheet,
    PaceS,
    Reservoir,
    SheetPoint,
    Unit,
    UnitLeft,
)
from firmlever.domain.circuit import Circuit, PartKind
from firmlever.domain.plan import FlushPlan, PlanPoint, Strip, TubeFigures, Washout
from firmlever.domain.quantity import Band
from firmlever.domain.tables import Method, Technique
from firmlever.units import significant

# how far a cup or a level may be misread, and what may run beside the cup (judgement)
_CUP = CupError(read_error_ml=1.0, read_error_share=0.03, beside_share=0.15)
_LEVEL_READ_ERROR_ML = 1.0
_LEVEL_READ_ERROR_SHARE = 0.1
_COMMON_PRACTICE = "common-practice"


def sheet_for(circuit: Circuit, plan: FlushPlan, techniques: Sequence[Technique]) -> JobSheet:
    """Return the sheet of a job that carries out a plan on its circuit.

    Numbers are rounded here once, so that what is kept and what is reckoned agree.
    """
    has_modulator = bool(circuit.of_kind(PartKind.MODULATOR))
    return JobSheet(
        bike=plan.bike,
        circuit=plan.circuit,
        control=str(circuit.control),
        made_on=plan.on.isoformat(),
        work=str(plan.work),
        method=str(plan.method),
        technique=plan.technique,
        technique_steps=plan.technique_steps,
        fluid=plan.fluid,
        target=plan.target,
        direction="up" if plan.method is Method.REVERSE else "down",
        unit=Unit("stroke" if plan.method is Method.LEVER else "second", _band(plan.unit_ml)),
        pace_s=_pace(plan, techniques),
        reservoir=_reservoir(circuit, plan),
        cup=_CUP,
        points=tuple(_point(point) for point in plan.points),
        has_modulator=has_modulator,
        unswept={
            part.id: _band(plan.left_old.parts_ml[part.id])
            for part in circuit.of_kind(PartKind.MODULATOR)
        },
        units={
            part.id: UnitLeft(
                _band(plan.left_old.parts[part.id]), _band(plan.left_old.of_whole[part.id])
            )
            for part in circuit.of_kind(PartKind.MODULATOR)
        },
        tube=_tube(plan.tube),
        gates=(
            *gates_for(_touched(circuit, plan, has_modulator=has_modulator)),
            *screw_gates(plan),
        ),
        follow_ups=FOLLOW_UPS,
        cautions=plan.cautions,
        findings=plan.findings,
        sources=tuple(dict.fromkeys((*plan.sources, _COMMON_PRACTICE))),
        air=_air(plan),
        froth_minutes=None if plan.air is None else plan.air.froth_minutes,
    )


def _air(plan: FlushPlan) -> tuple[AirPlace, ...]:
    """Return where air may sit, each place with the screw it most likely leaves at."""
    if plan.air is None:
        return ()
    screws = [point.at for point in plan.points]
    found = []
    for place in plan.air.places:
        ways = [
            one
            for one in plan.air.carried
            if one.place == place.id and one.screw in screws and one.volume_ml is not None
        ]
        best = max(ways, key=lambda one: one.chance, default=None)
        screw = None if best is None or best.screw is None else screws.index(best.screw)
        volume = None if best is None or best.volume_ml is None else _band(best.volume_ml)
        likely = significant(place.likely)
        found.append(AirPlace(place.id, place.words, place.remedy, likely, screw, volume))
    return tuple(found)


def _pace(plan: FlushPlan, techniques: Sequence[Technique]) -> PaceS | None:
    for technique in techniques:
        if (technique.method, technique.name) == (plan.method, plan.technique):
            return None if technique.seconds is None else PaceS(*technique.seconds)
    return None


def _reservoir(circuit: Circuit, plan: FlushPlan) -> Reservoir:
    [pot] = circuit.of_kind(PartKind.RESERVOIR)
    usable = _band(plan.reservoir.usable_ml)
    error_ml = significant(min(_LEVEL_READ_ERROR_ML, _LEVEL_READ_ERROR_SHARE * usable.p50))
    fill_to_ml = significant(plan.reservoir.fill_above_min_ml.p50)
    is_max = fill_to_ml >= usable.p50 - error_ml
    return Reservoir(
        part=pot.id,
        usable_ml=usable,
        tilt_ml=significant(max(0.0, usable.p50 - plan.reservoir.on_side_stand_ml.p05)),
        fill_to_ml=None if is_max else fill_to_ml,
        read_error_ml=error_ml,
    )


def _point(point: PlanPoint) -> SheetPoint:
    return SheetPoint(
        at=point.at,
        part=point.part,
        hex_mm=point.hex_mm,
        posture=point.posture,
        note=point.note,
        volume_ml=_band(point.volume_ml),
        strokes=point.strokes,
        minutes=_band(point.minutes),
        strip=_strip(point.strip),
        washout=_washout(point.washout),
    )


def _touched(circuit: Circuit, plan: FlushPlan, *, has_modulator: bool) -> Touched:
    has_calipers = bool(circuit.of_kind(PartKind.CALIPER))
    postures = any(point.posture for point in plan.points)
    moved = plan.pistons_home_first or postures
    return Touched(
        str(circuit.control), plan.fluid, plan.method, has_calipers, has_modulator, moved, postures
    )


def _tube(tube: TubeFigures) -> TubeFigures:
    gas = tube.gas_ml_per_100_ml
    return TubeFigures(tube.rest_minutes, None if gas is None else _band(gas))


def _band(band: Band) -> Band:
    return Band(significant(band.p05), significant(band.p50), significant(band.p95))


def _strip(strip: Strip) -> Strip:
    shares = tuple(tuple(significant(share) for share in shares) for shares in strip.shares)
    return Strip(significant(strip.slice_ml), strip.origins, shares)


def _washout(washout: Washout) -> Washout:
    return Washout(
        tuple(significant(volume) for volume in washout.volume_ml),
        tuple(_band(share) for share in washout.new_share),
    )
