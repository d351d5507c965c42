# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a count brings: the plan's prior, corrected by what lies in the catch cup.

The arithmetic is plain and in a fixed order, so that the browser gets the same numbers.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from firmlever.domain.bench.sheet import CupError, JobSheet, SheetPoint
from firmlever.domain.quantity import Band, CountBand

# the 95 % point of the normal distribution
Z = 1.6448536269514722
# a corrected mean below this part of the prior one is not believed; under suction a screw
# is opened only a crack, where a tenth of the plan's flow is usual (judgement)
_LEAST_OF_PRIOR = {"stroke": 0.2, "second": 0.02}
# a prior of no width would let nothing correct it (judgement)
_LEAST_SPREAD = 0.001
# standard deviations to each end of the counts in all: more than the 1.64 of a band, for an
# uneven hand is in no term (regression: what holds nine in ten of 720 simulated screws)
_COUNT_BAND = 1.85
# ends so low that a logarithm would run away with them (judgement)
_LEAST_LOW = 0.05
_LEAST_UNIT = 0.2


@dataclass(frozen=True, slots=True)
class UnitMl:
    """Millilitres a stroke or a second brings: mean and standard deviation."""

    mean: float
    sd: float


@dataclass(frozen=True, slots=True)
class Cup:
    """What lay in the cup of one screw, with the sample caught apart, after so many counts."""

    ml: float
    sample_ml: float
    at: int

    def out(self, error: CupError) -> UnitMl:
        """Return what came out by this reading; part of it may have run beside the cup."""
        reading = error.read_error_ml + error.read_error_share * self.ml
        kept = 1.0 - error.beside_share / 2.0
        into = self.ml / kept
        beside = into * error.beside_share / math.sqrt(12.0)
        return UnitMl(into + self.sample_ml, math.sqrt(reading * reading + beside * beside))


def prior_unit(sheet: JobSheet) -> UnitMl:
    """Return what a count brings by the plan alone."""
    ml = sheet.unit.ml
    return UnitMl(ml.p50, max((ml.p95 - ml.p05) / (2.0 * Z), _LEAST_SPREAD * ml.p50))


def corrected_unit(sheet: JobSheet, cups: Iterable[Cup]) -> UnitMl:
    """Combine the prior with cups read after some counts, each weighted by its precision."""
    prior = prior_unit(sheet)
    least = _LEAST_OF_PRIOR[sheet.unit.name] * prior.mean
    weight = 1.0 / (prior.sd * prior.sd)
    total = prior.mean * weight
    for cup in cups:
        out = cup.out(sheet.cup)
        sd = out.sd / cup.at
        precision = 1.0 / (sd * sd)
        weight = weight + precision
        total = total + out.mean / cup.at * precision
    return UnitMl(max(total / weight, least), math.sqrt(1.0 / weight))


def out_ml(sheet: JobSheet, count: int, cup: Cup | None, unit: UnitMl) -> Band:
    """Return what came out of a screw in its first so many counts.

    That is the last cup and what was counted since, or an even share of the cup.
    """
    if cup is None:
        return band_about(count * unit.mean, count * unit.sd)
    since = count - cup.at
    out = cup.out(sheet.cup)
    if since < 0:
        part = count / cup.at
        return band_about(out.mean * part, out.sd * part)
    spread = since * unit.sd
    return band_about(out.mean + since * unit.mean, math.sqrt(out.sd * out.sd + spread * spread))


def total_count(sheet: JobSheet, point: SheetPoint, cup: Cup | None, unit: UnitMl) -> CountBand:
    """Return the counts in all until a screw is as new as wanted."""
    out, at = (0.0, 0) if cup is None else (cup.out(sheet.cup).mean, cup.at)
    volume = point.volume_ml
    if volume.p50 <= 0.0:
        return CountBand(at, at, at)
    middle = at + max(0.0, volume.p50 - out) / unit.mean
    # what a count brings stands in the denominator, so the spread is one of logarithms
    of_unit = Z * unit.sd / unit.mean
    low_ml = max(volume.p05, _LEAST_LOW * volume.p50)
    down = _together(math.log(volume.p50 / low_ml), math.log(1.0 + of_unit))
    up = _together(math.log(volume.p95 / volume.p50), -math.log(max(_LEAST_UNIT, 1.0 - of_unit)))
    return CountBand(
        max(at, math.floor(middle * math.exp(-_COUNT_BAND * down))),
        max(at, math.ceil(middle)),
        max(at, math.ceil(middle * math.exp(_COUNT_BAND * up))),
    )


def _together(of_volume: float, of_unit: float) -> float:
    """Return the standard deviation of a logarithm from the half widths of two bands."""
    volume, unit = of_volume / Z, of_unit / Z
    return math.sqrt(volume * volume + unit * unit)


def band_about(middle: float, sd: float) -> Band:
    """Return a band about a middle, never below nothing."""
    half = Z * sd
    return Band(max(0.0, middle - half), max(0.0, middle), max(0.0, middle + half))
