# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the judgement of a level rests on, and what would narrow it."""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.level import LevelLook
from firmlever.domain.plan import Assumed, Narrow
from firmlever.domain.tables import Basis
from firmlever.physics import fluid, wear
from firmlever.solve.assumed import assumed_of
from firmlever.solve.inputs import Inputs
from firmlever.solve.level.slips import Slips
from firmlever.solve.level.story import LEVELS, TOPPED, WARMTH
from firmlever.solve.level.wear import DISCS, PADS, UNREAD, UNREAD_PADS
from firmlever.solve.narrow import first_order_shares

Array = NDArray[np.float64]

_AT_LEAST, _MOST = 1.0, 8
_JUDGEMENT = "judgement"
# what was read: what it is called, and how to read it better
_READ: Mapping[str, tuple[str, str]] = {
    LEVELS: ("level of the fluid", "the same eye height each time, a finer ruler (--ruler)"),
    PADS: ("thickness of the pads", "a finer gauge (--gauge), both pads of each caliper"),
    DISCS: ("thickness of the discs", "a micrometer"),
    TOPPED: ("what was topped up", "a syringe"),
    WARMTH: ("temperature at each look", "a thermometer and a column degc"),
    UNREAD_PADS: ("pads that were not read", "a column pad_mm for each caliper"),
}


def assumed(inputs: Inputs, looks: Sequence[LevelLook], slips: Slips) -> tuple[Assumed, ...]:
    """Return what nobody gave: priors, the warmth at a look, pads that were not read."""
    found = list(assumed_of(inputs.uncertain))
    if any(look.degc is None for look in looks):
        row = inputs.row("work", "workshop_degc")
        words = _READ[WARMTH][0]
        found.append(
            Assumed("looks/degc", words, row.low, row.high, row.unit, row.basis, row.source)
        )
    if UNREAD_PADS in slips.columns:
        low, high = UNREAD
        words = "wear of the pads that were not read, in terms of those that were"
        found.append(Assumed("looks/pad_mm", words, low, high, "", Basis.JUDGEMENT, _JUDGEMENT))
    return tuple(found)


def narrow(result: Array, inputs: Inputs, slips: Slips) -> tuple[Narrow, ...]:
    """Return the readings and measurements that would narrow a result, best first."""
    columns = [one.u for one in inputs.uncertain]
    shares = first_order_shares(result, columns)
    found: dict[str, Narrow] = {}
    for one, share in zip(inputs.uncertain, shares, strict=True):
        about, before = one.about, found.get(one.about.name)
        if about.measure:
            per_cent = 100.0 * share + (before.per_cent if before else 0.0)
            found[about.name] = Narrow(about.name, about.asks, about.measure, per_cent, about.also)
    for name, read in slips.columns.items():
        words, measure = _READ[name]
        per_cent = 100.0 * sum(first_order_shares(result, read))
        found[name] = Narrow(f"looks/{name}", words, measure, per_cent)
    ranked = sorted(found.values(), key=lambda one: -one.per_cent)
    return tuple([one for one in ranked if one.per_cent >= _AT_LEAST][:_MOST])


def sources(inputs: Inputs) -> tuple[str, ...]:
    """Return the keys of the references, in alphabetical order."""
    keys = {_JUDGEMENT}
    for one in inputs.uncertain:
        if one.about.from_prior:
            keys.update(word.strip() for word in one.about.source.split(";"))
    models = [one for one in fluid.MODELS if one.function is fluid.expansion_volume_m3]
    keys.update(source for model in (*wear.MODELS, *models) for source in model.sources)
    return tuple(sorted(keys))
