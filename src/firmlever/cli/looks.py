# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From the options of ``firmlever level`` and a table of looks to what is asked."""

from argparse import Namespace
from collections.abc import Callable
from datetime import date

from firmlever.cli import values
from firmlever.domain.circuit import Circuit
from firmlever.domain.level import LevelRequest
from firmlever.domain.looks import looks_of


def level_request(
    arguments: Namespace,
    today: Callable[[], date],
    circuit: Circuit,
    text_of: Callable[[str], str],
) -> LevelRequest:
    """Read the options, then the table.

    Raises
    ------
    ImpossibleOptionError, UnreadableFileError, LooksError
        When an option cannot be what was given, or the table cannot be used.
    """
    on = today() if arguments.on is None else values.day("--on", arguments.on)
    gauge_mm = values.number("--gauge", arguments.gauge)
    ruler_mm = values.number("--ruler", arguments.ruler)
    marks = arguments.marks
    return LevelRequest(
        on=on,
        looks=looks_of(arguments.looks, text_of(arguments.looks), circuit, on, gauge_mm),
        ruler_mm=ruler_mm,
        gauge_mm=gauge_mm,
        marks_mm=None if marks is None else values.number("--marks", marks),
        seed=values.whole("--seed", arguments.seed),
    )
