# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A run is a pure fold: its sheet and the set of its events, in whatever order they came."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import reduce

from firmlever.domain.bench.events import (
    AtScrew,
    BottleTaken,
    CupRead,
    DrawnDown,
    Ended,
    Event,
    GateAnswered,
    LevelRead,
    Marked,
    Measured,
    Noted,
    Paused,
    PhotoTaken,
    Rechecked,
    Resumed,
    SampleCaught,
    ScrewShut,
    SetDone,
    Signed,
    Started,
    SuctionSet,
    ToppedUp,
    TubeTested,
    UnitCycled,
    WentBelow,
)
from firmlever.domain.bench.facts import (
    Bottle,
    Doubt,
    Facts,
    GateState,
    Measurement,
    Note,
    Photo,
    Reached,
    Recheck,
    Refusal,
    Signature,
    Turn,
    nothing_yet,
)
from firmlever.domain.bench.marks import Seen
from firmlever.domain.bench.ordering import effective, in_order
from firmlever.domain.bench.places import out_of_place
from firmlever.domain.bench.pot import Pot, share_of
from firmlever.domain.bench.readings import Cup, UnitMl, corrected_unit
from firmlever.domain.bench.sheet import JobSheet
from firmlever.domain.bench.tube import verdict


def fold(sheet: JobSheet, events: Iterable[Event]) -> Facts:
    """Return what a log comes to, whatever the order and however often its events came."""
    return reduce(
        lambda facts, event: apply(sheet, facts, event),
        effective(in_order(events)),
        nothing_yet(sheet),
    )


def apply(sheet: JobSheet, facts: Facts, event: Event) -> Facts:
    """Return the facts after one more event; one out of place is listed and changes nothing."""
    why = out_of_place(sheet, facts, event)
    if why is not None:
        return replace(facts, refused=(*facts.refused, Refusal(event.id, why)))
    return _changed(sheet, facts, event)


def cups_for(sheet: JobSheet, facts: Facts, point: int | None) -> tuple[Cup, ...]:
    """Return the cups that tell what a count brings at a screw.

    A stroke brings the same anywhere. What a second brings depends on the screw and on how
    far it is open, so there only its own cup tells.
    """
    if sheet.unit.name == "stroke":
        cups = [turn.cup for turn in facts.turns]
    else:
        cups = [] if point is None else [facts.turns[point].cup]
    return tuple(cup for cup in cups if cup is not None and cup.at > 0)


def unit_at(sheet: JobSheet, facts: Facts, point: int | None) -> UnitMl:
    """Return what a count brings at a screw, by the plan and the cups so far."""
    return corrected_unit(sheet, cups_for(sheet, facts, point))


def _changed(sheet: JobSheet, facts: Facts, event: Event) -> Facts:
    match event.deed:
        case Started(posture):
            return replace(facts, is_started=True, posture=posture, leader=event.device)
        case GateAnswered(gate, answer, reason):
            state = GateState(answer, reason, event.who, event.at)
            return replace(facts, gates={**facts.gates, gate: state})
        case BottleTaken():
            return _bottle_taken(sheet, facts, event.id, event.deed)
        case DrawnDown() | ToppedUp() | LevelRead() | WentBelow():
            return _at_the_pot(sheet, facts, event)
        case AtScrew() | SampleCaught() | SetDone() | CupRead() | Marked():
            return _at_a_screw(sheet, facts, event)
        case TubeTested(point, answers):
            found = verdict(
                answers.shut_bubbles_go_on, answers.gravity_bubbles, answers.after_rest_bubbles
            )
            return _turned(facts, point, replace(facts.turns[point], tube=found))
        case ScrewShut(point, is_done, reason):
            shut = replace(facts.turns[point], is_shut=True, is_done=is_done, reason=reason)
            return _turned(facts, point, shut)
        case SuctionSet(on):
            return replace(facts, suction=on)
        case UnitCycled(how):
            return replace(facts, cycled=(*facts.cycled, how))
        case Paused():
            return replace(facts, is_paused=True)
        case Resumed():
            return replace(facts, is_paused=False, leader=event.device)
        case _:
            return _on_record(facts, event)


def _bottle_taken(sheet: JobSheet, facts: Facts, event_id: str, deed: BottleTaken) -> Facts:
    bottle = Bottle(event_id, deed.fluid, deed.batch, deed.opened_on)
    taken = replace(facts, bottles=(*facts.bottles, bottle))
    if deed.fluid == sheet.fluid:
        return taken
    return replace(taken, doubts=(*facts.doubts, Doubt("other fluid", event_id)))


def _at_the_pot(sheet: JobSheet, facts: Facts, event: Event) -> Facts:
    pot = facts.pot
    match event.deed:
        case DrawnDown():
            # where fluid comes up, an empty reservoir is all room
            empty = pot.filled(1.0) if sheet.direction == "up" else pot.emptied()
            return replace(facts, pot=empty, below=None)
        case ToppedUp(to):
            return replace(facts, pot=pot.filled(share_of(sheet, to)), below=None)
        case LevelRead(above_min_ml):
            return replace(facts, pot=pot.seen(share_of(sheet, above_min_ml)))
        case WentBelow("min"):
            doubts = (*facts.doubts, Doubt("below min", event.id))
            below = facts.below or "min"
            return replace(facts, below=below, doubts=doubts)
        case _:
            return replace(facts, below="port", work="bleed", work_why="level below the port")


def _at_a_screw(sheet: JobSheet, facts: Facts, event: Event) -> Facts:
    match event.deed:
        case AtScrew(point):
            begun = replace(
                facts.turns[point], is_begun=True, is_shut=False, is_done=False, reason=None
            )
            gates = _gates_to_keep(sheet, facts, point)
            pot = _pot_to_keep(sheet, facts, point)
            return _turned(replace(facts, point=point, gates=gates, pot=pot), point, begun)
        case SampleCaught(point, ml):
            turn = facts.turns[point]
            caught = replace(turn, is_begun=True, sample_ml=turn.sample_ml + ml)
            return _turned(facts, point, caught)
        case SetDone(point, count):
            turn = facts.turns[point]
            doubts = facts.doubts
            if facts.pot.share is None:
                doubts = (*doubts, Doubt("not filled", event.id))
            counted = replace(facts, pot=facts.pot.counted(count), doubts=doubts)
            return _turned(counted, point, replace(turn, is_begun=True, count=turn.count + count))
        case CupRead(point, ml):
            return _cup_read(facts, event.id, point, ml)
        case Marked():
            return _marked(facts, event.id, event.deed)
        case _:
            return facts


def _gates_to_keep(sheet: JobSheet, facts: Facts, point: int) -> Mapping[str, GateState]:
    """Opening a shut screw again asks the gates before rolling again."""
    if not facts.turns[point].is_shut:
        return facts.gates
    rolling = {gate.id for gate in sheet.gates if gate.before == "rolling"}
    return {gate: state for gate, state in facts.gates.items() if gate not in rolling}


def _pot_to_keep(sheet: JobSheet, facts: Facts, point: int) -> Pot:
    is_same = facts.point in (None, point) and not facts.turns[point].is_shut
    if is_same or sheet.unit.name == "stroke":
        return facts.pot
    return facts.pot.at_another_screw()


def _cup_read(facts: Facts, event_id: str, point: int, ml: float) -> Facts:
    turn = facts.turns[point]
    if turn.cup is not None and ml < turn.cup.ml and turn.count > turn.cup.at:
        facts = replace(facts, doubts=(*facts.doubts, Doubt("cup fell", event_id)))
    return _turned(facts, point, replace(turn, cup=Cup(ml, turn.sample_ml, turn.count)))


def _marked(facts: Facts, event_id: str, deed: Marked) -> Facts:
    turn = facts.turns[deed.point]
    marked = replace(turn, marks=(*turn.marks, Seen(event_id, deed.look, turn.count)))
    if deed.look == "bubbles":
        return _turned(facts, deed.point, replace(marked, bubbles_at=turn.count))
    return _turned(facts, deed.point, replace(marked, look=deed.look))


def _on_record(facts: Facts, event: Event) -> Facts:
    match event.deed:
        case Noted(text):
            return replace(facts, notes=(*facts.notes, Note(event.id, text)))
        case Measured(what, value, unit):
            measured = Measurement(event.id, what, value, unit)
            return replace(facts, measured=(*facts.measured, measured))
        case PhotoTaken(name):
            return replace(facts, photos=(*facts.photos, Photo(event.id, name)))
        case Ended(end):
            return replace(facts, ended={**facts.ended, end: Reached(event.at, event.who)})
        case Rechecked(follow_up, answer, reason):
            rechecks = {**facts.rechecks, follow_up: Recheck(answer, reason)}
            return replace(facts, rechecks=rechecks)
        case Signed(name):
            return replace(facts, signed=Signature(name, event.at))
        case _:
            return facts


def _turned(facts: Facts, point: int, turn: Turn) -> Facts:
    return replace(facts, turns=(*facts.turns[:point], turn, *facts.turns[point + 1 :]))
