# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every benchmark by name."""

from collections.abc import Callable, Mapping

from benchmarks import (
    against_oracle,
    against_solve_ivp,
    app_speed,
    bench_lab,
    leaks,
    plan_speed,
    slices,
    start_up,
    steadiness,
)
from benchmarks.figure import Figure

BENCHMARKS: Mapping[str, Callable[[], list[Figure]]] = {
    "plan": plan_speed.measure,
    "steadiness": steadiness.measure,
    "solve_ivp": against_solve_ivp.measure,
    "oracle": against_oracle.measure,
    "start": start_up.measure,
    "slices": slices.measure,
    "app": app_speed.measure,
    "bench": bench_lab.measure,
    "leaks": leaks.measure,
}
