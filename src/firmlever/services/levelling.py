# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Judge a level: from a described machine and dated looks to wear, leaks and what comes next."""

from collections.abc import Sequence

from firmlever.domain.cautions import cautions_at_the_pot
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.level import LevelReport, LevelRequest
from firmlever.domain.tables import FluidBase, FluidGrade, Prior
from firmlever.errors import ImpossibleOptionError
from firmlever.ports import Tables
from firmlever.solve.level.judge import LevelCase, judge_level

_RULER_MM = (0.01, 5.0)
_MARKS_MM = (2.0, 60.0)


def judge(bike: Bike, circuit: Circuit, request: LevelRequest, tables: Tables) -> LevelReport:
    """Work out what looks at one reservoir say.

    Raises
    ------
    ImpossibleOptionError
        When ruler, gauge, marks or seed cannot be what was given.
    """
    _check("--ruler", request.ruler_mm, _RULER_MM)
    _check("--gauge", request.gauge_mm, _RULER_MM)
    if request.marks_mm is not None:
        _check("--marks", request.marks_mm, _MARKS_MM)
    if request.seed < 0:
        raise ImpossibleOptionError("--seed", f"{request.seed}", "it is a whole number from 0 on")
    priors: dict[tuple[str, str], list[Prior]] = {}
    for row in tables.priors():
        priors.setdefault((row.kind, row.key), []).append(row)
    grade = _grade(circuit, tables.grades())
    return judge_level(LevelCase(bike, circuit, request, grade, priors), cautions_at_the_pot())


def needs_attention(report: LevelReport) -> bool:
    """Say whether the looks found something a person should see to."""
    return bool(report.findings)


def _check(option: str, value: float, bounds: tuple[float, float]) -> None:
    low, high = bounds
    if not low <= value <= high:
        raise ImpossibleOptionError(option, f"{value:g}", f"it is in mm, {low:g} to {high:g}")


def _grade(circuit: Circuit, grades: Sequence[FluidGrade]) -> FluidGrade:
    """Return the grade that is in there, or else the one that most likely is."""
    named = (circuit.fluid.filled, *circuit.fluid.required)
    by_name = {grade.name: grade for grade in grades}
    known = [by_name[name] for name in named if name in by_name]
    usual = [grade for grade in grades if grade.base is FluidBase.GLYCOL]
    return (known or usual)[0]
