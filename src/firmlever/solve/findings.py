# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What needs a person's attention before or beside the numbers."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from firmlever.domain.circuit import Circuit, PartKind
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.tables import Method
from firmlever.solve.job import Job, Turn
from firmlever.solve.simulate import Outcome

# older fluid counts as dirty for a method that pushes it up into the master (judgement)
_CLEAN_FOR_DAYS = 365
# so many draws beyond the laminar law are worth a word (judgement)
_BEYOND_LAMINAR_SHARE = 0.5


def refusal_of(method: Method, circuit: Circuit, on: date) -> str | None:
    """Say why a flush by this method would do harm here, or None if it would not."""
    if method is not Method.REVERSE:
        return None
    if circuit.of_kind(PartKind.MODULATOR):
        return "it pushes what lies in the caliper up into the ABS unit"
    fluid = circuit.fluid
    if fluid.filled is None or fluid.filled_on is None:
        return "nobody knows how old the fluid is, and it would carry its dirt up to the master"
    if (on - fluid.filled_on).days > _CLEAN_FOR_DAYS:
        return "the fluid is over a year old, and it would carry its dirt up to the master"
    return None


def findings_of(job: Job, outcome: Outcome, turns: Sequence[Turn]) -> tuple[str, ...]:
    """Return what is worth a look, most pressing first."""
    return (
        *_unknown_fluid(job),
        *_screws_below_the_top(turns),
        *_beyond_laminar(outcome),
    )


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
