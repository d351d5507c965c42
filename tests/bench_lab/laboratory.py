# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""So many machines, each with a person at it; and what came of it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from bench_lab.flow import NEW
from bench_lab.machines import WORKSHOP, random_job
from bench_lab.person import Person, Run
from bench_lab.truth import drawn
from firmlever.domain.bench.sheet import JobSheet
from firmlever.services.bench import sheet_for
from firmlever.services.planning import plan
from firmlever.solve.job import Job

SEED = 4


@dataclass(frozen=True)
class Worked:
    """A job and how it went."""

    job: Job
    run: Run


def work(numbers: Iterable[int]) -> Iterator[Worked]:
    """Work on random machines; each depends on its number alone."""
    for number in numbers:
        rng = np.random.default_rng([SEED, number])
        job = random_job(rng)
        truth = drawn(job, rng)
        dark = str(rng.choice([name for name in truth.origins if name != NEW]))
        yield Worked(job, Person(truth, sheet_of(job), rng, dark).run())


def sheet_of(job: Job) -> JobSheet:
    """The sheet the bench would get for this job."""
    tables = WORKSHOP.tables
    return sheet_for(job.circuit, plan(job.bike, job.request, tables), tables.techniques())


@dataclass
class Score:
    """What came of many runs. ``late`` counts screws that took more than the band."""

    jobs: int = 0
    below_min: int = 0
    refused: int = 0
    turns: int = 0
    in_band: int = 0
    late: int = 0
    before_the_cup: int = 0
    marks: int = 0
    named_right: int = 0
    named_two: int = 0
    fillings: int = 0
    sets: int = 0
    watched: int = 0

    def add(self, run: Run) -> None:
        """Count one run in."""
        self.jobs += 1
        self.below_min += run.spare_ml < 0.0
        self.refused += run.refused
        self.fillings += run.fillings
        self.sets += run.sets
        self.watched += run.watched
        for turn in run.turns:
            if turn.shown is None:
                self.before_the_cup += 1
                continue
            self.turns += 1
            self.in_band += turn.shown.p05 <= turn.done_at <= turn.shown.p95
            self.late += turn.shown.p95 < turn.done_at
        for named in run.marks:
            self.marks += 1
            self.named_right += run.dark in named
            self.named_two += len(named) > 1


def scores(worked: Iterable[Worked]) -> dict[str, Score]:
    """Scores over all, by method, and by where the dark fluid sat."""
    found = {"all": Score()}
    for one in worked:
        dark = one.run.dark.rstrip(" 0123456789")
        for kind in ("all", f"{one.job.request.method}", f"dark {dark}"):
            found.setdefault(kind, Score()).add(one.run)
    return found
