# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The air map of one circuit: places, legs, and where a climbing bubble arrives."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.air import Place, PlaceKind
from firmlever.domain.air_map import AirMap, Froth, Leg, Posture
from firmlever.domain.circuit import Bike, Circuit, PartKind
from firmlever.domain.graph import WHEEL_END
from firmlever.domain.tables import FluidGrade, Prior
from firmlever.physics import bubbles, long_bubbles, rising_bubbles
from firmlever.physics.bubbles import clean_bubble_rise_m_s, dirty_bubble_rise_m_s
from firmlever.physics.long_bubbles import hold_bore_m
from firmlever.solve.air.places import places_of
from firmlever.solve.air.profile import Course, Profile, profile_of
from firmlever.solve.assumed import assumed_of
from firmlever.solve.bands import band
from firmlever.solve.draws import lattice
from firmlever.solve.hydraulics import fluid_at_work
from firmlever.solve.inputs import Inputs
from firmlever.solve.job import twins
from firmlever.units import from_si, to_si

Array = NDArray[np.float64]

DRAWS = 512
_DIMENSIONS = 120
_FROTH_MM = (0.1, 0.3, 1.0)
_FROTH_LAWS = (clean_bubble_rise_m_s, dirty_bubble_rise_m_s)
_RESERVOIR = "reservoir"


@dataclass(frozen=True, slots=True)
class AirCase:
    """What is asked: a circuit in a posture, its fluid, and the priors to draw from."""

    bike: Bike
    circuit: Circuit
    posture: Posture
    grade: FluidGrade
    priors: Mapping[tuple[str, str], Sequence[Prior]]
    on: date
    seed: int


def map_air(case: AirCase, cautions: tuple[str, ...]) -> AirMap:
    """Find where air can rest, and whether it climbs there by itself."""
    circuit = case.circuit
    points = lattice(DRAWS, _DIMENSIONS, case.seed)
    inputs = Inputs(points, case.priors, circuit.family, case.bike.bike_class, twins(circuit))
    fluid = fluid_at_work(case.grade, inputs, None)
    profile = profile_of(circuit, inputs, case.posture, fluid)
    places = places_of(profile)
    hold = hold_bore_m(fluid.density_kg_m3, profile.tension_n_m)
    return AirMap(
        bike=case.bike.name,
        circuit=circuit.name,
        on=case.on,
        posture=case.posture,
        places=places,
        legs=tuple(_legs(profile, places)),
        hold_below_mm=band(from_si(np.asarray(hold), "mm")),
        froth=tuple(_froth(profile, diameter) for diameter in _FROTH_MM),
        assumed=assumed_of(inputs.uncertain),
        cautions=cautions,
        sources=_sources(inputs),
    )


def _legs(profile: Profile, places: Sequence[Place]) -> Iterator[Leg]:
    for course in profile.courses.values():
        for index in range(len(course.at_m) - 1):
            climb = course.climb_m_s(index)
            yield Leg(
                owner=course.name,
                from_mm=_middle_mm(course.at_m[index]),
                to_mm=_middle_mm(course.at_m[index + 1]),
                from_height_mm=band(from_si(course.height_m[index], "mm")),
                to_height_mm=band(from_si(course.height_m[index + 1], "mm")),
                bore_mm=band(from_si(course.bore_m, "mm")),
                held=float(np.mean(climb == 0.0)),
                climb_mm_s=band(from_si(climb, "mm")),
                climbs_to=_climbs_to(profile, course, index, places),
            )


def _middle_mm(length_m: Array) -> float:
    return float(from_si(np.median(length_m), "mm"))


def _climbs_to(profile: Profile, course: Course, leg: int, places: Sequence[Place]) -> str | None:
    """Follow a bubble upwards, by middle heights, to the place where it comes to rest."""
    rise = float(np.median(course.height_m[leg + 1] - course.height_m[leg]))
    if rise == 0.0:
        return None
    here, step = (leg + 1, 1) if rise > 0.0 else (leg, -1)
    while 0 < here < len(course.at_m) - 1:
        if float(np.median(course.height_m[here + step] - course.height_m[here])) <= 0.0:
            return _place_on(course, here, places)
        here += step
    part_id = course.line.end if here else course.line.start
    return _from_part(profile, part_id, course, places)


def _place_on(course: Course, point: int, places: Sequence[Place]) -> str:
    along = course.line.via_mm[point - 1][0]
    for place in places:
        if place.owner == course.name and place.at_mm == along:
            return place.id
    return course.name


def _from_part(profile: Profile, part_id: str, came: Course, places: Sequence[Place]) -> str:
    part = profile.circuit.part(part_id)
    if part.kind is PartKind.RESERVOIR:
        return _RESERVOIR
    if part.kind in WHEEL_END and part.screws:
        return part.screws[0].id
    here = float(np.median(profile.height_m[part_id]))
    for course, near in profile.ends_at(part_id):
        if course is not came and float(np.median(near)) > here:
            leg = 0 if course.line.start == part_id else len(course.at_m) - 2
            found = _climbs_to(profile, course, leg, places)
            return found if found is not None else part_id
    summits = (PlaceKind.HIGH_PART, PlaceKind.DEAD_END)
    for place in places:
        if place.owner == part_id and place.kind in summits:
            return place.id
    return part_id


def _froth(profile: Profile, diameter_mm: float) -> Froth:
    """Time a bubble from the lowest part to the highest, between a clean and a dirty skin."""
    heights = np.array(list(profile.height_m.values()))
    way = heights.max(axis=0) - heights.min(axis=0)
    fluid = (profile.fluid.density_kg_m3, profile.fluid.viscosity_pa_s)
    size = to_si(diameter_mm, "mm")
    times = np.concatenate([np.asarray(way / law(size, *fluid)) for law in _FROTH_LAWS])
    return Froth(diameter_mm, band(from_si(times, "min")))


def _sources(inputs: Inputs) -> tuple[str, ...]:
    keys = {one.about.source for one in inputs.uncertain if one.about.from_prior}
    froth = [model for model in bubbles.MODELS if model.function in _FROTH_LAWS]
    for model in (*long_bubbles.MODELS, *rising_bubbles.MODELS, *froth):
        keys.update(model.sources)
    return tuple(sorted({*keys, "common-practice"}))
