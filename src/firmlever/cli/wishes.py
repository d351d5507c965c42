# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From the options of ``firmlever plan`` to what is asked of the planner."""

from argparse import Namespace
from collections.abc import Callable
from datetime import date

from firmlever.cli import values
from firmlever.domain.plan import PlanRequest
from firmlever.domain.tables import Method, Work


def plan_request(arguments: Namespace, today: Callable[[], date], circuit: str) -> PlanRequest:
    """Read the options.

    Raises
    ------
    UnknownNameError, ImpossibleOptionError
        When an option cannot be what was given.
    """
    warmth = arguments.workshop
    return PlanRequest(
        circuit=circuit,
        on=today() if arguments.on is None else values.day("--on", arguments.on),
        work=values.choice("work", Work, arguments.work),
        method=values.choice("method", Method, arguments.method),
        technique=arguments.technique,
        target=values.number("--target", arguments.target),
        pistons_home=arguments.pistons_home,
        fluid=arguments.fluid,
        workshop_degc=None if warmth is None else values.number("--workshop", warmth),
        seed=values.whole("--seed", arguments.seed),
    )
