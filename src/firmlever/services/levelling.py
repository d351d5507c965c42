# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Judge a level: from a described machine and dated looks to wear, leaks and what comes next."""

from firmlever.domain.cautions import cautions_at_the_pot
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.level import LevelReport, LevelRequest
from firmlever.domain.tables import priors_by_key
from firmlever.ports import Tables
from firmlever.services.grades import grade_in
from firmlever.services.wishes import check_seed, check_within
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
    check_within("--ruler", request.ruler_mm, _RULER_MM, "mm")
    check_within("--gauge", request.gauge_mm, _RULER_MM, "mm")
    if request.marks_mm is not None:
        check_within("--marks", request.marks_mm, _MARKS_MM, "mm")
    check_seed(request.seed)
    grade, priors = grade_in(circuit, tables.grades()), priors_by_key(tables.priors())
    return judge_level(LevelCase(bike, circuit, request, grade, priors), cautions_at_the_pot())


def needs_attention(report: LevelReport) -> bool:
    """Say whether the looks found something a person should see to."""
    return bool(report.findings)
