# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A whole plan of the measured tourer's front brake, with everything that goes into it."""

from benchmarks.cases import MEASURED, case_of
from benchmarks.figure import Figure
from benchmarks.timing import calibration, timed


def measure(repeats: int = 9) -> list[Figure]:
    """Time the plan in a process that has planned before."""
    case = case_of(MEASURED)
    fixed = calibration(repeats)
    whole = timed(case.plan, repeats)
    return [
        Figure("plan, process time", whole.cpu_s, "s", at_most=0.4, aim=0.15),
        Figure("plan, wall time", whole.wall_s, "s"),
        Figure("plan, rounds of fixed work", whole.rounds, "", "a round in the same run"),
        Figure("a round of fixed work, process time", fixed.cpu_s * 1e3, "ms"),
        Figure("a round, wall over process time", fixed.wall_s / fixed.cpu_s, ""),
    ]
