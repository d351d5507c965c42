# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Rows of the data tables: class priors, fluid grades, techniques, methods."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """Where a number comes from."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common practice"
    FROM_MEMORY = "from memory"
    DERIVED = "derived"
    JUDGEMENT = "judgement"
    STATED = "stated"


class Work(StrEnum):
    """What a job is for."""

    FLUSH = "flush"
    BLEED = "bleed"
    FILL = "fill"


class Method(StrEnum):
    """What moves the fluid."""

    LEVER = "lever"
    VACUUM = "vacuum"
    GRAVITY = "gravity"
    PRESSURE = "pressure"
    REVERSE = "reverse"


class FluidBase(StrEnum):
    """What a fluid is made of, which decides what it may meet."""

    GLYCOL = "glycol ether"
    SILICONE = "silicone"
    MINERAL = "mineral oil"


@dataclass(frozen=True, slots=True)
class Prior:
    """What a quantity usually is, for a family of circuits and classes of machine.

    ``classes`` empty means any class; ``note`` says in words what the row rests on.
    """

    kind: str
    key: str
    family: str
    classes: tuple[str, ...]
    unit: str
    low: float
    high: float
    basis: Basis
    source: str
    note: str


def priors_by_key(priors: Sequence[Prior]) -> Mapping[tuple[str, str], Sequence[Prior]]:
    """Return the rows for each kind of part and quantity."""
    by_key: dict[tuple[str, str], list[Prior]] = {}
    for prior in priors:
        by_key.setdefault((prior.kind, prior.key), []).append(prior)
    return by_key


@dataclass(frozen=True, slots=True)
class FluidGrade:
    """A grade of fluid as its standard sets it.

    Boiling points and viscosities are the limits of the standard (minimum,
    minimum, maximum at -40 degC, minimum at 100 degC); the typical pair at 20 and 100 degC is
    what a new bottle usually has. ``air_held`` is the air dissolved in it at saturation, at
    least and at most, in volumes for one of fluid. None where the standard sets none.
    """

    name: str
    base: FluidBase
    rank: int
    dry_boiling_min_degc: float | None
    wet_boiling_min_degc: float | None
    cold_viscosity_max_mm2_s: float | None
    hot_viscosity_min_mm2_s: float | None
    typical_cold_viscosity_mm2_s: float
    typical_hot_viscosity_mm2_s: float
    density_kg_m3: float
    expansion_1_k: float
    air_held: tuple[float, float]
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True)
class Technique:
    """One way of working a method, with what it delivers and how fast.

    Ranges are 5 and 95 % points. For a lever method ``delivered`` is the share of the
    swept volume that leaves the screw and ``seconds`` the time of one stroke; for the
    others ``drive_kpa`` is the pressure that moves the fluid (gravity: none, the
    height does it). ``works`` are the jobs it makes sense for.
    """

    method: Method
    name: str
    works: tuple[Work, ...]
    delivered: tuple[float, float] | None
    seconds: tuple[float, float] | None
    drive_kpa: tuple[float, float] | None
    back_suction: str
    steps: tuple[str, ...]
    basis: Basis
    source: str
