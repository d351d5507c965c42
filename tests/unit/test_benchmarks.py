# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Each benchmark still runs, at its smallest, and says what it should; nothing is timed here."""

import math
from collections.abc import Callable
from time import process_time

import numpy as np
import pytest

from benchmarks import (
    against_oracle,
    against_solve_ivp,
    bench_lab,
    leaks,
    plan_speed,
    slices,
    steadiness,
)
from benchmarks.cases import MEASURED, case_of, draws
from benchmarks.catalogue import BENCHMARKS
from benchmarks.figure import Figure, line
from benchmarks.method_of_lines import Resolution, flush
from benchmarks.timing import timed

Measure = Callable[[], list[Figure]]

SMALLEST: dict[str, Measure] = {
    "plan": lambda: plan_speed.measure(repeats=1),
    "steadiness": lambda: steadiness.measure(seeds=1, others=1),
    "solve_ivp": lambda: against_solve_ivp.measure(
        count=16, integrated=1, repeats=1, converged=256, fine=against_solve_ivp.COARSE
    ),
    "oracle": lambda: against_oracle.measure(count=16, repeats=1, parcel_ml=1.0),
    "slices": lambda: slices.measure(count=4, finer=2),
    "bench": lambda: bench_lab.measure(machines=2),
    "leaks": lambda: leaks.measure(sound=1, leaking=1),
}


@pytest.mark.parametrize("name", SMALLEST)
def test_a_benchmark_runs_and_every_figure_is_a_number(name: str) -> None:
    figures = SMALLEST[name]()
    assert figures
    assert all(math.isfinite(figure.value) for figure in figures)


def test_every_benchmark_runs_here_but_the_two_that_start_programs() -> None:
    assert set(SMALLEST) == set(BENCHMARKS) - {"start", "app"}


@pytest.mark.parametrize(
    ("value", "at_most", "at_least", "holds"),
    [
        (1.0, None, None, None),
        (0.4, 0.4, None, True),
        (0.41, 0.4, None, False),
        (300.0, None, 300.0, True),
        (299.0, None, 300.0, False),
    ],
)
def test_a_figure_keeps_to_its_limits(
    value: float, at_most: float | None, at_least: float | None, holds: bool | None
) -> None:
    figure = Figure("speed", value, "s", at_most=at_most, at_least=at_least)
    assert figure.holds is holds


def test_a_line_names_the_reference_and_says_when_a_limit_is_missed() -> None:
    text = line(Figure("faster by", 20.0, "times", "the oracle", at_least=50.0, aim=100.0))
    assert " ".join(text.split()) == (
        "faster by 20 times; against the oracle; at least 50; aim 100; MISSED"
    )


def test_seconds_of_work_are_those_of_this_process() -> None:
    def busy() -> None:
        end = process_time() + 0.02
        while process_time() < end:
            pass

    spent = timed(busy, 3)
    assert spent.cpu_s >= 0.02
    assert spent.rounds > 0.0


def test_the_method_of_lines_comes_nearer_to_the_solver_the_finer_it_is() -> None:
    # independent: the same circuit, integrated by SciPy
    case = case_of(MEASURED)
    points = draws(2)
    exact = case.flush(points, diffusion=False, slices=1024)
    errors = []
    for how in (Resolution(rings=6, cell_ml=2.0), Resolution(rings=20, cell_ml=0.5)):
        one = flush(exact, 0, case.order(), case.target(), how)
        left = one.left_whole / exact.left_whole[0] - 1.0
        through = one.through_m3 / exact.through_m3[0] - 1.0
        errors.append(np.abs([left, through]).max())
    assert errors[1] < 0.5 * errors[0]
    assert errors[1] < 3e-3
