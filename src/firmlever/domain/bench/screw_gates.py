# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is asked at a screw of a bleed or a fill: postures, another circuit's turn, steps."""

from firmlever.domain.bench.sheet import Gate, Stage
from firmlever.domain.fill import FillPlan
from firmlever.domain.plan import FlushPlan, PlanPoint
from firmlever.domain.tables import Work

OTHER_CIRCUIT = "now the other circuit"
_RESERVOIR, _SCREW = "fill ", "screw "
_POSTURE_WHY = "Air climbs. It leaves by this screw only while the machine stands so."
_OTHER_WHY = "The manual's order goes from one circuit to the other and back."


def screw_gates(plan: FlushPlan) -> tuple[Gate, ...]:
    """Return what a bleed or a fill asks at each screw; a flush shows its postures instead."""
    if plan.work is Work.FLUSH:
        return ()
    asked = [
        gate for index, point in enumerate(plan.points) for gate in _before_screw(index, point)
    ]
    return (*asked, *(() if plan.fill is None else _steps(plan, plan.fill)))


def _before_screw(index: int, point: PlanPoint) -> tuple[Gate, ...]:
    """Return the posture as one question, unasked where the screw needs none."""
    number = index + 1
    gates = []
    if point.note is not None and OTHER_CIRCUIT in point.note:
        words = f"{point.note[:1].upper()}{point.note[1:]}. Then come back."
        gates.append(Gate(f"other circuit {number}", "screw", words, _OTHER_WHY, index))
    if point.posture is not None:
        words = f"For this screw: {point.posture}."
        gates.append(Gate(f"posture {number}", "screw", words, _POSTURE_WHY, index))
    return tuple(gates)


def _steps(plan: FlushPlan, fill: FillPlan) -> tuple[Gate, ...]:
    """Return the fill's steps: those at a screw are answered before it is called done.

    Any other step belongs before the next screw that a step is done at, or else the last.
    The reservoir is left out, for every job at the bench begins with it.
    """
    screws = [point.at for point in plan.points]
    gates: list[Gate] = []
    index = len(screws) - 1
    for number, step in reversed(tuple(enumerate(fill.steps))):
        if step.id.startswith(_RESERVOIR):
            continue
        is_screw = step.id.startswith(_SCREW) and step.at in screws
        index = screws.index(step.at) if is_screw else index
        stage: Stage = "shutting" if is_screw else "screw"
        why = f"You should see: {step.see}"
        gates.append(Gate(f"step {number}", stage, step.words, why, index, step.see, step.stop))
    return tuple(reversed(gates))
