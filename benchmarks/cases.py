# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The circuits that are measured, and one flush of them without the rest of a plan."""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import date
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import Bike
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.tables import Method, Prior
from firmlever.ports import Tables
from firmlever.services.planning import plan
from firmlever.solve.draws import lattice
from firmlever.solve.job import Job, Turn, manual_turns, usual_turns
from firmlever.solve.simulate import SLICES, Outcome, simulate

Array = NDArray[np.float64]

ON = date(2026, 5, 1)
MEASURED = str(files("firmlever").joinpath("data", "demo", "skerry.toml"))
CLASS_ONLY = str(files("firmlever").joinpath("data", "examples", "tourer.toml"))
_DIMENSIONS = 160
_DIFFUSION = ("work", "diffusion_mm2_s")
# too little to matter, enough to draw from
_HARDLY = 1e-14


@dataclass(frozen=True, slots=True)
class Case:
    """One machine's front circuit with the tables it is planned from."""

    bike: Bike
    tables: Tables

    def plan(self, seed: int = 1) -> FlushPlan:
        """Plan a flush of it."""
        return plan(self.bike, PlanRequest("front", ON, seed=seed), self.tables)

    def flush(self, points: Array, *, diffusion: bool = True, slices: int = SLICES) -> Outcome:
        """Flush it in all draws; without diffusion every tube is the plain laminar law."""
        job = self._job(diffusion)
        return simulate(job, points, _turns(job), slices=slices)

    def order(self) -> tuple[str, ...]:
        """Return the screws in their turn."""
        return tuple(turn.screw.id for turn in _turns(self._job(diffusion=True)))

    def target(self) -> float:
        """Return the new share at which a screw is done."""
        return self._job(diffusion=True).request.target

    def _job(self, diffusion: bool) -> Job:
        circuit = self.bike.circuit("front")
        technique = next(row for row in self.tables.techniques() if row.method is Method.LEVER)
        wanted = next(iter(circuit.fluid.required), "DOT 4")
        grade = next(row for row in self.tables.grades() if row.name == wanted)
        priors: defaultdict[tuple[str, str], list[Prior]] = defaultdict(list)
        for row in self.tables.priors():
            key = (row.kind, row.key)
            still = key == _DIFFUSION and not diffusion
            priors[key].append(replace(row, low=_HARDLY, high=1.01 * _HARDLY) if still else row)
        return Job(self.bike, circuit, PlanRequest("front", ON), technique, grade, priors)


def case_of(file: str) -> Case:
    """Read a circuit file."""
    workshop = open_workshop()
    return Case(workshop.files.read(file), workshop.tables)


def draws(count: int, seed: int = 1) -> Array:
    """Return so many draws of every input."""
    return lattice(count, _DIMENSIONS, seed)


def _turns(job: Job) -> tuple[Turn, ...]:
    return manual_turns(job) or usual_turns(job)
