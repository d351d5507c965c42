# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A fill as part of the page to read at the bench, and when to stop and hand over."""

import math
from collections.abc import Sequence

from firmlever.domain.fill import FillPlan, FillStep, ReverseFill
from firmlever.domain.plan import FlushPlan
from firmlever.domain.tables import Work
from firmlever.report.figures import band_range, count, plain
from firmlever.report.layout import Line, Page, Role, bullets, heading, paragraph
from firmlever.report.words import Speaker


def until(plan: FlushPlan) -> str:
    """Say when a step ends."""
    if plan.work is Work.FILL:
        return "Each step ends when no bubbles come."
    return f"Each step ends at {plain(100 * plan.target)} % new fluid at the screw."


def beyond(words: Sequence[str], say: Speaker) -> Page:
    """Set out when to stop; common practice, no source."""
    if not words:
        return ()
    lines = bullets(map(say, words))
    return (*heading(say("Beyond this: stop (common practice, no source)")), *lines)


def fill_steps(fill: FillPlan, say: Speaker) -> Page:
    """Set out the steps, the priming on the bench and the fill from below."""
    lines = [line for place, step in enumerate(fill.steps, 1) for line in _step(place, step, say)]
    prime = (f"{place}. {words}" for place, words in enumerate(fill.prime, 1))
    return (
        *heading(say(f"Filling it dry: {band_range(fill.volume_ml)} ml with the reservoir")),
        *lines,
        *heading(say("A dry master cylinder is primed on the bench")),
        *(line for words in prime for line in paragraph(say(words), "  ", "     ")),
        *heading(say("Filling from below")),
        *bullets(say(_reverse(one)) for one in fill.reverse),
    )


def _step(place: int, step: FillStep, say: Speaker) -> Page:
    strokes = f", {count(step.strokes)} strokes" if step.strokes else ""
    return (
        *paragraph(say(f"{place:2}. {step.words}"), "  ", "      "),
        *paragraph(say(f"{band_range(step.volume_ml)} ml{strokes}. {step.see}"), "      "),
        *(Line(line.text, Role.FAINT) for line in paragraph(say(step.stop), "      ")),
    )


def _reverse(one: ReverseFill) -> str:
    if not one.allowed:
        return f"{one.at}: not here, {one.reason}."
    # a guard is rounded down
    guard = plain(math.floor(10.0 * one.draw_off_after_ml) / 10.0)
    return (
        f"{one.at}: {band_range(one.volume_ml)} ml to the reservoir. Draw it down first, and draw "
        f"it off again after each {guard} ml pushed in."
    )
