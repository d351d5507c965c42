# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The places of a profile at which a bubble stays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.air import Place, PlaceKind
from firmlever.domain.circuit import Part, PartKind, Screw
from firmlever.domain.graph import screws_in
from firmlever.solve.air.profile import Course, Profile
from firmlever.solve.air.words import remedy_of, words_of
from firmlever.solve.bands import band
from firmlever.solve.network import screw_owner
from firmlever.units import from_si, to_si

Array = NDArray[np.float64]

# a peak so near the master cylinder is at its banjo (judgement)
_BANJO_WITHIN_MM = 60.0
# a leg that rises by less over its length is level; a stroke fills a shorter one (judgement)
_LEVEL_SLOPE = 0.05
_LEVEL_FROM_MM = 60.0
# so much air above a screw is worth a word (judgement)
_WORTH_ML = 0.1
# what a chamber keeps above a screw that lies below its inlet (judgement)
_ABOVE_LOW_SCREW = 0.5
# places less likely than this are not told (judgement)
_LEAST_LIKELY = 0.05
_POCKETED = (PartKind.MODULATOR, PartKind.SECONDARY_MASTER)
_WITH_VOLUME = (
    PartKind.MODULATOR,
    PartKind.SECONDARY_MASTER,
    PartKind.SPLITTER,
    PartKind.VALVE,
    PartKind.ANTI_DIVE,
    PartKind.DEAD_END,
)


@dataclass(frozen=True, slots=True)
class Found:
    """A place in all draws: whether air stays, how much fits (m3), and how high it is.

    ``is_known`` is false where only what is usual speaks for it.
    """

    id: str
    kind: PlaceKind
    owner: str
    at_mm: float | None
    height_m: Array
    stays: NDArray[np.bool_]
    holds_m3: Array
    is_known: bool = True


def places_of(profile: Profile) -> tuple[Place, ...]:
    """Return the places that are likely enough, highest first."""
    told = [_told(one) for one in _found_in(profile) if np.mean(one.stays) >= _LEAST_LIKELY]
    return tuple(sorted(told, key=lambda place: -place.height_mm.p50))


def _found_in(profile: Profile) -> tuple[Found, ...]:
    """Return every place at which air might stay, likely or not."""
    return (
        *(one for course in profile.courses.values() for one in _along(profile, course)),
        *(one for part in profile.circuit.parts for one in _in_part(profile, part)),
        *(_above(profile, part, screw) for part, screw in screws_in(profile.circuit)),
    )


def _told(one: Found) -> Place:
    return Place(
        id=one.id,
        kind=one.kind,
        owner=one.owner,
        at_mm=one.at_mm,
        height_mm=band(from_si(one.height_m, "mm")),
        holds_ml=band(from_si(one.holds_m3[one.stays], "ml")),
        likely=float(np.mean(one.stays)),
        words=words_of(one.kind, one.owner, one.is_known),
        remedy=remedy_of(one.kind, one.owner),
    )


def _along(profile: Profile, course: Course) -> Iterator[Found]:
    for index, (along_mm, _) in enumerate(course.line.via_mm, start=1):
        here = course.height_m[index]
        stays = (here > course.height_m[index - 1]) & (here > course.height_m[index + 1])
        at_master = (
            profile.circuit.part(course.line.start).kind is PartKind.MASTER
            and along_mm <= _BANJO_WITHIN_MM
        )
        kind = PlaceKind.BANJO if at_master else PlaceKind.PEAK
        name = f"{kind.value}, {course.name} at {along_mm:g} mm"
        holds = _basin_m3([(course, index)])
        yield Found(name, kind, course.name, along_mm, here, stays, holds)
    for leg in range(len(course.at_m) - 1):
        yield _level(course, leg)


def _level(course: Course, leg: int) -> Found:
    """A leg that hardly rises and does not let its bubble go, though upright it would."""
    upright = course.upright_m_s
    still = (upright > 0.0) & (course.climb_m_s(leg) <= _LEVEL_SLOPE * upright)
    is_level = np.abs(course.slope(leg)) < _LEVEL_SLOPE
    stays = is_level & still & (course.length_m(leg) > to_si(_LEVEL_FROM_MM, "mm"))
    start_mm = float(from_si(np.median(course.at_m[leg]), "mm"))
    holds = _area_m2(course) * course.length_m(leg)
    name = f"{PlaceKind.LEVEL.value}, {course.name} from {start_mm:.0f} mm"
    return Found(name, PlaceKind.LEVEL, course.name, start_mm, course.height_m[leg], stays, holds)


def _in_part(profile: Profile, part: Part) -> Iterator[Found]:
    inputs, here = profile.inputs, profile.height_m[part.id]
    if part.kind in _POCKETED:
        pocket = inputs.either(part.id, part.kind, "unswept_ml", part.given)
        always = np.ones_like(here, dtype=bool)
        yield Found(f"pocket of {part.id}", PlaceKind.UNSWEPT, part.id, None, here, always, pocket)
    # at rest a master cylinder lets its air out by the port
    is_vented = part.kind in (PartKind.RESERVOIR, PartKind.MASTER) or bool(part.screws)
    near = profile.ends_at(part.id)
    if is_vented or not near:
        return
    stays = np.all([here > height for _, height in near], axis=0)
    kind = PlaceKind.DEAD_END if part.kind is PartKind.DEAD_END else PlaceKind.HIGH_PART
    holds = np.zeros_like(here)
    if part.kind in _WITH_VOLUME:
        holds = holds + inputs.either(part.id, part.kind, "volume_ml", part.given)
    ends = [(one, 0 if one.line.start == part.id else len(one.at_m) - 1) for one, _ in near]
    holds = holds + _basin_m3(ends)
    yield Found(f"{kind.value}, {part.id}", kind, part.id, None, here, stays, holds)


def _above(profile: Profile, part: Part, screw: Screw) -> Found:
    inputs, height = profile.inputs, profile.screw_height_m(part, screw)
    above = inputs.either(screw_owner(screw), "screw", "above_ml", screw.given)
    if part.id in profile.posture.screw_up:
        above = np.zeros_like(above)
    elif "volume_ml" in part.given:
        volume = inputs.given(part.id, part.kind, "volume_ml", part.given["volume_ml"])
        is_low = height < profile.height_m[part.id]
        above = np.where(is_low, np.maximum(above, _ABOVE_LOW_SCREW * volume), above)
    stays = above > to_si(_WORTH_ML, "ml")
    name = f"above the screw of {screw.id}"
    is_known = "above_ml" in screw.given or "height_mm" in screw.given
    return Found(name, PlaceKind.ABOVE_SCREW, part.id, None, height, stays, above, is_known)


def _area_m2(course: Course) -> Array:
    return np.pi / 4.0 * course.bore_m**2


def _basin_m3(points: Sequence[tuple[Course, int]]) -> Array:
    """Return what of the lines that meet at a height lies above the spill height (m3).

    Gas spreads down every way until it reaches the highest of the low points.
    """
    sides = [
        (course, *_falling(course, point, step))
        for course, point in points
        for step in (-1, 1)
        if 0 <= point + step < len(course.at_m)
    ]
    spill: Array = np.max([low for _, low, _ in sides], axis=0)
    volume: Array = np.zeros_like(spill)
    for course, _, legs in sides:
        for leg, falls in legs:
            top = np.maximum(course.height_m[leg], course.height_m[leg + 1])
            low = np.minimum(course.height_m[leg], course.height_m[leg + 1])
            share = (top - spill) / np.maximum(top - low, to_si(1.0, "mm"))
            held = falls * np.clip(share, 0.0, 1.0) * course.length_m(leg)
            volume = volume + _area_m2(course) * held
    return volume


def _falling(course: Course, peak: int, step: int) -> tuple[Array, Sequence[tuple[int, Array]]]:
    """Return the low point on one side of a peak, and the legs that fall to it."""
    low, falls = course.height_m[peak], np.ones_like(course.bore_m, dtype=bool)
    legs = []
    here = peak
    while 0 <= here + step < len(course.at_m):
        after = course.height_m[here + step]
        falls = falls & (after < course.height_m[here])
        low = np.where(falls, after, low)
        legs.append((min(here, here + step), falls.astype(float)))
        here += step
    return low, legs
