# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Plan a flush: from a described machine and a wish to a plan in numbers."""

from firmlever.domain.circuit import Bike
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.ports import Tables


def plan(bike: Bike, request: PlanRequest, tables: Tables) -> FlushPlan:
    """Plan the work on one circuit.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError, FluidRefusedError, MethodRefusedError
        When the wish cannot be met as it stands.
    BeyondToolError
        When the circuit must not be guessed about.
    """
    raise NotImplementedError
