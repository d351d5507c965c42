# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What each kind of place is, and what to do about it, in words for the bench.

Common practice, no source. None of it goes before the machine's manual.
"""

from firmlever.domain.air import PlaceKind

_WORDS = {
    PlaceKind.PEAK: "The line {owner} falls away on both sides here.",
    PlaceKind.BANJO: "The line {owner} leaves the master cylinder over a hump.",
    PlaceKind.HIGH_PART: "The {owner} stands above all that joins it and has no screw.",
    PlaceKind.DEAD_END: "The {owner} points up and nothing flows through it.",
    PlaceKind.ABOVE_SCREW: "The chamber of the {owner} reaches above its screw.",
    PlaceKind.LEVEL: "The line {owner} lies level here and does not empty itself of air.",
    PlaceKind.UNSWEPT: "The flow passes by part of the {owner}.",
}
_NOT_LOOKED_AT = {
    PlaceKind.ABOVE_SCREW: "Nobody has said whether the screw of the {owner} is its highest point: "
    "look, and enter above_ml = 0 if it is.",
}
_REMEDIES = {
    PlaceKind.PEAK: "Carry it over with brisk full strokes, or hold the line so that it rises "
    "all the way; else fill from below where that is allowed.",
    PlaceKind.BANJO: "Turn the bars or lift the master cylinder until the hump is gone, tap, and "
    "make short strokes; else crack the joint under light pressure, close it before release.",
    PlaceKind.HIGH_PART: "Lower it below its neighbours if its lines allow, or crack its upper "
    "joint under light pressure, close it before release.",
    PlaceKind.DEAD_END: "Tilt it down so that its end is lowest, tap, then bleed on; else loosen "
    "it under light pressure.",
    PlaceKind.ABOVE_SCREW: "Take the part off and turn it until the screw is its summit; a caliper "
    "with a spacer of the disc's thickness between its pads.",
    PlaceKind.LEVEL: "Tilt the line while fluid moves, or carry the air on with brisk strokes.",
    PlaceKind.UNSWEPT: "Strokes alone do not reach it. Cycle the unit as the manual says, then "
    "bleed again; if air got in, the maker's tool may be needed.",
}


def words_of(kind: PlaceKind, owner: str, is_known: bool) -> str:
    """Say what a place is, and that nobody has looked where that is so."""
    words = _WORDS if is_known else _NOT_LOOKED_AT
    return words[kind].format(owner=owner)


def remedy_of(kind: PlaceKind, owner: str) -> str:
    """Say what to do where air sits there."""
    return _REMEDIES[kind].format(owner=owner)
