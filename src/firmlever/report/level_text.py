# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the looks at a level say, as a page to read at the bench."""

from datetime import date

from firmlever.domain.level import BetweenLooks, DateBand, LevelReport
from firmlever.domain.quantity import Band
from firmlever.report import grounds_text as grounds
from firmlever.report.figures import plain
from firmlever.report.layout import Line, Page, Role, columns, heading, paragraph
from firmlever.report.words import Speaker, WordSet

_HEAD = ("from", "to", "level fell", "topped up", "wear drew", "left over")


def level_page(report: LevelReport, file: str, words: WordSet = WordSet.UK) -> Page:
    """Lay out what the looks say: the verdict, the balance, what comes next, the grounds."""
    say = Speaker(words, keep={report.bike, report.circuit})
    title = f"{report.bike}, {report.circuit} circuit: the level"
    return (
        *paragraph(title, role=Role.TITLE),
        *paragraph(f"{report.on.isoformat()}. In ml, 5 to 95 %.", role=Role.FAINT),
        Line(),
        *paragraph(say(report.says[0]), role=Role.HEADLINE),
        *(line for text in report.says[1:] for line in paragraph(say(text))),
        *_findings(report, say),
        *_balance(report),
        *_next(report, say),
        *grounds.narrow(report.narrow, report.circuit, file, say),
        *grounds.assumed(report.assumed, say),
        *grounds.sources(report.sources),
        *grounds.cautions(report.cautions, say),
    )


def _findings(report: LevelReport, say: Speaker) -> Page:
    if not report.findings:
        return ()
    lines = [line for text in report.findings for line in paragraph(say(text), "  ! ", "    ")]
    attention = (Line(line.text, Role.ATTENTION) for line in lines)
    return (Line(), Line("Needs attention", Role.ATTENTION), *attention)


def _balance(report: LevelReport) -> Page:
    if not report.between:
        return ()
    rows = [_HEAD, *(_row(one) for one in report.between)]
    lines = [Line(f"  {text}") for text in columns(rows, right=(2, 3, 4, 5))]
    rates = [_rate(report.left_per_month_ml, "a month")]
    rates.append(_rate(report.left_per_1000_km_ml, "in 1000 km"))
    said = "; ".join(rate for rate in rates if rate)
    return (*heading("Where it went"), *lines, *paragraph(f"Left over: {said}.", "  "))


def _row(one: BetweenLooks) -> tuple[str, ...]:
    return (
        one.start.isoformat(),
        one.end.isoformat(),
        _ends(one.fell_ml),
        plain(one.topped_up_ml),
        _ends(one.drawn_ml),
        _ends(one.left_ml),
    )


def _rate(band: Band | None, of: str) -> str:
    return "" if band is None else f"{_ends(band)} ml {of}"


def _next(report: LevelReport, say: Speaker) -> Page:
    facts = [
        ("Level now", f"{_ends(report.level_ml)} ml, {_ends(report.above_min_ml)} above MIN"),
        ("Fill to", f"{_ends(report.fill_to_ml)} ml, so that new pads do not overflow it"),
    ]
    pads = report.new_pads
    if pads is not None:
        first = f"{pads.take_out_first_ml:.1f} ml"
        guard = f"take out {first} first" if pads.take_out_first_ml > 0 else "there is room"
        facts.append(("New pads", f"push up {_ends(pads.rise_ml)} ml; {guard}"))
    if report.min_on is not None:
        facts.append(("At MIN", _min_on(report.min_on, report.pads_gone_first)))
    lines = (
        line
        for name, text in facts
        for line in paragraph(say(f"{name + ':':11}{text}"), "  ", " " * 13)
    )
    return (*heading("What comes next"), *lines)


def _min_on(dates: DateBand, pads_gone_first: float | None) -> str:
    ends = f"{_day(dates.p05)} to {_day(dates.p95)}, middle {_day(dates.p50)}, by wear alone"
    if pads_gone_first is None:
        return ends
    return f"{ends}; {100 * pads_gone_first:.0f} % that the pads are gone before"


def _day(day: date | None) -> str:
    return "never in thirty years" if day is None else day.isoformat()


def _ends(band: Band) -> str:
    """Write the ends of a band to a tenth: the finest a level is read to.

    >>> _ends(Band(-0.62, 0.4, 1.38))
    '-0.6 to 1.4'
    """
    low, high = round(band.p05, 1) + 0.0, round(band.p95, 1) + 0.0
    return f"{low:.1f} to {high:.1f}"
