# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The demo workshop: one short page a circuit, and how to go on."""

from firmlever.domain.cautions import FIRST_AUTHORITY
from firmlever.domain.circuit import Circuit
from firmlever.domain.plan import FlushPlan
from firmlever.report.layout import Line, Page, Role, paragraph
from firmlever.report.text import findings, given_names, headline, points_table
from firmlever.report.words import Speaker, WordSet


def demo_page(plan: FlushPlan, circuit: Circuit, words: WordSet = WordSet.UK) -> Page:
    """Say what one plan comes to: the sentence, the steps, and what to buy."""
    say = Speaker(words, keep=given_names(plan, circuit))
    buy = f"{plan.work} by {plan.method}; buy {plan.buy_ml} ml of {plan.fluid}"
    return (
        *paragraph(f"{plan.bike}, {plan.circuit} circuit", role=Role.TITLE),
        *paragraph(say(buy), role=Role.FAINT),
        *headline(plan, circuit, say),
        *findings(plan, say),
        *points_table(plan, say),
        Line(),
    )


def demo_end(words: WordSet = WordSet.UK) -> Page:
    """Say how to plan a machine of one's own."""
    say = Speaker(words)
    return (
        *paragraph(
            "These machines are invented. The whole plan of one holds the drawing, the "
            "reservoir, what to measure, what was assumed, and the cautions. For your own:"
        ),
        Line('  firmlever new mine.toml --class naked --name "Mine"'),
        Line("  firmlever check mine.toml"),
        Line("  firmlever plan mine.toml --circuit front"),
        Line(),
        *paragraph(say(FIRST_AUTHORITY), role=Role.ATTENTION),
    )
