# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What stands behind a plan: offers, other ways, what to measure, assumptions, cautions."""

from collections.abc import Sequence

from firmlever.domain.cautions import FIRST_AUTHORITY
from firmlever.domain.plan import Assumed, MethodTime, Narrow, PistonsHome
from firmlever.domain.quantities import SPECS
from firmlever.report.figures import band_range, in_per_cent, plain, span
from firmlever.report.layout import (
    Line,
    Page,
    Role,
    bullets,
    columns,
    heading,
    paragraph,
    quoted,
)
from firmlever.report.words import Speaker

_NARROW_SHOWN = 5
_SETTABLE = {spec.key for spec in SPECS}


def pistons_home(offers: Sequence[PistonsHome], say: Speaker) -> Page:
    """What pushing the pistons home first would save, caliper by caliper."""
    if not offers:
        return ()
    ways = dict.fromkeys(f"{offer.how[:1].upper()}{offer.how[1:]}." for offer in offers)
    return (
        *heading("Pistons home first"),
        *bullets(say(_offer(offer)) for offer in offers),
        *(line for way in ways for line in paragraph(say(way), "    ")),
    )


def _offer(offer: PistonsHome) -> str:
    less = band_range(in_per_cent(offer.left_old_less))
    done = "; already reckoned with" if offer.done else ""
    return (
        f"{offer.at}: saves {band_range(offer.saves_ml)} ml and leaves {less} points less old "
        f"fluid{done}"
    )


def methods(methods: Sequence[MethodTime], say: Speaker) -> Page:
    """How long the same job takes by other ways, and which are refused."""
    if not methods:
        return ()
    rows = [
        (
            method.method.value,
            method.technique,
            f"{band_range(method.minutes)} min" if method.allowed else "refused",
        )
        for method in methods
    ]
    lines: list[Line] = []
    for text, method in zip(columns(rows, right=(2,)), methods, strict=True):
        lines.append(Line(f"  {text}"))
        lines += paragraph(say(method.reason), "      ") if method.reason else ()
    return (*heading("The same job by other ways"), *lines)


def narrow(measurements: Sequence[Narrow], circuit: str, file: str, say: Speaker) -> Page:
    """What one measurement would buy, with the command that tells it to the file."""
    if not measurements:
        return ()
    lines: list[Line] = []
    for entry in measurements[:_NARROW_SHOWN]:
        gain = f"{span(entry.per_cent, entry.per_cent):>3} %  {entry.words}"
        how = f": {entry.measure}" if entry.measure else ""
        names = (entry.name, *entry.also)
        lines += paragraph(say(f"{gain} ({' and '.join(names)}){how}"), "  ", " " * 9)
        if entry.name.rpartition("/")[2] in _SETTABLE:
            changes = " ".join(f'"{circuit}/{name}=VALUE"' for name in names)
            lines.append(Line(f"         firmlever set {quoted(file)} {changes}"))
    lead = "Per cent of the headline's spread (as variance) that one measurement would take away."
    return (*heading("Worth measuring"), *paragraph(lead, role=Role.FAINT), *lines)


def assumed(taken: Sequence[Assumed], say: Speaker) -> Page:
    """The quantities taken from class priors, with what they rest on."""
    if not taken:
        return ()
    lines = (line for one in taken for line in paragraph(_guess(one, say), "  ", "      "))
    lead = "Not given, so taken from what is usual for this class of machine (5 to 95 %)."
    return (*heading("Assumed"), *paragraph(lead, role=Role.FAINT), *lines)


def _guess(one: Assumed, say: Speaker) -> str:
    owners = " and ".join(name.rpartition("/")[0] for name in (one.name, *one.also))
    what = f"{owners}: {say(one.words)}" if owners else say(one.words)
    value = f"{plain(one.low)}–{plain(one.high)} {one.unit}".rstrip()
    named = one.source.replace("-", " ") != one.basis
    basis = f"{one.basis}, {one.source}" if named else one.basis
    return f"{what}, {value} ({basis})"


def sources(keys: Sequence[str]) -> Page:
    """Where the figures come from, by the keys of the references."""
    if not keys:
        return ()
    return (*heading("Sources"), *paragraph(", ".join(keys), "  "))


def cautions(spoken: Sequence[str], say: Speaker) -> Page:
    """The cautions, and who comes first, whatever else is said."""
    cautions = [text for text in spoken if text != FIRST_AUTHORITY]
    return (
        *heading("Cautions"),
        *bullets(map(say, cautions)),
        Line(),
        *paragraph(say(FIRST_AUTHORITY), role=Role.ATTENTION),
    )
