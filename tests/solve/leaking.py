# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Invented machines that wear and leak, and the looks a person takes at them.

The generator is not the model that judges: pots taper, inner and outer pads wear at rates of
their own, pistons come to rest a little differently each time, readings are rounded, and a leak
may start half way. The plates of a clutch wear by fits and starts and push its piston home. All
figures here are invented.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.level import (
    LevelLook,
    LevelMeasure,
    LevelReport,
    LevelRequest,
    LevelVerdict,
    PadReading,
)
from firmlever.services.levelling import judge
from solve.machines import WORKSHOP, outline, tourer

Array = NDArray[np.float64]

FIRST = date(2025, 10, 1)
DAYS = 182
_NEW_MM = 4.8


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of machine: its circuit as described, and the truth it is drawn from.

    ``area_cm2`` is that of all pistons of one caliper or slave cylinder, low and high where
    nobody measured; ``leaks_ml`` are those it is tried with.
    """

    name: str
    bike: Bike
    circuit: Circuit
    opposed: bool
    area_cm2: tuple[float, float]
    max_ml: tuple[float, float]
    min_share: tuple[float, float]
    fluid_ml: float
    leaks_ml: tuple[float, ...] = (4.0, 8.0, 12.0)

    @property
    def calipers(self) -> tuple[str, ...]:
        return tuple(part.id for part in self.circuit.parts if part.kind == "caliper")

    @property
    def ways(self) -> dict[str, "Plan"]:
        """The ways to look that differ for it: a clutch has no pads."""
        return PLANS if self.calipers else {way: PLANS[way] for way in _WITHOUT_PADS}


def kinds() -> dict[str, Kind]:
    """Measured twin disc, single disc and clutch, and a twin disc known by its class."""
    skerry, naked = tourer(), outline("naked")
    front, rear, clutch = (skerry.circuit(name) for name in ("front", "rear", "clutch"))
    return {
        "twin disc, measured": Kind(
            "twin disc, measured",
            skerry,
            front,
            True,
            (28.40, 28.40),
            (38, 38),
            (16 / 38, 16 / 38),
            85.0,
        ),
        "single disc, measured": Kind(
            "single disc, measured",
            skerry,
            rear,
            False,
            (11.45, 11.45),
            (27, 27),
            (11 / 27, 11 / 27),
            55.0,
        ),
        "twin disc, class only": Kind(
            "twin disc, class only",
            naked,
            naked.circuits[0],
            True,
            (25, 33),
            (24, 40),
            (0.36, 0.48),
            75.0,
        ),
        "clutch, measured": Kind(
            "clutch, measured",
            skerry,
            clutch,
            False,
            (9.62, 9.62),
            (18, 18),
            (7 / 18, 7 / 18),
            32.0,
            (1.0, 2.0, 4.0),
        ),
    }


@dataclass(frozen=True, slots=True)
class Plan:
    """How the looks are taken: how many, how finely, with or without a thermometer."""

    looks: int = 2
    ruler_mm: float = 0.5
    gauge_mm: float = 0.5
    thermometer: bool = True


PLANS = {
    "two looks": Plan(),
    "two looks, no thermometer": Plan(thermometer=False),
    "two looks, pads to 0.1 mm": Plan(gauge_mm=0.1),
    "five looks": Plan(looks=5),
}
_WITHOUT_PADS = ("two looks", "two looks, no thermometer", "five looks")


def tables(
    kind: Kind, plan: Plan, leak_ml: float, count: int, seed: int
) -> Iterator[tuple[LevelLook, ...]]:
    """Yield the looks at ``count`` machines that lose so much in half a year."""
    rng = np.random.default_rng(seed)
    shape = (count, plan.looks)
    times = np.linspace(0.0, 1.0, plan.looks)
    if kind.calipers:
        worn, seen = _pads(kind, plan, times, shape, rng)
    else:
        worn, seen = -_returned_ml(kind, shape, rng), np.empty((count, 0, plan.looks))
    degc = rng.uniform(5.0, 28.0, shape)
    warmth = kind.fluid_ml * rng.uniform(0.75e-3, 1.0e-3, (count, 1)) * (degc - degc[:, :1])
    starts = rng.choice([0.0, 0.5], (count, 1))
    leaked = leak_ml * np.clip((times - starts) / (1.0 - starts), 0.0, 1.0)
    full = rng.uniform(*kind.max_ml, (count, 1))
    usable = full * (1.0 - rng.uniform(*kind.min_share, (count, 1)))
    below_ml = rng.uniform(0.0, 0.15, (count, 1)) * usable + worn + leaked - warmth
    below_ml -= np.minimum(below_ml.min(axis=1, keepdims=True), 0.0)
    depth = _depth_mm(below_ml / usable, rng.uniform(9.0, 20.0, (count, 1)), rng)
    read = _rounded(depth + rng.normal(0.0, 0.4 * plan.ruler_mm, shape), plan.ruler_mm)
    for machine in range(count):
        yield tuple(
            LevelLook(
                FIRST + timedelta(days=round(DAYS * float(times[look]))),
                LevelMeasure.BELOW_MAX,
                max(0.0, float(read[machine, look])),
                {
                    name: PadReading(float(seen[machine, place, look]))
                    for place, name in enumerate(kind.calipers)
                },
                degc=float(degc[machine, look]) if plan.thermometer else None,
            )
            for look in range(plan.looks)
        )


def _pads(
    kind: Kind, plan: Plan, times: Array, shape: tuple[int, int], rng: np.random.Generator
) -> tuple[Array, Array]:
    """What the pads drew by each look (ml), and the thinnest pad as it was read (mm)."""
    count, calipers = shape[0], len(kind.calipers)
    a_machine = rng.gamma(6.0, 0.2, (count, 1, 1, 1))
    inner_outer = rng.uniform(0.75, 1.15, (count, calipers, 2, 1))
    start = _NEW_MM - rng.uniform(0.0, 1.2, (count, calipers, 1, 1))
    worn = a_machine * inner_outer * times[None, None, None, :]
    disc = rng.uniform(0.02, 0.1, (count, calipers, 1)) * worn.mean(axis=2)
    travel = worn.sum(axis=2) + disc
    area_cm2 = rng.uniform(*kind.area_cm2, (count, 1, 1))
    rest_mm = rng.normal(0.0, 0.02, travel.shape)
    drawn_ml = area_cm2 * (travel / (2.0 if kind.opposed else 1.0) + rest_mm) / 10.0
    drawn_ml = (drawn_ml - drawn_ml[:, :, :1]).sum(axis=1)
    thinnest = (start - worn).min(axis=2)
    slip = rng.normal(0.0, 0.4 * plan.gauge_mm, thinnest.shape)
    return drawn_ml, np.clip(_rounded(thinnest + slip, plan.gauge_mm), 0.0, None)


def _returned_ml(kind: Kind, shape: tuple[int, int], rng: np.random.Generator) -> Array:
    """What the slave's piston has given back by each look: worn plates only push it home."""
    count, looks = shape
    half_a_year_mm = rng.gamma(2.0, 0.05, (count, 1))
    steps = rng.dirichlet(np.full(looks - 1, 2.0), count)
    home_mm = half_a_year_mm * np.cumsum(np.pad(steps, ((0, 0), (1, 0))), axis=1)
    rest_mm = rng.normal(0.0, 0.02, shape)
    area_cm2 = rng.uniform(*kind.area_cm2, (count, 1))
    returned_ml = area_cm2 * (home_mm + rest_mm) / 10.0
    from_first: Array = returned_ml - returned_ml[:, :1]
    return from_first


def _depth_mm(share: Array, marks_mm: Array, rng: np.random.Generator) -> Array:
    """Depth below MAX when such a share of the usable content is gone: the pot tapers."""
    taper = rng.uniform(-0.2, 0.2, marks_mm.shape)
    # content below MAX at depth x of one: x + taper x (1 - x)
    depth = share
    for _ in range(20):
        depth = share - taper * depth * (1.0 - depth)
    return marks_mm * depth


def _rounded(values: Array, step: float) -> Array:
    return np.round(values / step) * step


def verdicts(
    kind: Kind, plan: Plan, leak_ml: float, count: int, seed: int = 1
) -> list[LevelReport]:
    """Judge so many machines."""
    on = FIRST + timedelta(days=DAYS + 1)
    return [
        judge(
            kind.bike,
            kind.circuit,
            LevelRequest(on, looks, plan.ruler_mm, plan.gauge_mm),
            WORKSHOP.tables,
        )
        for looks in tables(kind, plan, leak_ml, count, seed)
    ]


def alarm_share(reports: list[LevelReport]) -> float:
    """The share of machines said to leak."""
    return sum(one.verdict is LevelVerdict.GONE for one in reports) / len(reports)
