# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where air can rest, as a page to read at the bench."""

from firmlever.domain.air import Place
from firmlever.domain.air_map import AirMap, Leg, Posture
from firmlever.report import grounds_text as grounds
from firmlever.report.figures import band_range, plain
from firmlever.report.layout import Line, Page, Role, columns, heading, paragraph
from firmlever.report.words import Speaker, WordSet

_HEAD = ("line", "from", "to", "holds its bubble", "climbs", "to there")
# what climbs more slowly is not seen to climb (judgement)
_SLOWEST_MM_S = 0.01


def air_page(found: AirMap, words: WordSet = WordSet.UK) -> Page:
    """Lay out the map: the posture, the places, the legs, froth, the grounds."""
    names = {leg.owner for leg in found.legs} | {place.owner for place in found.places}
    say = Speaker(words, keep={found.bike, found.circuit, *names})
    title = f"{found.bike}, {found.circuit} circuit: where air can rest"
    stands = f"{found.on.isoformat()}. {_posture(found.posture)}. Bands 5 to 95 %."
    return (
        *paragraph(title, role=Role.TITLE),
        *paragraph(stands, role=Role.FAINT),
        Line(),
        *paragraph(say(_headline(found)), role=Role.HEADLINE),
        *(line for place in found.places for line in _place(place, say)),
        *_legs(found, say),
        *_froth(found),
        *grounds.assumed(found.assumed, say),
        *grounds.sources(found.sources),
        *grounds.cautions(found.cautions, say),
    )


def _headline(found: AirMap) -> str:
    if not found.places:
        return "No place found at which air would rest in this posture."
    noun = "place" if len(found.places) == 1 else "places"
    return f"{len(found.places)} {noun} at which air can rest, highest first."


def _posture(posture: Posture) -> str:
    told = [
        _turned("bars turned", posture.bars_deg),
        _turned("leaned", posture.lean_deg),
        *(f"{part} lifted {plain(mm)} mm" for part, mm in posture.lifted_mm.items()),
        *(f"{part} off, its screw on top" for part in posture.screw_up),
    ]
    said = ", ".join(words for words in told if words)
    return said[0].upper() + said[1:] if said else "Upright, bars straight"


def _turned(how: str, degrees: float) -> str:
    if not degrees:
        return ""
    return f"{how} {plain(abs(degrees))}° to the {'left' if degrees > 0 else 'right'}"


def _place(place: Place, say: Speaker) -> Page:
    name = say(place.id[0].upper() + place.id[1:])
    figures = (
        f"{place.likely:.0%} likely to stay there, room for {band_range(place.holds_ml)} ml, "
        f"{place.height_mm.p50:.0f} mm above the ground."
    )
    return (
        Line(),
        *paragraph(name, role=Role.HEADING),
        *paragraph(f"{say(place.words)} {figures}", "  "),
        *paragraph(say(place.remedy), "  "),
    )


def _legs(found: AirMap, say: Speaker) -> Page:
    rows = [_HEAD, *(_leg(leg, say) for leg in found.legs)]
    limit = (
        f"In fluid at rest a bore below {band_range(found.hold_below_mm)} mm holds a bubble "
        "that fills it: there it goes only with the fluid."
    )
    return (
        *heading("Along the lines"),
        *paragraph(say(limit), "  "),
        *(Line(f"  {text}") for text in columns(rows, right=(1, 2, 3, 4))),
    )


def _leg(leg: Leg, say: Speaker) -> tuple[str, ...]:
    return (
        leg.owner,
        f"{leg.from_mm:.0f}",
        f"{leg.to_mm:.0f} mm",
        f"{leg.held:.0%}",
        _climb(leg),
        say(leg.climbs_to or "level"),
    )


def _climb(leg: Leg) -> str:
    if leg.climb_mm_s.p95 < _SLOWEST_MM_S:
        return "hardly" if leg.held < 1.0 else "-"
    return f"{band_range(leg.climb_mm_s)} mm/s"


def _froth(found: AirMap) -> Page:
    told = "; ".join(
        f"{plain(one.diameter_mm)} mm {band_range(one.minutes)}" for one in found.froth
    )
    words = f"Minutes that small bubbles need from the lowest part to the highest: {told}."
    return (*heading("Froth"), *paragraph(words, "  "))
