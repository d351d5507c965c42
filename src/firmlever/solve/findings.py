# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What needs a person's attention before or beside the numbers."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from firmlever.domain.beyond import ABS_EMPTIED
from firmlever.domain.circuit import Circuit, PartKind
from firmlever.domain.linked import order_missing
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.tables import Method, Work
from firmlever.solve.job import Job, Turn
from firmlever.solve.simulate import Outcome

# older fluid counts as dirty for a method that pushes it up into the master (judgement)
_CLEAN_FOR_DAYS = 365
# so many draws beyond the laminar law are worth a word (judgement)
_BEYOND_LAMINAR_SHARE = 0.5


def refusal_of(method: Method, circuit: Circuit, on: date, work: Work = Work.FLUSH) -> str | None:
    """Say why work by this method would do harm here, or None if it would not."""
    if method is not Method.REVERSE:
        return None
    if circuit.of_kind(PartKind.MODULATOR):
        return "it pushes what lies in the caliper up into the ABS unit"
    if work is Work.FILL:
        # a dry circuit holds no old fluid that could be pushed up
        return None
    fluid = circuit.fluid
    if fluid.filled is None or fluid.filled_on is None:
        return "nobody knows how old the fluid is, and it would carry its dirt up to the master"
    if (on - fluid.filled_on).days > _CLEAN_FOR_DAYS:
        return "the fluid is over a year old, and it would carry its dirt up to the master"
    return None


def findings_of(job: Job, outcome: Outcome, turns: Sequence[Turn]) -> tuple[str, ...]:
    """Return what is worth a look, most pressing first."""
    return (
        *_surely_beyond(job),
        *_unknown_fluid(job),
        *_order_missing(job),
        *_screws_below_the_top(turns),
        *_beyond_laminar(outcome),
    )


def _surely_beyond(job: Job) -> list[str]:
    return [ABS_EMPTIED] if job.has_modulator and job.request.work is Work.FILL else []


def _order_missing(job: Job) -> list[str]:
    links = order_missing(job.bike, job.circuit)
    if not links:
        return []
    why = "; ".join(links)
    return [
        f"This circuit is linked: {why}. The manual's order is needed: enter it as [[sequence]]"
    ]


def _unknown_fluid(job: Job) -> list[str]:
    if job.circuit.fluid.filled is not None:
        return []
    words = (
        "Nobody knows what fluid is in there: read the cap, look for a swollen diaphragm, and "
        "stop if anything speaks for another kind"
    )
    return [words]


def _screws_below_the_top(turns: Sequence[Turn]) -> list[str]:
    low = [turn.screw.id for turn in turns if _at_least(turn.screw.given.get("above_ml")) > 0.0]
    return [
        f"The screw “{name}” is not the highest place of its chamber: air stays above it unless "
        "the part is turned"
        for name in low
    ]


def _at_least(quantity: Quantity | None) -> float:
    """Return the low end of what is known, zero where nothing is."""
    match quantity:
        case Exact(value):
            return value
        case Between(low, _):
            return low
        case None:
            return 0.0


def _beyond_laminar(outcome: Outcome) -> list[str]:
    share = float(np.max([pace.turbulent for pace in outcome.paces]))
    if share <= _BEYOND_LAMINAR_SHARE:
        return []
    return ["The flow is faster than the laminar law holds for: the minutes are too few"]
