# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A lever test as a page to read at the bench."""

from firmlever.domain.lever import LeverTest, NextSet, TravelShare
from firmlever.domain.quantity import Band
from firmlever.report import grounds_text as grounds
from firmlever.report.layout import Line, Page, Role, bullets, columns, heading, paragraph
from firmlever.report.words import Speaker, WordSet

_BAR = 30


def lever_page(test: LeverTest, words: WordSet = WordSet.UK) -> Page:
    """Lay out a lever test: what it says, where the travel goes, what would tell more."""
    say = Speaker(words, keep={test.bike, test.circuit})
    return (
        Line(f"{test.bike}, {test.circuit} circuit: the lever", Role.TITLE),
        Line(),
        *(line for words_ in test.says for line in paragraph(say(words_), role=Role.HEADLINE)),
        *_open(test, say),
        *_budget(test, say),
        *_next(test.next_sets, say),
        *grounds.assumed(test.assumed, say),
        *grounds.cautions(test.cautions, say),
        *grounds.sources(test.sources),
    )


def _open(test: LeverTest, say: Speaker) -> Page:
    if not test.cannot_tell:
        return ()
    return (*heading("What these readings cannot tell"), *bullets(map(say, test.cannot_tell)))


def _budget(test: LeverTest, say: Speaker) -> Page:
    whole = sum(share.travel_mm.p50 for share in test.budget)
    rows = [_row(share, whole, say) for share in test.budget]
    lead = f"Travel of an unpumped lever, 50 mm in from its end, at {test.at_n:g} N."
    lines = (Line(f"  {text}") for text in columns(rows, right=(1,)))
    return (*heading("Where the travel goes"), *paragraph(lead, role=Role.FAINT), *lines)


def _row(share: TravelShare, whole_mm: float, say: Speaker) -> tuple[str, ...]:
    bar = "█" * round(_BAR * share.travel_mm.p50 / whole_mm)
    return say(share.words), _mm(share.travel_mm), bar


def _mm(band: Band) -> str:
    return f"{band.p50:.1f} mm ({band.p05:.1f}–{band.p95:.1f})"


def _next(sets: tuple[NextSet, ...], say: Speaker) -> Page:
    if not sets:
        return ()
    words = (
        f"{one.words}: the band of the air would be {one.air_width_ml:.2f} ml wide" for one in sets
    )
    return (*heading("What would tell more"), *bullets(map(say, words)))
