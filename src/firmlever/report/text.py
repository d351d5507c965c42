# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A plan as a page to read at the bench."""

from collections.abc import Mapping

from firmlever.domain.circuit import Circuit, PartKind
from firmlever.domain.plan import FlushPlan, PlanPoint, Tool
from firmlever.domain.tables import Work
from firmlever.report import grounds_text as grounds
from firmlever.report.drawing_text import draw_circuit
from firmlever.report.figures import (
    at_least,
    band_range,
    count,
    counted,
    per_cent,
    plain,
    times,
)
from firmlever.report.fill_text import beyond, fill_steps, until
from firmlever.report.layout import (
    Line,
    Page,
    Role,
    columns,
    cut,
    heading,
    paragraph,
)
from firmlever.report.words import Speaker, WordSet

_MOST = 0.5
_NAME = 24
_KIND_WORDS = {PartKind.MODULATOR: "ABS unit"}


def plan_page(
    plan: FlushPlan,
    circuit: Circuit,
    file: str,
    usual_mm: Mapping[str, float],
    words: WordSet = WordSet.UK,
) -> Page:
    """Lay out a plan: the sentence, the drawing, the steps, then what stands behind them.

    ``file`` is the circuit file, for commands a person can copy; ``usual_mm`` the height
    of parts whose own is not given.
    """
    say = Speaker(words, keep=given_names(plan, circuit))
    return (
        *_title(plan),
        *headline(plan, circuit, say),
        *findings(plan, say),
        # what a finding says already is not said again
        *beyond([words for words in plan.beyond if words not in plan.findings], say),
        *_drawing(plan, circuit, usual_mm, say),
        *(fill_steps(plan.fill, say) if plan.fill else ()),
        *points_table(plan, say),
        *_at_the_bench(plan, say),
        *grounds.pistons_home(plan.pistons_home, say),
        *grounds.methods(plan.methods, say),
        *grounds.narrow(plan.narrow, plan.circuit, file, say),
        *grounds.assumed(plan.assumed, say),
        *grounds.sources(plan.sources),
        *grounds.cautions(plan.cautions, say),
    )


def headline(plan: FlushPlan, circuit: Circuit, say: Speaker) -> Page:
    """Say the result as a mechanic would."""
    left = plan.left_old
    stays = f"{per_cent(left.whole)} stays old{_where(plan, circuit)}"
    after = f"riding evens the {_wheel_end(circuit)} out to {per_cent(left.after_mixing)}."
    through = f"{band_range(plan.through_ml)} ml go through"
    sentence = {
        Work.FLUSH: f"{stays}; {after}",
        Work.BLEED: f"{through} to bring the air out; {stays}.",
        Work.FILL: f"{through} to fill it.",
    }[plan.work]
    return paragraph(say(sentence), role=Role.HEADLINE)


def points_table(plan: FlushPlan, say: Speaker) -> Page:
    """Set the steps out in a table, one screw a row."""
    head = ("", "screw", "spanner", "ml", "strokes", "top-ups", "minutes")
    rows = [tuple(map(say, head))]
    rows += [_row(place, point) for place, point in enumerate(plan.points, 1)]
    table = columns(rows, right=(3, 4, 5, 6))
    lines = [Line(), Line(table[0], Role.HEADING)]
    for text, point in zip(table[1:], plan.points, strict=True):
        lines.append(Line(text))
        asides = [aside for aside in (point.posture, point.note) if aside]
        lines += [line for aside in asides for line in paragraph(say(aside), "     ")]
    return tuple(lines)


def given_names(plan: FlushPlan, circuit: Circuit) -> set[str]:
    """Return the names people gave, which no word set may change."""
    return {
        plan.bike,
        plan.circuit,
        *(part.id for part in circuit.parts),
        *(point.at for point in plan.points),
        *(entry.name for entry in plan.assumed),
        *(entry.name for entry in plan.narrow),
    }


def _title(plan: FlushPlan) -> Page:
    how = f"{plan.work} by {plan.method} ({plan.technique}), {plan.fluid}"
    home = ", pistons home first" if plan.pistons_home_first else ""
    return (
        *paragraph(f"{plan.bike}, {plan.circuit} circuit", role=Role.TITLE),
        *paragraph(f"{how}{home}. {plan.on.isoformat()}. {until(plan)}", role=Role.FAINT),
        Line(),
    )


def _where(plan: FlushPlan, circuit: Circuit) -> str:
    """Name the part that holds most of the old fluid, or at least more than any other."""
    old_ml = {name: old.p50 for name, old in plan.left_old.parts_ml.items()}
    total_ml = sum(old_ml.values())
    if total_ml <= 0:
        return ""
    name = max(old_ml, key=lambda one: old_ml[one])
    most = "most" if old_ml[name] > _MOST * total_ml else "much"
    return f", {most} of it in the {_spoken(name, circuit)}"


def _spoken(name: str, circuit: Circuit) -> str:
    """Name a part by its kind where there is only one, else as its owner did."""
    for part in circuit.parts:
        if part.id == name and len(circuit.of_kind(part.kind)) == 1:
            return _KIND_WORDS.get(part.kind, part.kind.value)
    return name if name in {part.id for part in circuit.parts} else f"line {name}"


def _wheel_end(circuit: Circuit) -> str:
    ends = circuit.of_kind(PartKind.CALIPER, PartKind.SLAVE)
    return f"{ends[0].kind.value if ends else 'circuit'}{'s' if len(ends) > 1 else ''}"


def findings(plan: FlushPlan, say: Speaker) -> Page:
    """Set out what needs attention before the work."""
    if not plan.findings:
        return ()
    lines = [line for text in plan.findings for line in paragraph(say(text), "  ! ", "    ")]
    attention = tuple(Line(line.text, Role.ATTENTION) for line in lines)
    return (Line(), Line("Needs attention", Role.ATTENTION), *attention)


def _drawing(
    plan: FlushPlan, circuit: Circuit, usual_mm: Mapping[str, float], say: Speaker
) -> Page:
    lines = draw_circuit(circuit, plan, usual_mm, say)
    usual = "   ≈ usual height" if any(line.startswith("≈") for line in lines) else ""
    key = f"▒ stays old   ░ new   ⬡ screw, in working order{usual}"
    return (Line(), *map(Line, lines), Line(f"         {key}", Role.FAINT))


def _row(place: int, point: PlanPoint) -> tuple[str, ...]:
    return (
        str(place),
        cut(point.at, _NAME),
        _size(point.hex_mm),
        band_range(point.volume_ml),
        count(point.strokes) if point.strokes else "-",
        times(point.topups),
        band_range(point.minutes),
    )


def _size(hex_mm: float | None) -> str:
    return "?" if hex_mm is None else f"{plain(hex_mm)} mm"


def _at_the_bench(plan: FlushPlan, say: Speaker) -> Page:
    pots = f"{band_range(plan.pots_min_max)} times what lies between MIN and MAX"
    facts = (
        ("Work", f"{band_range(plan.minutes)} minutes in all"),
        ("Reservoir", _reservoir(plan)),
        ("Through", f"{band_range(plan.through_ml)} ml, {pots}"),
        ("Buy", f"{plan.buy_ml} ml of {plan.fluid}"),
        ("Spanners", "; ".join(_tool(tool) for tool in plan.tools)),
        ("Order", _order(plan)),
    )
    steps = (f"{place}. {step}" for place, step in enumerate(plan.technique_steps, 1))
    return (
        Line(),
        *(
            line
            for name, text in facts
            for line in paragraph(say(f"{name + ':':11}{text}"), hang=" " * 11)
        ),
        *heading(say(f"Each time ({plan.technique})")),
        *(line for step in steps for line in paragraph(say(step), "  ", "     ")),
    )


def _reservoir(plan: FlushPlan) -> str:
    pot = plan.reservoir
    ml, side = at_least(pot.ml_to_min), at_least(pot.on_side_stand_ml)
    after = f"{ml} ml"
    if pot.strokes_to_min is not None:
        after = f"{counted(str(pot.strokes_to_min.p05), 'stroke')} ({ml} ml)"
    return (
        f"top up after {after}, on the side stand after {side} ml; "
        f"at the end fill to {band_range(pot.fill_to_ml)} ml"
    )


def _tool(tool: Tool) -> str:
    size = "size not known" if tool.hex_mm is None else _size(tool.hex_mm)
    return f"{size} ({', '.join(tool.screws)})"


def _order(plan: FlushPlan) -> str:
    order = plan.order
    difference = f"{plain(round(abs(order.difference_ml), 1))} ml"
    if order.either:
        return f"{order.reason}; either order would do, they differ by {difference}"
    if not order.difference_ml:
        return order.reason
    more = "more" if order.difference_ml > 0 else "less"
    return f"{order.reason}; the other way round takes {difference} {more}"
