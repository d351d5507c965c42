# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From the options of a command to what is asked of the services."""

from argparse import Namespace
from collections.abc import Callable
from datetime import date

from firmlever.cli import values
from firmlever.domain.air_map import AirRequest, Posture
from firmlever.domain.lever import Moment, Readings
from firmlever.domain.plan import PlanRequest
from firmlever.domain.readings import readings_of
from firmlever.domain.tables import Method, Work
from firmlever.errors import ImpossibleOptionError
from firmlever.services.feeling import LeverRequest


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


def lever_request(
    arguments: Namespace, today: Callable[[], date], text_of: Callable[[str], str]
) -> LeverRequest:
    """Read the options of a lever test and its tables of readings.

    Raises
    ------
    UnreadableFileError, ReadingsError, ImpossibleOptionError
        When a file cannot be read, a table is wrong, or an option cannot be what was given.
    """
    read = readings_of(arguments.readings, text_of(arguments.readings))
    if arguments.after is not None:
        later = readings_of(arguments.after, text_of(arguments.after), Moment.AFTER)
        # a leak that was mended must not be found again: later holds stand for both
        read = Readings(read.sets + later.sets, later.holds or read.holds)
    return LeverRequest(
        on=today() if arguments.on is None else values.day("--on", arguments.on),
        sets=read.sets,
        ruler_mm=values.number("--ruler", arguments.ruler),
        altitude_m=values.number("--altitude", arguments.altitude),
        holds=read.holds,
    )


def air_request(arguments: Namespace, today: Callable[[], date]) -> AirRequest:
    """Read the options of an air map.

    Raises
    ------
    ImpossibleOptionError
        When an option cannot be what was given.
    """
    return AirRequest(
        on=today() if arguments.on is None else values.day("--on", arguments.on),
        posture=Posture(
            bars_deg=values.number("--bars", arguments.bars),
            lean_deg=values.number("--lean", arguments.lean),
            lifted_mm=dict(_lift(text) for text in arguments.lift),
            screw_up=tuple(arguments.screw_up),
        ),
        seed=values.whole("--seed", arguments.seed),
    )


def _lift(text: str) -> tuple[str, float]:
    part, is_there, height = text.rpartition("=")
    if not is_there or not part:
        raise ImpossibleOptionError("--lift", text, "it is a part and millimetres, as master=150")
    return part, values.number("--lift", height)
