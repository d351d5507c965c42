# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What keeping signals in 128 slices costs in accuracy, against sixteen times as many."""

import numpy as np

from benchmarks.cases import CLASS_ONLY, MEASURED, case_of, draws
from benchmarks.figure import Figure
from firmlever.solve.simulate import SLICES


def measure(count: int = 64, finer: int = 16) -> list[Figure]:
    """Flush the same draws with the usual and with many more slices."""
    points = draws(count)
    figures = []
    for label, file in (("measured", MEASURED), ("class only", CLASS_ONLY)):
        case = case_of(file)
        usual = case.flush(points)
        fine = case.flush(points, slices=finer * SLICES)
        for name, one, other in (
            ("through", usual.through_m3, fine.through_m3),
            ("old fluid left", usual.left_whole, fine.left_whole),
        ):
            off = 100.0 * np.abs(one / other - 1.0)
            against = f"{finer * SLICES} slices"
            figures.append(Figure(f"{label}: {name}, furthest draw", off.max(), "%", against))
            figures.append(Figure(f"{label}: {name}, middle draw", np.median(off), "%", against))
    return figures
