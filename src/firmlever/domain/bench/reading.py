# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Events as JSON values: read strictly, written back the same."""

import re
from collections.abc import Callable, Mapping
from dataclasses import asdict
from datetime import date, datetime
from typing import Any, TypeGuard

from firmlever.domain.bench.events import DEEDS, Deed, Event, TubeAnswers, TubeTested
from firmlever.errors import MalformedEventError, Problem

# says what is allowed, or None where the value will do
Rule = Callable[[object], str | None]

ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
_INSTANT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\.[0-9]{3}Z")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
# half a character, which no file can hold
_SURROGATE = re.compile("[\ud800-\udfff]")
_MOST_POINT = 99
_MOST_COUNT = 5000
_MOST_ML = 5000
_MOST_VALUE = 1e9


def _text(most: int) -> Rule:
    def rule(value: object) -> str | None:
        fits = (
            isinstance(value, str)
            and value.strip() != ""
            and len(value) <= most
            and not _SURROGATE.search(value)
        )
        return None if fits else f"a text of 1 to {most} characters"

    return rule


def _number(low: float, high: float) -> Rule:
    def rule(value: object) -> str | None:
        fits = _is_number(value) and low <= value <= high
        return None if fits else f"a number from {low:g} to {high:g}"

    return rule


def _whole(low: int, high: int) -> Rule:
    def rule(value: object) -> str | None:
        fits = _is_number(value) and low <= value <= high and float(value).is_integer()
        return None if fits else f"a whole number from {low} to {high}"

    return rule


def _is_number(value: object) -> TypeGuard[int | float]:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _one_of(*words: str) -> Rule:
    def rule(value: object) -> str | None:
        fits = isinstance(value, str) and value in words
        return None if fits else f"one of {', '.join(words)}"

    return rule


def _or_null(other: Rule) -> Rule:
    def rule(value: object) -> str | None:
        allowed = None if value is None else other(value)
        return allowed and f"{allowed}, or null"

    return rule


def _yes_no(value: object) -> str | None:
    return None if isinstance(value, bool) else "true or false"


def _id(value: object) -> str | None:
    fits = isinstance(value, str) and ID.fullmatch(value)
    return None if fits else "a UUIDv7 in lower case"


def _instant(value: object) -> str | None:
    allowed = "a time in UTC such as 2026-05-01T09:30:00.000Z"
    if not isinstance(value, str) or not _INSTANT.fullmatch(value):
        return allowed
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return allowed
    return None


def _day(value: object) -> str | None:
    allowed = "a day such as 2026-05-01"
    if not isinstance(value, str) or not _DAY.fullmatch(value):
        return allowed
    try:
        date.fromisoformat(value)
    except ValueError:
        return allowed
    return None


def _level(value: object) -> str | None:
    fits = value in ("max", "fill line") or _ML(value) is None
    return None if fits else f"max, fill line or millilitres above MIN, 0 to {_MOST_ML}"


def _answers(value: object) -> str | None:
    keys = ("shut_bubbles_go_on", "gravity_bubbles", "after_rest_bubbles")
    fits = (
        isinstance(value, dict)
        and set(value) == set(keys)
        and all(one is None or isinstance(one, bool) for one in value.values())
    )
    return None if fits else f"true, false or null for each of {', '.join(keys)}"


_POINT = _whole(0, _MOST_POINT)
_ML = _number(0, _MOST_ML)
_REASON = _or_null(_text(500))
_NAME = _text(60)
_STAMP: Mapping[str, Rule] = {"id": _id, "at": _instant, "who": _NAME, "device": _text(40)}
_RULES: Mapping[str, Mapping[str, Rule]] = {
    "started": {"posture": _one_of("level", "side stand")},
    "gate": {
        "gate": _NAME,
        "answer": _one_of("yes", "no", "does not apply", "overridden"),
        "reason": _REASON,
    },
    "bottle": {"fluid": _NAME, "batch": _or_null(_NAME), "opened_on": _or_null(_day)},
    "drawn_down": {},
    "topped_up": {"to": _level},
    "level_read": {"above_min_ml": _ML},
    "went_below": {"what": _one_of("min", "port")},
    "at_screw": {"point": _POINT},
    "sample": {"point": _POINT, "ml": _ML},
    "set_done": {"point": _POINT, "count": _whole(1, _MOST_COUNT)},
    "caught": {"point": _POINT, "ml": _ML},
    "mark": {"point": _POINT, "look": _one_of("dark", "bubbles", "clear")},
    "suction": {"on": _yes_no},
    "tube_test": {"point": _POINT, "answers": _answers},
    "shut": {"point": _POINT, "is_done": _yes_no, "reason": _REASON},
    "unit_cycled": {"how": _one_of("maker's tool", "workshop", "on the road")},
    "paused": {},
    "resumed": {},
    "note": {"text": _text(500)},
    "measured": {
        "what": _NAME,
        "value": _number(-_MOST_VALUE, _MOST_VALUE),
        "unit": _text(12),
    },
    "photo": {"name": _text(120)},
    "undone": {"target": _id},
    "ended": {
        "end": _one_of("ready to roll", "first stop done", "closed", "given up"),
        "reason": _REASON,
    },
    "rechecked": {
        "follow_up": _NAME,
        "answer": _one_of("firm", "soft", "waived"),
        "reason": _REASON,
    },
    "signed": {"name": _NAME},
}
_WHOLE_KEYS = frozenset({"point", "count"})


def read_event(document: object) -> Event:
    """Return the event a JSON value holds.

    Raises
    ------
    MalformedEventError
        With everything that is wrong with it.
    """
    if not isinstance(document, dict):
        raise MalformedEventError([Problem(0, "event", "not an object", "one object an event")])
    kind = document.get("kind")
    if not isinstance(kind, str) or kind not in _RULES:
        problem = Problem(0, "kind", _found(kind), f"one of {', '.join(_RULES)}")
        raise MalformedEventError([problem])
    rules = _RULES[kind]
    problems = _problems(document, {**_STAMP, **rules})
    if problems:
        raise MalformedEventError(problems)
    stamp = {key: document[key] for key in _STAMP}
    return Event(**stamp, deed=_deed(kind, {key: document[key] for key in rules}))


def _problems(document: Mapping[str, object], rules: Mapping[str, Rule]) -> list[Problem]:
    problems = []
    for key, rule in rules.items():
        if key not in document:
            problems.append(Problem(0, key, "missing", "every key is written"))
        elif allowed := rule(document[key]):
            problems.append(Problem(0, key, _found(document[key]), allowed))
    problems.extend(
        Problem(0, _shown(str(key))[:60], "not a key of this event", "leave it out")
        for key in document
        if key not in rules and key != "kind"
    )
    if document.get("answer") == "overridden" and document.get("reason", "") is None:
        problems.append(Problem(0, "reason", "null", "to override a gate, say why"))
    return problems


def _shown(key: str) -> str:
    return key.encode("utf-8", "backslashreplace").decode()


def _found(value: object) -> str:
    text = "null" if value is None else repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _deed(kind: str, plain: dict[str, Any]) -> Deed:
    for key in _WHOLE_KEYS & plain.keys():
        plain[key] = int(plain[key])
    if DEEDS[kind] is TubeTested:
        plain["answers"] = TubeAnswers(**plain["answers"])
    return DEEDS[kind](**plain)


def event_document(event: Event) -> dict[str, Any]:
    """Return the event as plain JSON values, as it was read."""
    stamp = {"id": event.id, "at": event.at, "who": event.who, "device": event.device}
    return {**stamp, "kind": event.kind, **asdict(event.deed)}
