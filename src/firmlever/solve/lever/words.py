# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a lever test says in plain words, and what it has to leave open."""

from collections.abc import Mapping, Sequence

from firmlever.domain.lever import Held, Pace
from firmlever.domain.quantity import Band

AIR_FOUND_ML = 0.10
"""Air is called found when even the low end of its band is above this (judgement)."""

WHERE_IT_GOES = (
    "Outside or past the cup? Wipe every joint dry, lay paper under each, mark the level, and hold "
    "again for a minute. Wet paper or a lower level: fluid gets out. All dry and the level as it "
    "was: it slips past the cup back into the reservoir."
)

# a steady rate up to this is as little as a hold of a minute can show (judgement)
_OPEN_MM_MIN = 1.5
_LITTLE_ML = 0.15
_LARGE = 0.35
_SPRINGY = 0.5
_TIED = -0.9


def says(air_ml: Band, left_ml: Band | None, parts_m: Mapping[str, float]) -> tuple[str, ...]:
    """Return the findings, most telling first."""
    said = [] if left_ml is None else [_difference(left_ml)]
    said.append(_air(air_ml))
    travel = sum(parts_m.values())
    if parts_m["clearance"] > _LARGE * travel:
        said.append(
            "Long but firm: much of the way is clearance. "
            "Look at the pads, the disc's run-out, the bearings."
        )
    if parts_m["hoses"] + parts_m["pads"] + parts_m["flex"] > _SPRINGY * travel:
        said.append(
            "Springy all the way: hoses, calipers, pads or the lever give more than anything else."
        )
    return tuple(said)


def says_of_holds(holds: Sequence[Held], lever_m_k: float) -> tuple[str, ...]:
    """Return what the holds say; ``lever_m_k`` is what a held lever goes in as fluid cools."""
    if not holds:
        return ()
    said = [_held(one) for one in holds]
    sinking = {one.pace for one in holds if one.sinks}
    if sinking:
        said.append(WHERE_IT_GOES)
    if sinking == {Pace.SLOW} and len(holds) > 1:
        said.append(
            "After a slow pull it sinks, after a quick one that does not show: a worn cup in the "
            "master cylinder does that."
        )
    said.append(
        f"For each degree that the fluid cools the lever goes in by {1e3 * lever_m_k:.1f} mm: let "
        "the brake stand for half an hour before a hold. Warm fluid is thinner and shows a leak "
        "that cold fluid hides."
    )
    return tuple(said)


def _held(one: Held) -> str:
    rate = one.sink_mm_min
    after = f"After a {'quick' if one.pace is Pace.FAST else 'slow'} pull"
    if one.sinks:
        return (
            f"Stop work. {after} the lever sinks steadily by {rate.p50:.1f} mm a minute "
            f"({rate.p05:.1f} to {rate.p95:.1f}): {one.sink_ml_min.p50:.2f} ml of fluid a minute "
            "leave the pressure side. The machine stays where it is until the reason is found."
        )
    if rate.p95 > _OPEN_MM_MIN:
        return (
            f"{after} the lever sinks by up to {rate.p95:.1f} mm a minute or not at all: hold for "
            "longer, once more, or with a finer gauge."
        )
    return (
        f"{after} the lever gives by {one.settled_mm.p50:.1f} mm and comes to rest: creep of "
        f"hoses, pads and seals. At most {rate.p95:.1f} mm a minute of it is steady."
    )


def cannot_tell(air_ml: Band, together: float, sum_ml: Band, parted: bool) -> tuple[str, ...]:
    """Return what these readings leave open; ``parted`` where a pumped or wedged set was read."""
    left_open = []
    if together < _TIED or not parted:
        left_open.append(
            "Air and clearance look alike in these readings; only their sum is known: "
            f"{_band(sum_ml)} ml. A pumped or a wedged set parts them."
        )
    if air_ml.p05 <= AIR_FOUND_ML < air_ml.p95:
        left_open.append(
            "Whether there is air in it at all: the band reaches down to next to none."
        )
    return tuple(left_open)


def _air(air_ml: Band) -> str:
    if air_ml.p05 > AIR_FOUND_ML:
        return f"There is air in it: {_band(air_ml)} ml."
    if air_ml.p95 <= _LITTLE_ML:
        return f"No air to speak of: at most {air_ml.p95:.2f} ml."
    return f"Up to {air_ml.p95:.2f} ml of air may be in it."


def _difference(left_ml: Band) -> str:
    if left_ml.p05 > 0.0:
        return (
            f"{left_ml.p50:.2f} ml of air left the brake ({left_ml.p05:.2f} to {left_ml.p95:.2f})."
        )
    if left_ml.p95 < 0.0:
        return (
            f"{-left_ml.p50:.2f} ml more air is in it than before "
            f"({-left_ml.p95:.2f} to {-left_ml.p05:.2f})."
        )
    return (
        "No difference that these readings can show: "
        f"{left_ml.p05:.2f} to {left_ml.p95:.2f} ml of air left the brake."
    )


def _band(band: Band) -> str:
    return f"{band.p50:.2f} ({band.p05:.2f} to {band.p95:.2f})"
