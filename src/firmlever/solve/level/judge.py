# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at a reservoir: readings in, what they say and what comes next out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Bike, Circuit, Family, PartKind
from firmlever.domain.level import BetweenLooks, LevelReport, LevelRequest, LevelVerdict
from firmlever.domain.quantity import Band
from firmlever.domain.tables import FluidBase, FluidGrade, Prior
from firmlever.solve.bands import ml_band
from firmlever.solve.draws import lattice
from firmlever.solve.inputs import Inputs
from firmlever.solve.job import twins
from firmlever.solve.level import grounds
from firmlever.solve.level.forecast import as_last_seen, min_on, new_pads
from firmlever.solve.level.leak import TOLERATED_M3, Loss, steady
from firmlever.solve.level.slips import Slips
from firmlever.solve.level.story import Eye, Story, story_of
from firmlever.solve.level.words import Found, findings_of, says_of, verdict_of
from firmlever.solve.network import Network, build
from firmlever.solve.supply import behind_pistons_m3, fill_to_m3
from firmlever.units import from_si

Array = NDArray[np.float64]

DRAWS = 2048
_DIMENSIONS = 160
_MONTH_DAYS = 365.25 / 12.0


@dataclass(frozen=True, slots=True)
class LevelCase:
    """A circuit, the looks at its reservoir, the fluid in it and the priors to draw from."""

    bike: Bike
    circuit: Circuit
    request: LevelRequest
    grade: FluidGrade
    priors: Mapping[tuple[str, str], Sequence[Prior]]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Everything that was drawn: the circuit as last seen, its network and its story."""

    circuit: Circuit
    inputs: Inputs
    slips: Slips
    network: Network
    story: Story
    days: Array


def judge_level(case: LevelCase, cautions: tuple[str, ...]) -> LevelReport:
    """Work out what the looks say."""
    drawn = _draw(case)
    story, pot = drawn.story, drawn.network.pot
    whole = _whole(drawn)
    between = _between(case, story)
    is_clutch = case.circuit.family is Family.CLUTCH
    found = None if whole is None else _found(whole, between, is_clutch=is_clutch)
    mineral = is_clutch and case.grade.base is FluidBase.MINERAL
    says = says_of(found, is_clutch=is_clutch, holds_mineral=mineral)
    verdict = LevelVerdict.ONE_LOOK if found is None else found.verdict
    level, fill_to = story.level_m3[:, -1], fill_to_m3(drawn.circuit, drawn.network)
    above_min = ml_band(level - pot.low_m3)
    behind = behind_pistons_m3(drawn.circuit, drawn.network)
    reached = min_on(case.request.looks, story, pot.low_m3)
    return LevelReport(
        bike=case.bike.name,
        circuit=case.circuit.name,
        on=case.request.on,
        verdict=verdict,
        says=says,
        left_ml=None if found is None else found.left_ml,
        drawn_ml=None if whole is None else ml_band(story.drawn_m3[:, -1]),
        chance_gone=None if whole is None else whole.chance_gone,
        chance_rose=None if whole is None else whole.chance_rose,
        tolerated_ml=from_si(TOLERATED_M3, "ml"),
        would_see_ml=None if found is None else found.would_see_ml,
        left_per_month_ml=_per(whole, float(drawn.days[-1]) / _MONTH_DAYS),
        left_per_1000_km_ml=_per(whole, _thousand_km(case)),
        between=between,
        level_ml=ml_band(level),
        above_min_ml=above_min,
        fill_to_ml=ml_band(fill_to),
        fill_above_min_ml=ml_band(fill_to - pot.low_m3),
        new_pads=new_pads(level, behind, pot.full_m3) if story.worn else None,
        min_on=None if reached is None else reached[0],
        pads_gone_first=None if reached is None else reached[1],
        is_clutch=is_clutch,
        assumed=grounds.assumed(drawn.inputs, case.request.looks, drawn.slips),
        narrow=grounds.narrow(
            level + behind if whole is None else whole.gone_m3, drawn.inputs, drawn.slips
        ),
        cautions=cautions,
        findings=findings_of(verdict, says, above_min),
        sources=grounds.sources(drawn.inputs),
    )


def _draw(case: LevelCase) -> _Drawn:
    request, looks = case.request, case.request.looks
    circuit = as_last_seen(case.circuit, looks[-1], request.gauge_mm)
    points = _points(_DIMENSIONS + _readings(case), request.seed)
    family, bike_class = case.circuit.family, case.bike.bike_class
    inputs = Inputs(points[:, :_DIMENSIONS], case.priors, family, bike_class, twins(circuit))
    slips = Slips(points[:, _DIMENSIONS:])
    network = build(circuit, inputs)
    eye = Eye(request.ruler_mm, request.gauge_mm, request.marks_mm)
    expansion_1_k = case.grade.expansion_1_k
    story = story_of(circuit, looks, network, expansion_1_k, inputs, slips, eye)
    days = np.array([(look.on - looks[0].on).days for look in looks], dtype=float)
    return _Drawn(circuit, inputs, slips, network, story, days)


@lru_cache(maxsize=2)
def _points(dimensions: int, seed: int) -> Array:
    """Spread the draws; a table judged again is mostly one of the same size."""
    points = lattice(DRAWS, dimensions, seed)
    points.flags.writeable = False
    return points


def _readings(case: LevelCase) -> int:
    """Count the columns that the errors of all readings can need at most."""
    calipers = len(case.circuit.of_kind(PartKind.CALIPER))
    a_look = 3 + 3 * calipers
    return 1 + calipers + a_look * len(case.request.looks)


def _whole(drawn: _Drawn) -> Loss | None:
    if len(drawn.days) < 2:
        return None
    return Loss(steady(drawn.story.gone_m3, drawn.days))


def _found(whole: Loss, between: tuple[BetweenLooks, ...], *, is_clutch: bool) -> Found:
    verdict = verdict_of(whole.chance_gone, whole.chance_rose, between)
    limit_ml = from_si(whole.would_see_m3, "ml")
    return Found(verdict, ml_band(whole.gone_m3), limit_ml, between, is_clutch)


def _between(case: LevelCase, story: Story) -> tuple[BetweenLooks, ...]:
    looks = case.request.looks
    return tuple(_stretch(case, story, last) for last in range(1, len(looks)))


def _stretch(case: LevelCase, story: Story, last: int) -> BetweenLooks:
    before, after = case.request.looks[last - 1 : last + 1]
    gone = Loss(_step(story.gone_m3, last))
    return BetweenLooks(
        start=before.on,
        end=after.on,
        fell_ml=ml_band(-_step(story.level_m3, last)),
        topped_up_ml=after.topped_up_ml,
        drawn_ml=ml_band(_step(story.drawn_m3, last)),
        warmth_ml=ml_band(_step(story.warmth_m3, last)),
        left_ml=ml_band(gone.gone_m3),
        chance_gone=gone.chance_gone,
        chance_rose=gone.chance_rose,
    )


def _step(by_look: Array, last: int) -> Array:
    change: Array = by_look[:, last] - by_look[:, last - 1]
    return change


def _per(whole: Loss | None, amount: float | None) -> Band | None:
    return None if whole is None or not amount else ml_band(whole.gone_m3 / amount)


def _thousand_km(case: LevelCase) -> float | None:
    first, last = case.request.looks[0].km, case.request.looks[-1].km
    return None if first is None or last is None else (last - first) / 1000.0
