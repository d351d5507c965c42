# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The stirred chamber against a measured dye curve (open-tracer-data).

A pulse of dye in a stirred tank of about 1.5 l, clean water at about 380 ml/min, both as
its makers give them; so the time of one volume is 237 s, known to a few per cent. The
photometer reads 1.83 mg/l with no dye. That zero is known well enough for the first
fall to 1/e; below that the reading approaches the zero faster than any exponential, so
what remains of the curve says more about the photometer than about the tank.
"""

from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from numpy.typing import NDArray

from firmlever.physics.washout import stirred_left

VOLUME_ML = 1500.0
FLOW_ML_S = 380.0 / 60.0
BEFORE_THE_PULSE = 30
SECONDS_A_DAY = 86400.0


class Washout(NamedTuple):
    """Time since the dye was mixed in, and the share of it still there."""

    time_s: NDArray[np.float64]
    left: NDArray[np.float64]


def measured(path: Path) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Time in seconds and the reading; lines of words between them are left out."""
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()]
    numbers = [(float(row[0]), float(row[1])) for row in rows if row[0][:1].isdigit() and row[1:]]
    days, reading = np.array(numbers).T
    return (days - days[0]) * SECONDS_A_DAY, reading


@pytest.fixture
def washout(open_data: Path) -> Washout:
    """From the first steady reading after the pulse to its fall to 1/e."""
    time_s, reading = measured(open_data / "tracer_washout" / "CMFR_example.tsv")
    dye = reading - np.median(reading[:BEFORE_THE_PULSE])
    start = int(np.argmax(dye)) + 2
    left = dye[start:] / dye[start]
    used = left > np.exp(-1.0)
    return Washout((time_s[start:] - time_s[start])[used], left[used])


def test_share_left_is_that_of_a_stirred_chamber(washout: Washout) -> None:
    expected = stirred_left(washout.time_s * FLOW_ML_S / VOLUME_ML)
    assert len(washout.left) > 40
    assert np.sqrt(np.mean((washout.left - expected) ** 2)) < 0.01
    np.testing.assert_allclose(washout.left, expected, atol=0.02)


def test_time_of_one_volume_is_volume_over_flow(washout: Washout) -> None:
    slope, intercept = np.polyfit(washout.time_s, np.log(washout.left), 1)
    residual = np.log(washout.left) - (slope * washout.time_s + intercept)
    assert -1.0 / slope == pytest.approx(VOLUME_ML / FLOW_ML_S, rel=0.03)
    assert residual.std() < 0.03
