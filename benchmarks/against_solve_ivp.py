# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A draw of the solver against a draw integrated by SciPy's ``solve_ivp``.

Both flush the measured tourer's front brake without diffusion across the bores. The
coarse method of lines is several times less exact than the solver in the volume pushed,
the fine one about as exact; both are less exact in what is left. So the ratios are too
low rather than too high.
"""

from collections.abc import Sequence

import numpy as np

from benchmarks.cases import MEASURED, Array, Case, case_of, draws
from benchmarks.figure import Figure
from benchmarks.method_of_lines import Resolution, flush
from benchmarks.timing import timed
from firmlever.solve.flush import DRAWS
from firmlever.solve.simulate import Outcome

COARSE = Resolution(rings=16, cell_ml=1.0)
FINE = Resolution(rings=32, cell_ml=0.25)
_CONVERGED = 4096
_COMPARED = 8


def measure(
    count: int = DRAWS,
    integrated: int = 4,
    repeats: int = 5,
    converged: int = _CONVERGED,
    fine: Resolution = FINE,
) -> list[Figure]:
    """Time a draw of each and give what each is off a converged solution."""
    case = case_of(MEASURED)
    few = draws(max(_COMPARED, integrated))
    usual = case.flush(few, diffusion=False)
    exact = case.flush(few, diffusion=False, slices=converged)
    against = f"{converged} slices"
    many = draws(count)
    ours_s = timed(lambda: case.flush(many, diffusion=False), repeats).cpu_s / count
    figures = [
        Figure("solver, a draw", ours_s * 1e6, "µs"),
        *_off("solver", usual.left_whole, usual.through_m3, exact, range(len(few)), against),
    ]
    for label, how in (("coarse", COARSE), ("fine", fine)):
        figures += _integrated(label, how, case, exact, integrated, ours_s, against)
    return figures


def _integrated(
    label: str,
    how: Resolution,
    case: Case,
    exact: Outcome,
    count: int,
    ours_s: float,
    against: str,
) -> list[Figure]:
    order, target, chosen = case.order(), case.target(), range(count)
    found = [flush(exact, draw, order, target, how) for draw in chosen]
    spent = timed(lambda: flush(exact, 0, order, target, how), count)
    theirs_s = spent.cpu_s
    name = f"solve_ivp, {label}"
    left = np.array([one.left_whole for one in found])
    through = np.array([one.through_m3 for one in found])
    return [
        Figure(f"{name}, a draw", theirs_s * 1e6, "µs"),
        *_off(name, left, through, exact, chosen, against),
        Figure(
            "solver faster by",
            theirs_s / ours_s,
            "times",
            name,
            at_least=300.0,
        ),
    ]


def _off(
    name: str,
    left: Array,
    through: Array,
    exact: Outcome,
    chosen: Sequence[int],
    against: str,
) -> list[Figure]:
    pairs = (("old fluid left", left, exact.left_whole), ("through", through, exact.through_m3))
    return [
        Figure(
            f"{name}: {what}, furthest draw",
            100.0 * float(np.abs(values / truth[list(chosen)] - 1.0).max()),
            "%",
            against,
        )
        for what, values, truth in pairs
    ]
