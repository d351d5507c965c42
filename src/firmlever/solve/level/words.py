# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the looks say, in plain words."""

from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.level import BetweenLooks, LevelVerdict
from firmlever.domain.quantity import Band
from firmlever.solve.level.leak import PERHAPS, is_sure

_WHERE_BRAKE = (
    "look at every joint, nipple, hose and caliper with a dry tissue, and under the boot of "
    "the master cylinder"
)
_WHERE_CLUTCH = (
    "look at the joints, the nipple, the boot of the master cylinder and the hole below the "
    "slave cylinder; it may run into the engine cover unseen"
)
_CLUTCH = (
    "A clutch works the other way: worn plates push its piston home and the level rises, so "
    "wear never explains a level that falls."
)
_MINERAL = "It holds mineral oil: brake fluid in this reservoir ruins the seals."
_FIRST = (
    "A first look is kept. It says nothing of a leak yet: look again on another day, in the "
    "same place and at the same warmth."
)


@dataclass(frozen=True, slots=True)
class Found:
    """What was found, before it is put in words."""

    verdict: LevelVerdict
    left_ml: Band
    would_see_ml: float
    between: tuple[BetweenLooks, ...]
    is_clutch: bool


def verdict_of(
    chance_gone: float, chance_rose: float, between: Sequence[BetweenLooks]
) -> LevelVerdict:
    """Judge the steady loss and, where there are several, each stretch for a sudden one."""
    if is_sure(chance_gone, [one.chance_gone for one in between]):
        return LevelVerdict.GONE
    if is_sure(chance_rose, [one.chance_rose for one in between]):
        return LevelVerdict.ROSE
    if max(chance_gone, chance_rose) > PERHAPS:
        return LevelVerdict.UNCLEAR
    return LevelVerdict.WEAR


def says_of(found: Found | None, *, is_clutch: bool, holds_mineral: bool) -> tuple[str, ...]:
    """Say what was found, the headline first; None is a first look."""
    clutch = (_CLUTCH,) if is_clutch else ()
    mineral = (_MINERAL,) if holds_mineral else ()
    said = (_FIRST,) if found is None else _said(found)
    return (*said, *clutch, *mineral)


def _said(found: Found) -> tuple[str, ...]:
    limit = f"a loss below {found.would_see_ml:.1f} ml can go unseen"
    match found.verdict:
        case LevelVerdict.GONE:
            lead = f"More has gone than wear explains: {_missing(found)}."
            where = _WHERE_CLUTCH if found.is_clutch else _WHERE_BRAKE
            return (lead, f"A leak is likely, unless level or pads were misread: {where}.")
        case LevelVerdict.ROSE:
            risen = _most(found, -1.0)
            lead = f"The level stands higher than wear and warmth allow, by {_ml(risen)}."
            asks = (
                "A top-up was not noted, pistons were pushed home, or something else got in: "
                "ask, and look at the fluid."
            )
            return (lead, asks)
        case LevelVerdict.UNCLEAR:
            lead = f"These looks cannot tell whether anything is missing: {_ml(found.left_ml)}"
            return (f"{lead} is left over, and {limit}.", "Look again soon, with a finer ruler.")
        case _:
            what = "Nothing is missing" if found.is_clutch else "Wear explains it"
            lead = f"{what}: what is left over, {_ml(found.left_ml)}, is within reading error."
            return (lead, f"That is no proof: with such readings {limit}.")


def _missing(found: Found) -> str:
    left = _most(found, 1.0)
    if left is found.left_ml:
        return f"{_ml(left)} missing"
    one = max(found.between, key=lambda stretch: stretch.chance_gone)
    return f"{_ml(left)} missing between {one.start} and {one.end}"


def _most(found: Found, sign: float) -> Band:
    """Return what speaks loudest: the steady change, or the stretch with a sudden one."""
    bands = [found.left_ml, *(one.left_ml for one in found.between)]
    turned = [
        band if sign > 0 else Band(-band.p95, -band.p50, -band.p05)
        for band in bands[: None if len(found.between) > 1 else 1]
    ]
    return max(turned, key=lambda band: band.p50 / max(band.p95 - band.p05, 1e-9))


def _ml(band: Band) -> str:
    return f"{band.p50:.1f} ml ({band.p05:.1f} to {band.p95:.1f})"


def findings_of(verdict: LevelVerdict, says: Sequence[str], above_min_ml: Band) -> tuple[str, ...]:
    """Return what needs a person before the machine moves, or soon."""
    found = []
    if verdict is LevelVerdict.GONE:
        found.append("A leak is likely: find it before the machine moves; do not just top up")
    if verdict is LevelVerdict.ROSE:
        found.append(says[0].rstrip("."))
    if above_min_ml.p50 < 0.0:
        found.append("The level stands below MIN: look at the pads first, then top up")
    return tuple(found)
