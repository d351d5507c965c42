# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A brake that answers a pull, written apart from the fitted curve.

Truth is drawn from the stated prior. The readings are not the fitted model's: the ruler is
read to whole steps, each force is off by 3 % of its own, the seals hold back by another
amount at each reading, and a pumped lever still finds a little of the clearance.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from firmlever.bootstrap import open_workshop
from firmlever.domain.lever import Moment, ReadingSet, SetKind
from firmlever.domain.tables import Prior
from firmlever.solve.draws import lattice
from firmlever.solve.inputs import Inputs
from firmlever.solve.lever.prior import LeverPrior, lever_prior

FORCES_N = (6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 130)
AMBIENT_PA = 101_325.0


@cache
def skerry_front() -> LeverPrior:
    """The twin-disc front brake of the demo workshop."""
    workshop = open_workshop()
    bike = workshop.files.read(str(files("firmlever").joinpath("data", "demo", "skerry.toml")))
    circuit = bike.circuits[0]
    priors: dict[tuple[str, str], list[Prior]] = {}
    for row in workshop.tables.priors():
        priors.setdefault((row.kind, row.key), []).append(row)
    inputs = Inputs(lattice(2048, 160, 1), priors, circuit.family, bike.bike_class)
    return lever_prior(circuit, inputs, AMBIENT_PA)


@dataclass(frozen=True)
class Brake:
    """One true brake: its unknowns by name, in SI units."""

    shapes: dict[str, float]
    terms: dict[str, float]

    def travel_mm(self, force_n: float, *, air_m3: float, clearance_m3: float) -> float:
        """Where the lever stands under a force."""
        gain = self.shapes["gain"]
        bar_pa = max(self.shapes["efficiency"] * gain * (force_n - self.shapes["before_n"]), 0.0)
        squeezed = (AMBIENT_PA / (AMBIENT_PA + bar_pa)) ** (1.0 / self.shapes["polytropic"])
        volume_m3 = (
            clearance_m3 * (1.0 - math.exp(-bar_pa / self.shapes["take_up_pa"]))
            + air_m3 * (1.0 - squeezed)
            + self.terms["hoses"] * (bar_pa / 6.894757e6) ** 0.65
            + self.terms["pads"] * (bar_pa / 5e6) ** 0.6
            + self.terms["fluid"] * bar_pa
        )
        return float(1e3 * (self.terms["rest"] + gain * volume_m3 + self.terms["flex"] * force_n))


def draw_brake(prior: LeverPrior, rng: np.random.Generator, air_ml: float | None = None) -> Brake:
    """Draw a brake from what is taken to be known before any reading."""
    shapes = {shape.name: float(shape.value(rng.standard_normal(1))[0]) for shape in prior.shapes}
    terms = {term.name: _above_zero(term.mean, term.spread, rng) for term in prior.terms}
    if air_ml is not None:
        terms["air"] = air_ml * 1e-6
    return Brake(shapes, terms)


def _above_zero(mean: float, spread: float, rng: np.random.Generator) -> float:
    while True:
        drawn = float(rng.normal(mean, spread))
        if drawn >= 0.0:
            return drawn


def read(
    brake: Brake,
    kind: SetKind,
    rng: np.random.Generator,
    *,
    ruler_mm: float = 1.0,
    air_m3: float | None = None,
    moment: Moment = Moment.BEFORE,
) -> ReadingSet:
    """Take one run of readings."""
    air = brake.terms["air"] if air_m3 is None else air_m3
    whole = brake.terms["clearance"]
    left = {
        SetKind.FIRST: whole,
        SetKind.PUMPED: rng.uniform(0.0, 0.08) * whole,
        SetKind.WEDGED: 0.0,
    }
    packed = rng.uniform(0.0, 0.3) * whole if kind is SetKind.PUMPED else 0.0
    stuck_n = rng.uniform(-1.0, 1.0)
    travels = []
    for force in FORCES_N:
        true_n = force * (1.0 + rng.normal(0.0, 0.03)) + stuck_n + rng.uniform(-0.3, 0.3)
        exact = brake.travel_mm(true_n, air_m3=air, clearance_m3=left[kind])
        exact += rng.normal(0.0, 0.2 * ruler_mm) - 1e3 * brake.shapes["gain"] * packed
        travels.append(round(exact / ruler_mm) * ruler_mm)
    climbing = np.maximum.accumulate(travels)
    return ReadingSet(kind, tuple(map(float, FORCES_N)), tuple(float(x) for x in climbing), moment)


def runs(
    brake: Brake, kinds: Sequence[SetKind], rng: np.random.Generator, ruler_mm: float = 1.0
) -> tuple[ReadingSet, ...]:
    """Take several runs."""
    return tuple(read(brake, kind, rng, ruler_mm=ruler_mm) for kind in kinds)
