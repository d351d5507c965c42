# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What feeds a flush."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, PartKind
from firmlever.solve.network import Network, Pot

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Supply:
    """What the reservoir gives: stirred, topped up to full whenever it is down to low.

    With ``upwards`` a syringe at the screw gives new fluid instead, and the reservoir
    is drawn off as often as it would otherwise be topped up.
    """

    pot: Pot
    upwards: bool = False

    def rows(self, chosen: slice) -> "Supply":
        """Return the same supply for some of the draws."""
        return replace(self, pot=self.pot.rows(chosen))

    @property
    def usable(self) -> Array:
        """Return what one filling gives."""
        return self.pot.full_m3 - self.pot.low_m3

    def refills(self, drawn: Array) -> Array:
        """Return how often it has been topped up after so much was drawn."""
        return np.floor(drawn / _like(self.usable, drawn))

    def level(self, drawn: Array) -> Array:
        """Return what stands in it after so much was drawn, before the last filling."""
        if self.upwards:
            return self.pot.full_m3
        return self.pot.full_m3 - (drawn - self.refills(drawn) * self.usable)

    def old_share(self, drawn: Array) -> Array:
        """Return the share of old fluid in it."""
        pot = self.pot
        if self.upwards:
            return _like(pot.left_old_m3 / pot.full_m3, drawn)
        first, fade = pot.left_old_m3 / pot.full_m3, pot.low_m3 / pot.full_m3
        shares: Array = _like(first, drawn) * _like(fade, drawn) ** self.refills(drawn)
        return shares

    def old(self, drawn: Array) -> Array:
        """Return the old volume it has given after so much was drawn."""
        if self.upwards:
            return np.zeros_like(drawn)
        pot = self.pot
        first, fade = pot.left_old_m3 / pot.full_m3, pot.low_m3 / pot.full_m3
        usable, refills = _like(self.usable, drawn), self.refills(drawn)
        gone: Array = _like(fade, drawn) ** refills
        fillings = usable * (1.0 - gone) / _like(1.0 - fade, drawn)
        return _like(first, drawn) * (fillings + (drawn - refills * usable) * gone)

    def new(self, drawn: Array) -> Array:
        """Return the new volume it has given after so much was drawn."""
        return drawn - self.old(drawn)


def behind_pistons_m3(circuit: Circuit, network: Network) -> Array:
    """Return what stands behind the pistons of all calipers, and comes up when they go home."""
    behind = (
        network.rooms[part.id].gone_home_m3 + network.rooms[part.id].behind_m3
        for part in circuit.of_kind(PartKind.CALIPER)
    )
    return sum(behind, np.zeros_like(network.pot.full_m3))


def fill_to_m3(circuit: Circuit, network: Network) -> Array:
    """Return where the level belongs now, so that new pads do not push it over the brim."""
    pot = network.pot
    worn = behind_pistons_m3(circuit, network)
    return np.clip(pot.full_m3 - worn, pot.low_m3, pot.full_m3)


def _like(column: Array, drawn: Array) -> Array:
    return column[:, None] if drawn.ndim > column.ndim else column
