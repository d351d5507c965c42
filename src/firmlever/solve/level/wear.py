# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the calipers have drawn from the reservoir since the first look."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, Layout, Part, PartKind
from firmlever.domain.level import LevelLook
from firmlever.physics import wear
from firmlever.solve.inputs import Inputs
from firmlever.solve.level.slips import Slips
from firmlever.solve.network import layout_of, piston_area_m2
from firmlever.units import to_si

Array = NDArray[np.float64]

PADS, DISCS, UNREAD_PADS = "pads", "discs", "unread pads"
# nine in ten readings of a micrometer or calliper on a disc keep to this (judgement)
_DISC_ERROR_MM = 0.05
# wear of pads nobody read, as a multiple of those that were: 5 and 95 % (judgement)
UNREAD = (0.7, 1.3)
_DAYS_A_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class Worn:
    """Wear of one caliper at each look since the first, one row a draw (m).

    ``thin_m`` is what is left on the thinnest pad.
    """

    near_m: Array
    far_m: Array
    disc_m: Array
    thin_m: Array


def worn_of(
    circuit: Circuit, looks: Sequence[LevelLook], inputs: Inputs, slips: Slips, gauge_mm: float
) -> Mapping[str, Worn]:
    """Return the wear of each caliper; one that was never read wears like the others."""
    calipers = circuit.of_kind(PartKind.CALIPER)
    read = {}
    for part in calipers:
        if part.id in looks[0].pads:
            layout = layout_of(part, inputs.bike_class, circuit.family)
            read[part.id] = _read(part, layout, looks, inputs, slips, gauge_mm)
    return {part.id: read[part.id] if part.id in read else _like(read, slips) for part in calipers}


def drawn_m3(
    circuit: Circuit, looks: Sequence[LevelLook], worn: Mapping[str, Worn], inputs: Inputs
) -> Array:
    """Return what wear has drawn by each look since the first (m3).

    A clutch gives back instead.
    """
    total = np.zeros((inputs.count, len(looks)))
    for part in circuit.of_kind(PartKind.CALIPER):
        layout = layout_of(part, inputs.bike_class, circuit.family)
        law = wear.opposed_drawn_m3 if layout is Layout.OPPOSED else wear.floating_drawn_m3
        one = worn[part.id]
        area = piston_area_m2(part, layout, inputs)[:, None]
        total = total + law(area, one.near_m, one.far_m, one.disc_m)
    years = np.array([(look.on - looks[0].on).days for look in looks]) / _DAYS_A_YEAR
    for part in circuit.of_kind(PartKind.SLAVE):
        area = piston_area_m2(part, Layout.FLOATING, inputs)[:, None]
        home = inputs.prior(part.id, part.kind, "pushed_home_mm")[:, None] * years
        total = total - wear.clutch_returned_m3(area, home)
    return total


def _read(
    part: Part,
    layout: Layout,
    looks: Sequence[LevelLook],
    inputs: Inputs,
    slips: Slips,
    gauge_mm: float,
) -> Worn:
    gauge_m = to_si(gauge_mm, "mm")
    thin = np.column_stack(
        [to_si(look.pads[part.id].thin_mm, "mm") + gauge_m * slips.normal(PADS) for look in looks]
    )
    others = [look.pads[part.id].other_mm for look in looks]
    if all(other is not None for other in others):
        far = np.column_stack(
            [to_si(other, "mm") + gauge_m * slips.normal(PADS) for other in others if other]
        )
        far_worn = far[:, :1] - far
    else:
        share = inputs.prior(part.id, part.kind, f"other_pad_share_{layout}")[:, None]
        far_worn = share * (thin[:, :1] - thin)
    near_worn = thin[:, :1] - thin
    disc = _disc(part, looks, inputs, slips, (near_worn + far_worn) / 2.0)
    return Worn(near_worn, far_worn, disc, thin)


def _disc(
    part: Part, looks: Sequence[LevelLook], inputs: Inputs, slips: Slips, pads_worn: Array
) -> Array:
    sizes = [look.discs_mm.get(part.id) for look in looks]
    known = [size for size in sizes if size is not None]
    if len(known) == len(looks):
        error_m = to_si(_DISC_ERROR_MM, "mm")
        disc = np.column_stack(
            [to_si(size, "mm") + error_m * slips.normal(DISCS) for size in known]
        )
        return disc[:, :1] - disc
    share = inputs.prior(part.id, part.kind, "disc_worn_share")[:, None]
    steps = np.diff(pads_worn, axis=1, prepend=0.0)
    # new pads are no wear: the disc does not grow
    changed = np.array([look.new_pads for look in looks])
    worn: Array = share * np.cumsum(np.where(changed, 0.0, steps), axis=1)
    return worn


def _like(read: Mapping[str, Worn], slips: Slips) -> Worn:
    low, high = UNREAD
    factor = ((low + high) / 2.0 + (high - low) / 2.0 * slips.normal(UNREAD_PADS))[:, None]
    others = list(read.values())
    near, far, disc, thin = (
        np.mean([getattr(one, name) for one in others], axis=0)
        for name in ("near_m", "far_m", "disc_m", "thin_m")
    )
    return Worn(factor * near, factor * far, factor * disc, thin)
