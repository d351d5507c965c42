# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Plan a flush or a fill: from a described machine and a wish to a plan in numbers."""

from collections.abc import Sequence

from firmlever.domain.cautions import cautions_for
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.compatibility import may_meet
from firmlever.domain.linked import order_missing
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.tables import FluidGrade, Technique, Work, priors_by_key
from firmlever.errors import (
    FluidRefusedError,
    ImpossibleOptionError,
    MethodRefusedError,
    OrderNeededError,
    UnknownNameError,
)
from firmlever.ports import Tables
from firmlever.services.wishes import check_seed, check_within
from firmlever.solve.fill_job import plan_fill
from firmlever.solve.findings import refusal_of
from firmlever.solve.flush import plan_flush
from firmlever.solve.job import Job

_TARGET_MIN, _TARGET_MAX = 0.5, 0.995
_WORKSHOP_DEGC = (-20.0, 50.0)


def plan(bike: Bike, request: PlanRequest, tables: Tables) -> FlushPlan:
    """Plan the work on one circuit.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError, FluidRefusedError, MethodRefusedError, OrderNeededError
        When the wish cannot be met as it stands.
    """
    job, caution = _job(bike, request, tables)
    cautions = cautions_for(
        request.method,
        job.has_modulator,
        request.pistons_home,
        job.grade.base,
        from_below=request.work is Work.FILL and not job.has_modulator,
    )
    planned = plan_fill if request.work is Work.FILL else plan_flush
    return planned(job, _known_for(request.work, tables), (*caution, *cautions))


def job_for(bike: Bike, request: PlanRequest, tables: Tables) -> Job:
    """Settle what is to be done, without doing it.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError, FluidRefusedError, MethodRefusedError, OrderNeededError
        When the wish cannot be met as it stands.
    """
    return _job(bike, request, tables)[0]


def _job(bike: Bike, request: PlanRequest, tables: Tables) -> tuple[Job, tuple[str, ...]]:
    _check_numbers(request)
    circuit = _circuit(bike, request.circuit)
    technique = _technique(request, _known_for(request.work, tables))
    refusal = refusal_of(request.method, circuit, request.on, request.work)
    if refusal:
        raise MethodRefusedError(f"a {request.method} {request.work}", refusal)
    links = order_missing(bike, circuit)
    if links and request.work is not Work.FLUSH:
        raise OrderNeededError(request.work, circuit.name, links)
    grade, caution = _grade(circuit, request.fluid, tables.grades())
    return Job(bike, circuit, request, technique, grade, priors_by_key(tables.priors())), caution


def _check_numbers(request: PlanRequest) -> None:
    if request.work is Work.BLEED:
        raise ImpossibleOptionError("--work", request.work, "this version plans a flush or a fill")
    if not _TARGET_MIN <= request.target <= _TARGET_MAX:
        raise ImpossibleOptionError(
            "--target",
            f"{request.target:g}",
            f"it is the share of new fluid at the screw, {_TARGET_MIN:g} to {_TARGET_MAX:g}",
        )
    if request.workshop_degc is not None:
        check_within("--workshop", request.workshop_degc, _WORKSHOP_DEGC, "°C")
    check_seed(request.seed)


def _circuit(bike: Bike, name: str) -> Circuit:
    try:
        return bike.circuit(name)
    except KeyError:
        known = [circuit.name for circuit in bike.circuits]
        raise UnknownNameError("circuit", name, known) from None


def _known_for(work: Work, tables: Tables) -> Sequence[Technique]:
    return [row for row in tables.techniques() if work in row.works]


def _technique(request: PlanRequest, techniques: Sequence[Technique]) -> Technique:
    of_method = [row for row in techniques if row.method is request.method]
    if request.technique is None:
        return of_method[0]
    for row in of_method:
        if row.name == request.technique:
            return row
    names = [row.name for row in of_method]
    raise UnknownNameError(f"{request.method} technique", request.technique, names)


def _grade(
    circuit: Circuit, asked: str | None, grades: Sequence[FluidGrade]
) -> tuple[FluidGrade, tuple[str, ...]]:
    """Return the grade that goes in, and what to mind about it."""
    by_name = {grade.name: grade for grade in grades}
    fluid = circuit.fluid
    wanted = asked or next(iter(fluid.required), None) or fluid.filled
    if wanted is None:
        raise ImpossibleOptionError(
            "--fluid", "left out here", "the file does not say what the maker asks for: name it"
        )
    if wanted not in by_name:
        raise UnknownNameError("fluid", wanted, list(by_name))
    required = [by_name[name] for name in fluid.required]
    old = by_name[fluid.filled] if fluid.filled else None
    verdict = may_meet(by_name[wanted], old, required)
    if not verdict.allowed:
        raise FluidRefusedError(wanted, verdict.against or "what is in there", verdict.reason)
    return by_name[wanted], (verdict.caution,) if verdict.caution else ()
