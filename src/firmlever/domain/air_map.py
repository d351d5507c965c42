# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where air can rest in one circuit and whether it climbs, in one posture."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from firmlever.domain.air import Place
from firmlever.domain.plan import Assumed
from firmlever.domain.quantity import Band


@dataclass(frozen=True, slots=True)
class Posture:
    """How a machine stands other than upright with its bars straight.

    Angles are positive to the left. ``lifted_mm`` moves parts up (or down, below zero);
    ``screw_up`` names parts that hang free, turned so that their screw is their summit.
    """

    bars_deg: float = 0.0
    lean_deg: float = 0.0
    lifted_mm: Mapping[str, float] = field(default_factory=dict)
    screw_up: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AirRequest:
    """What somebody asks for: the day and the posture."""

    on: date
    posture: Posture = field(default_factory=Posture)
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch of a line between two turning points, from the reservoir's side on.

    ``held`` is the probability that a bubble which fills the bore stays where it is in
    fluid at rest, ``climb_mm_s`` how fast it climbs, nought where it is held.
    ``climbs_to`` names the place, the screw or the reservoir at which a climbing bubble
    arrives; None where the leg is level.
    """

    owner: str
    from_mm: float
    to_mm: float
    from_height_mm: Band
    to_height_mm: Band
    bore_mm: Band
    held: float
    climb_mm_s: Band
    climbs_to: str | None


@dataclass(frozen=True, slots=True)
class Froth:
    """How long a small bubble takes from the lowest part to the highest (minutes)."""

    diameter_mm: float
    minutes: Band


@dataclass(frozen=True, slots=True)
class AirMap:
    """Every place of a circuit at which air can rest, in one posture.

    ``hold_below_mm`` is the bore under which a long bubble stays put in fluid at rest.
    """

    bike: str
    circuit: str
    on: date
    posture: Posture
    places: tuple[Place, ...]
    legs: tuple[Leg, ...]
    hold_below_mm: Band
    froth: tuple[Froth, ...]
    assumed: tuple[Assumed, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
