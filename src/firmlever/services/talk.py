# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is worth asking about a circuit, best first."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from firmlever.domain.circuit import Bike, Circuit, PartKind
from firmlever.domain.machine import Question
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.quantities import LINE, SCREW, keys_of, spec_of
from firmlever.domain.quantity import Quantity, QuantitySpec
from firmlever.domain.tables import Prior
from firmlever.errors import InputError
from firmlever.ports import Tables
from firmlever.services.planning import plan

PISTONS = "pistons_mm"
PISTON_SPEC = QuantitySpec(
    PartKind.CALIPER,
    PISTONS,
    "mm",
    8,
    80,
    "sizes of the pistons",
    "count the pistons and lay a ruler across each",
)

# which small drawing shows where to look; a kind alone stands for all its other keys
_PICTURES: Mapping[str, str] = {
    PartKind.RESERVOIR: "pot",
    PartKind.MASTER: "master",
    PartKind.SECONDARY_MASTER: "master",
    PartKind.MODULATOR: "abs",
    SCREW: "screw",
}
_PICTURES_BY_KEY: Mapping[tuple[str, str], str] = {
    (PartKind.MASTER, "bore_mm"): "bore",
    (PartKind.MASTER, "stroke_mm"): "stroke",
    (PartKind.CALIPER, "pad_mm"): "pads",
    (PartKind.CALIPER, "pad_new_mm"): "pads",
    (LINE, "length_mm"): "line length",
    (LINE, "bore_mm"): "line bore",
}
_OTHER_PICTURE = "caliper"
_PISTON_PARTS = (PartKind.CALIPER, PartKind.SLAVE)
# found out with dye, a syringe or the part on the bench: put off behind what a ruler or a
# glance tells, unless it is worth ten times as much (judgement)
_LABORIOUS = frozenset(
    (
        "unswept_ml",
        "volume_ml",
        "volume_home_ml",
        "left_after_draw_ml",
        "port_bore_mm",
        "orifice_mm",
        "drilling_mm",
    )
)
_LABOUR = 10.0

Given = Quantity | tuple[float, ...] | None
Usual = tuple[float, float] | tuple[None, None]


@dataclass(frozen=True, slots=True)
class _Asked:
    """One quantity of the circuit: whose it is, what it is, and what is given."""

    name: str
    kind: str
    spec: QuantitySpec
    given: Given


def questions(bike: Bike, circuit: Circuit, on: date, tables: Tables) -> tuple[Question, ...]:
    """Return every measurable quantity of a circuit as a question.

    First come those that narrow the plan most for the trouble they take, then what else is
    not known, then what is. Parts taken to be alike are asked about once.
    """
    result = _plan(bike, circuit, on, tables)
    per_cent = {one.name: one.per_cent for one in result.narrow} if result else {}
    alike = {one.name: one.also for one in result.assumed} if result else {}
    usual = _usual_in(result) if result else {}
    asked_once = {name for names in alike.values() for name in names}
    found = [
        Question(
            key=f"{circuit.name}/{one.name}",
            also=tuple(f"{circuit.name}/{name}" for name in alike.get(one.name, ())),
            words=one.spec.words,
            measure=one.spec.measure,
            unit=one.spec.unit,
            low=one.spec.low,
            high=one.spec.high,
            usual_low=low,
            usual_high=high,
            picture=_picture(one.kind, one.spec.key),
            per_cent=per_cent.get(one.name, 0.0),
            given=one.given,
        )
        for one in _asked(circuit)
        if one.name not in asked_once
        for low, high in [_usual(bike, circuit, one, usual, tables)]
    ]
    return tuple(sorted(found, key=lambda one: (-_for_its_trouble(one), one.given is not None)))


def _for_its_trouble(question: Question) -> float:
    key = question.key.rpartition("/")[2]
    return question.per_cent / (_LABOUR if key in _LABORIOUS else 1.0)


def _plan(bike: Bike, circuit: Circuit, on: date, tables: Tables) -> FlushPlan | None:
    try:
        return plan(bike, PlanRequest(circuit.name, on), tables)
    except InputError:
        return None


def _asked(circuit: Circuit) -> Iterator[_Asked]:
    for part in circuit.parts:
        if part.kind in _PISTON_PARTS:
            yield _Asked(f"{part.id}/{PISTONS}", part.kind, PISTON_SPEC, part.pistons_mm or None)
        yield from _each(part.id, part.kind, part.given)
        for screw in part.screws:
            yield from _each(f"screw:{screw.id}", SCREW, screw.given)
    for line in circuit.lines:
        yield from _each(f"{line.start} > {line.end}", LINE, line.given)


def _each(owner: str, kind: str, given: Mapping[str, Quantity]) -> Iterator[_Asked]:
    for key in keys_of(kind):
        yield _Asked(f"{owner}/{key}", kind, spec_of(kind, key), given.get(key))


def _picture(kind: str, key: str) -> str:
    if key == "height_mm":
        return "height"
    if key == PISTONS:
        return "pistons"
    return _PICTURES_BY_KEY.get((kind, key)) or _PICTURES.get(kind, _OTHER_PICTURE)


def _usual_in(result: FlushPlan) -> Mapping[str, tuple[float, float, str]]:
    """Return what the plan took for usual, with its unit, by name."""
    return {
        name: (one.low, one.high, one.unit)
        for one in result.assumed
        for name in (one.name, *one.also)
    }


def _usual(
    bike: Bike,
    circuit: Circuit,
    asked: _Asked,
    in_plan: Mapping[str, tuple[float, float, str]],
    tables: Tables,
) -> Usual:
    """Return what such machines usually have, where that is known in the same unit.

    What the plan assumed comes first: of a line only the plan knows which it is.
    """
    low, high, unit = in_plan.get(asked.name, (0.0, 0.0, None))
    if unit is not None:
        return (low, high) if unit == asked.spec.unit else (None, None)
    if asked.kind == LINE:
        return None, None
    return _usual_of_class(bike, circuit, asked, tables)


def _usual_of_class(bike: Bike, circuit: Circuit, asked: _Asked, tables: Tables) -> Usual:
    rows = [
        prior
        for prior in tables.priors()
        if (prior.kind, prior.key) == (asked.kind, asked.spec.key)
        and prior.family in (circuit.family, "any")
        and (not prior.classes or bike.bike_class in prior.classes)
    ]
    if not rows:
        return None, None
    best = max(rows, key=lambda row: _special(row, circuit))
    return best.low, best.high


def _special(row: Prior, circuit: Circuit) -> tuple[bool, bool]:
    return row.family == circuit.family, bool(row.classes)
