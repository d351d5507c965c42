# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where a bleed or a fill ends and a workshop begins, as data.

Common practice, no source, in our own words. What surely applies to a job is a finding too.
"""

from dataclasses import dataclass
from enum import StrEnum


class Condition(StrEnum):
    """When a limit belongs to a job."""

    ABS_EMPTIED = "an emptied ABS unit"
    ABS_MAY_EMPTY = "an ABS unit that may run empty"
    ORDER_UNKNOWN = "a linked system without the manual's order"
    FLUID_UNKNOWN = "fluid of unknown kind"
    ANY = "any job"


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit: a name for it, when it applies, and the words."""

    id: str
    applies: Condition
    words: str


ABS_EMPTIED = (
    "The ABS unit is filled dry: without the maker's tool air can stay behind its valves. Have "
    "the tool at hand, or stop here and leave it to a workshop."
)

LIMITS: tuple[Limit, ...] = (
    Limit("abs emptied", Condition.ABS_EMPTIED, ABS_EMPTIED),
    Limit(
        "abs may empty",
        Condition.ABS_MAY_EMPTY,
        "If the ABS unit was ever run empty: stop, unless the maker's tool is at hand to work its "
        "valves.",
    ),
    Limit(
        "order unknown",
        Condition.ORDER_UNKNOWN,
        "If it turns out to be linked with another circuit in a way the file does not show: stop. "
        "The manual's order is needed.",
    ),
    Limit(
        "fluid unknown",
        Condition.FLUID_UNKNOWN,
        "If nobody can tell what kind of fluid was in it: stop. Rubber that met the wrong kind is "
        "renewed, not filled.",
    ),
    Limit(
        "seized screw",
        Condition.ANY,
        "If a screw does not turn with a short six-point ring spanner: stop before it rounds or "
        "snaps, and before the reservoir is opened.",
    ),
    Limit(
        "gel or rust",
        Condition.ANY,
        "If gel, sludge, crystals or rust come out: stop. That is stripped and cleaned, not "
        "flushed out.",
    ),
)


def conditions_of(
    *, emptied: bool, has_modulator: bool, linked: bool, fluid_known: bool
) -> frozenset[Condition]:
    """Return the conditions of a job."""
    found = {Condition.ANY}
    if has_modulator:
        found.add(Condition.ABS_EMPTIED if emptied else Condition.ABS_MAY_EMPTY)
    if linked:
        found.add(Condition.ORDER_UNKNOWN)
    if not fluid_known:
        found.add(Condition.FLUID_UNKNOWN)
    return frozenset(found)


def beyond_for(conditions: frozenset[Condition]) -> tuple[str, ...]:
    """Return when to stop and hand over, most pressing first.

    >>> beyond_for(frozenset({Condition.ANY}))[1][:12]
    'If gel, slud'
    """
    return tuple(limit.words for limit in LIMITS if limit.applies in conditions)
