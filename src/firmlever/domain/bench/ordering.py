# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The order of a log, its repeats, and what was taken back."""

from collections.abc import Iterable, Sequence

from firmlever.domain.bench.events import Event, Undone


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return every event once, by id; of two with one id the first given counts."""
    kept: dict[str, Event] = {}
    for event in events:
        kept.setdefault(event.id, event)
    return tuple(kept[event_id] for event_id in sorted(kept))


def taken_back(ordered: Sequence[Event]) -> frozenset[str]:
    """Return the ids that an undo reaches which was not taken back itself."""
    gone: set[str] = set()
    for event in reversed(ordered):
        deed = event.deed
        if isinstance(deed, Undone) and event.id not in gone and deed.target < event.id:
            gone.add(deed.target)
    return frozenset(gone)


def effective(ordered: Sequence[Event]) -> tuple[Event, ...]:
    """Return what counts: all but the undos and what they took back."""
    gone = taken_back(ordered)
    return tuple(
        event for event in ordered if not isinstance(event.deed, Undone) and event.id not in gone
    )
