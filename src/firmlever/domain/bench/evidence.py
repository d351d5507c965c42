# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whether a screw is done, on three things that are looked at together."""

from dataclasses import dataclass
from typing import Literal

from firmlever.domain.bench.facts import Turn
from firmlever.domain.bench.pot import PACES
from firmlever.domain.bench.sheet import JobSheet, SheetPoint
from firmlever.domain.bench.tube import FROM_OUTSIDE
from firmlever.domain.quantity import Band

Says = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, slots=True)
class Evidence:
    """One thing that speaks for or against a screw being done."""

    id: Literal["share", "look", "volume", "bubbles"]
    says: Says


def evidence_at(
    sheet: JobSheet, point: SheetPoint, turn: Turn, out_ml: Band, new_share: Band
) -> tuple[Evidence, ...]:
    """Return what the predicted share, the look and the bubbles say.

    A bleed or a fill is not after new fluid: what has come out and the strokes without a
    bubble say there whether it is done.
    """
    if sheet.work != "flush":
        return (
            Evidence("volume", _volume_says(point.volume_ml, out_ml)),
            Evidence("bubbles", _clean_says(turn, PACES[sheet.unit.name].set)),
        )
    return (
        Evidence("share", _share_says(sheet.target, new_share)),
        Evidence("look", _look_says(turn)),
        Evidence("bubbles", _bubbles_say(turn, PACES[sheet.unit.name].set)),
    )


def is_agreed(evidence: tuple[Evidence, ...]) -> bool:
    """Return whether no two of them contradict each other."""
    said = {one.says for one in evidence}
    return not {"yes", "no"} <= said


def _share_says(target: float, new_share: Band) -> Says:
    if new_share.p05 >= target:
        return "yes"
    return "no" if new_share.p95 < target else "unknown"


def _volume_says(wanted_ml: Band, out_ml: Band) -> Says:
    if out_ml.p05 >= wanted_ml.p50:
        return "yes"
    return "no" if out_ml.p95 < wanted_ml.p50 else "unknown"


def _clean_says(turn: Turn, wanted: int) -> Says:
    """Bubbles that came from outside the circuit do not begin the count anew."""
    is_inside = turn.bubbles_at is not None and turn.tube not in FROM_OUTSIDE
    clean = turn.count - (turn.bubbles_at or 0) if is_inside else turn.count
    if clean >= wanted:
        return "yes"
    return "no" if is_inside else "unknown"


def _look_says(turn: Turn) -> Says:
    if turn.look is None:
        return "unknown"
    return "yes" if turn.look == "clear" else "no"


def _bubbles_say(turn: Turn, lately: int) -> Says:
    seen = turn.bubbles_at is not None and turn.count - turn.bubbles_at < lately
    if seen and turn.tube not in FROM_OUTSIDE:
        return "no"
    return "yes" if turn.count > 0 else "unknown"
