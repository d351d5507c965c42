# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Seconds of this process, beside a fixed piece of NumPy work done at the same time.

On a busy machine both clocks run long: the wall clock because others take turns, the
process clock because they share the caches. The fixed work suffers alike, so a time
counted in *rounds* of it can be compared between runs and between machines.
"""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter, process_time

import numpy as np

_ROWS, _COLUMNS, _SEED = 1024, 256, 20260501


@dataclass(frozen=True, slots=True)
class Timing:
    """Medians over the repeats: process seconds, wall seconds, and rounds of fixed work."""

    cpu_s: float
    wall_s: float
    rounds: float


def fixed_round() -> None:
    """Do one round: a Fourier transform there and back, exponentials, running sums."""
    numbers = np.random.default_rng(_SEED).random((_ROWS, _COLUMNS))
    smooth = np.fft.irfft(np.fft.rfft(numbers, axis=1), axis=1)
    np.exp(-smooth).cumsum(axis=1)


def timed(work: Callable[[], object], repeats: int) -> Timing:
    """Time some work after a first go that does not count, each time beside a round."""
    work()
    fixed_round()
    goes = [(*_seconds(fixed_round), *_seconds(work)) for _ in range(repeats)]
    return Timing(
        cpu_s=median(cpu for _, _, cpu, _ in goes),
        wall_s=median(wall for _, _, _, wall in goes),
        rounds=median(cpu / fixed for fixed, _, cpu, _ in goes),
    )


def calibration(repeats: int) -> Timing:
    """Time a round itself."""
    return timed(fixed_round, repeats)


def _seconds(work: Callable[[], object]) -> tuple[float, float]:
    wall, cpu = perf_counter(), process_time()
    work()
    return process_time() - cpu, perf_counter() - wall
