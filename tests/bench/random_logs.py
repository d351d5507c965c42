# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Random logs of a job, more often in place than a heap of random events would be."""

from functools import cache
from typing import Any

from hypothesis import strategies as st

from bench.histories import SHEETS, sheet

Document = dict[str, Any]
DEVICES = {"phone": ("a1", "Ada Fenn"), "laptop": ("b2", "Ben Marsh")}
GATE_ANSWERS = ["yes", "yes", "yes", "no", "does not apply", "overridden"]


def event_id(number: int, device: str) -> str:
    return f"019de2b8-{number:04x}-7000-8000-0000000000{DEVICES[device][0]}"


@st.composite
def logs(draw: st.DrawFn, *, undos: bool = True) -> tuple[str, list[Document]]:
    """The name of a sheet, and a log for it in the order of its ids."""
    name = draw(st.sampled_from(SHEETS))
    begun = draw(st.sampled_from([True, True, True, False]))
    deeds = _opened(name) if begun else []
    deeds += draw(st.lists(_deeds(name), max_size=40))
    log: list[Document] = []
    for number, deed in enumerate(deeds):
        device = draw(st.sampled_from(sorted(DEVICES)))
        log.append(_stamped(2 * number, device, deed))
        if undos and draw(st.integers(0, 5)) == 0:
            # an odd number may be an id that nobody ever gave
            target = event_id(
                draw(st.integers(0, 2 * number + 2)), draw(st.sampled_from(sorted(DEVICES)))
            )
            known = draw(st.sampled_from(log))["id"]
            undo = {"kind": "undone", "target": draw(st.sampled_from([known, known, target]))}
            log.append(_stamped(2 * number + 1, device, undo))
    return name, log


def _stamped(number: int, device: str, deed: Document) -> Document:
    at = f"2026-05-01T{9 + number // 60:02d}:{number % 60:02d}:00.000Z"
    return {
        "id": event_id(number, device),
        "at": at,
        "who": DEVICES[device][1],
        "device": device,
        **deed,
    }


def _opened(name: str) -> list[Document]:
    gates = [gate.id for gate in sheet(name).gates if gate.before == "opening"]
    return [
        {"kind": "started", "posture": "level"},
        *({"kind": "gate", "gate": gate, "answer": "yes", "reason": None} for gate in gates),
        {"kind": "topped_up", "to": "max"},
        {"kind": "at_screw", "point": 0},
    ]


def _why(gate: Document) -> Document:
    """A gate is not overridden without a reason; such an event cannot even be read."""
    needs_one = gate["answer"] == "overridden" and gate["reason"] is None
    return {**gate, "reason": "as agreed"} if needs_one else gate


@cache
def _deeds(name: str) -> st.SearchStrategy[Document]:
    at = sheet(name)
    point = st.integers(0, len(at.points) - 1 + (name == "plain"))
    few = st.sampled_from([0, 0, 0, len(at.points) - 1])
    reason = st.sampled_from([None, "as agreed"])
    ml = st.integers(0, 60).map(lambda tenths: tenths / 2.0)
    gates = st.sampled_from([gate.id for gate in at.gates] + ["tyres"])
    count = st.integers(1, 12 if at.unit.name == "stroke" else 90)

    def deed(kind: str, **fields: st.SearchStrategy[Any]) -> st.SearchStrategy[Document]:
        return st.fixed_dictionaries({"kind": st.just(kind), **fields})

    def one_of(*words: Any) -> st.SearchStrategy[Any]:
        return st.sampled_from(words)

    tube = st.fixed_dictionaries(
        dict.fromkeys(
            ("shut_bubbles_go_on", "gravity_bubbles", "after_rest_bubbles"),
            one_of(None, True, False),
        )
    )
    often = [
        deed("set_done", point=few, count=count),
        deed("caught", point=few, ml=ml),
        deed("level_read", above_min_ml=ml),
        deed("topped_up", to=st.one_of(one_of("max", "fill line"), ml)),
        deed("mark", point=few, look=one_of("dark", "bubbles", "clear")),
        deed("shut", point=few, is_done=st.booleans(), reason=reason),
        deed("at_screw", point=few),
        deed("gate", gate=gates, answer=st.sampled_from(GATE_ANSWERS), reason=reason).map(_why),
        deed("ended", end=one_of("ready to roll", "first stop done", "closed"), reason=reason),
        deed(
            "rechecked",
            follow_up=one_of("hot", "next morning"),
            answer=one_of("firm", "soft", "waived"),
            reason=reason,
        ),
    ]
    seldom = [
        deed("started", posture=one_of("level", "side stand")),
        deed("drawn_down"),
        deed(
            "bottle",
            fluid=one_of(at.fluid, "DOT 5"),
            batch=one_of(None, "L-204"),
            opened_on=one_of(None, "2026-04-30"),
        ),
        deed("went_below", what=one_of("min", "port")),
        deed("sample", point=point, ml=ml),
        deed("set_done", point=point, count=count),
        deed("at_screw", point=point),
        deed("tube_test", point=point, answers=tube),
        deed("suction", on=st.booleans()),
        deed("unit_cycled", how=one_of("maker's tool", "workshop", "on the road")),
        deed("paused"),
        deed("resumed"),
        deed("note", text=st.just("a note")),
        deed("photo", name=st.just("screw.jpg")),
        deed("measured", what=st.just("travel"), value=ml, unit=st.just("mm")),
        deed("signed", name=st.just("Ada Fenn")),
        deed("ended", end=st.just("given up"), reason=reason),
        deed("rechecked", follow_up=st.just("chain"), answer=one_of("firm"), reason=reason),
    ]
    return st.one_of(*often, *often, st.one_of(*seldom))
