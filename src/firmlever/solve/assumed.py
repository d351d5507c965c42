# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which quantities were taken from a prior."""

from collections.abc import Sequence

from firmlever.domain.plan import Assumed
from firmlever.solve.inputs import Input


def assumed_of(uncertain: Sequence[Input]) -> tuple[Assumed, ...]:
    """Return the inputs nobody gave, in the order in which they were drawn."""
    return tuple(
        Assumed(
            one.about.name,
            one.about.words,
            one.low,
            one.high,
            one.about.unit,
            one.about.basis,
            one.about.source,
            one.about.also,
        )
        for one in uncertain
        if one.about.from_prior
    )
