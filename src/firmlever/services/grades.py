# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which grade of fluid is in a circuit, as far as anybody knows."""

from collections.abc import Sequence

from firmlever.domain.circuit import Circuit
from firmlever.domain.tables import FluidBase, FluidGrade


def grade_in(circuit: Circuit, grades: Sequence[FluidGrade]) -> FluidGrade:
    """Return the grade that is in there, or else the one that most likely is."""
    named = (circuit.fluid.filled, *circuit.fluid.required)
    by_name = {grade.name: grade for grade in grades}
    known = [by_name[name] for name in named if name in by_name]
    usual = [grade for grade in grades if grade.base is FluidBase.GLYCOL]
    return (known or usual)[0]
