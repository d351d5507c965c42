# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Filling a dry circuit: its volumes, its order, its guard and what it says."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from circuits import ON, Case, cases
from firmlever.bootstrap import open_workshop
from firmlever.domain.beyond import LIMITS, Condition, beyond_for
from firmlever.domain.cautions import CAUTIONS
from firmlever.domain.circuit import Bike, BikeClass, PartKind, SequenceStep
from firmlever.domain.graph import feeding_line, screws_in
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.quantity import Band, Between
from firmlever.domain.tables import Method, Work
from firmlever.errors import InputError, OrderNeededError
from firmlever.services.planning import plan
from solve.machines import asked, demo, everything, kept, outline, tourer, with_part

FEW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
OUTLINES = ("adventure", "commuter", "cruiser", "naked", "off-road", "scooter", "small", "sport")
NO_ABS = "it pushes what lies in the caliper up into the ABS unit"
ANTI_DIVE = (
    "a fill of “front” needs the manual's order, for it is linked: “left anti-dive” is an "
    "anti-dive unit; “right anti-dive” is an anti-dive unit. Enter the order as [[sequence]] in "
    "the file, or leave it to a workshop"
)
BLOCKED = "suspect a blocked hose or pipe, or a joint upstream that draws air"
CRACK = (
    "press the control lightly and hold it, crack the joint with a rag round it, close it again, "
    "and only then let the control come back slowly"
)


def filled(bike: Bike, circuit: str, **wishes: object) -> FlushPlan:
    return asked(bike, circuit, work=Work.FILL, **wishes)


def fill_of(case: Case, **wishes: object) -> FlushPlan:
    bike = Bike("Test", BikeClass.NAKED, (case.circuit,))
    request = replace(PlanRequest("front", ON, work=Work.FILL), **wishes)  # type: ignore[arg-type]
    return plan(bike, request, open_workshop().tables)


def middles(made: FlushPlan) -> float:
    assert made.fill is not None
    return sum(step.volume_ml.p50 for step in made.fill.steps)


@FEW
@given(case=cases())
def test_the_steps_hold_what_the_parts_hold(case: Case) -> None:
    """Derived: the oracle's own elements, made from bore, length and volume, and the reservoir."""
    made = fill_of(case)
    assert made.fill is not None
    parts_ml = sum(one.volume_ml + one.unswept_ml for one in case.elements)
    assert made.fill.volume_ml.p50 == pytest.approx(made.reservoir.fill_to_ml.p50 + parts_ml)
    assert middles(made) == pytest.approx(made.fill.volume_ml.p50)


@FEW
@given(case=cases())
def test_the_master_comes_first_and_no_part_before_what_feeds_it(case: Case) -> None:
    made = fill_of(case)
    assert made.fill is not None
    owner = {screw.id: part.id for part, screw in screws_in(case.circuit)}
    order = [owner.get(step.at, step.at) for step in made.fill.steps]
    assert order[:2] == ["pot", "master"]
    assert len({step.id for step in made.fill.steps}) == len(order)
    # a joint inside a run of lines is passed over: what feeds a part is the next one that shows
    for place, part in enumerate(order[1:], 1):
        before = feeding_line(case.circuit)[part].start
        while before not in order:
            assert case.circuit.part(before).kind is PartKind.JOINT
            before = feeding_line(case.circuit)[before].start
        assert order.index(before) < place
    assert set(owner.values()) <= set(order)


@FEW
@given(case=cases())
def test_what_turns_take_is_the_circuit_and_what_follows(case: Case) -> None:
    """Derived: the first millilitres of the turns, before new fluid shows, are the parts' sum."""
    made = fill_of(case)
    parts_ml = sum(one.volume_ml + one.unswept_ml for one in case.elements)
    air_ml = 0.0
    for point in made.points:
        assert point.strip.origins == ("air", "new")
        assert all(sum(shares) == pytest.approx(1.0) for shares in point.strip.shares)
        air_ml += point.strip.slice_ml * sum(shares[0] for shares in point.strip.shares)
        assert [share.p50 for share in point.washout.new_share] == sorted(
            share.p50 for share in point.washout.new_share
        )
        assert point.washout.new_share[-1].p50 == 1.0
    assert air_ml == pytest.approx(parts_ml)
    assert made.through_ml.p05 > parts_ml


@pytest.mark.parametrize("name", OUTLINES)
def test_every_outline_gives_a_fill(name: str) -> None:
    bike = outline(name)
    for circuit in bike.circuits:
        made = filled(bike, circuit.name, fluid="DOT 4")
        assert made.fill is not None
        assert made.fill.volume_ml.p05 > 0.0
        assert made.left_old.whole == Band(0.0, 0.0, 0.0)
        assert set(made.left_old.parts_ml.values()) == {Band(0.0, 0.0, 0.0)}


def test_every_shipped_and_odd_circuit_gives_a_fill_or_its_refusal() -> None:
    refused = {}
    for name, bike, circuit in everything():
        try:
            made = filled(bike, circuit)
        except InputError as error:
            refused[name] = str(error)
            continue
        assert made.fill is not None
        assert middles(made) == pytest.approx(made.fill.volume_ml.p50, rel=0.05)
        screws = {point.at for point in made.points}
        assert screws <= {step.at for step in made.fill.steps}
    assert refused == {"remote_anti_dive": ANTI_DIVE}


def test_a_dry_abs_unit_is_a_limit_and_a_finding() -> None:
    made = filled(tourer(), "front")
    emptied = (
        "The ABS unit is filled dry: without the maker's tool air can stay behind its valves. Have "
        "the tool at hand, or stop here and leave it to a workshop."
    )
    assert made.findings == (emptied,)
    assert made.beyond == (
        emptied,
        (
            "If it turns out to be linked with another circuit in a way the file does not show: "
            "stop. The manual's order is needed."
        ),
        (
            "If a screw does not turn with a short six-point ring spanner: stop before it rounds "
            "or snaps, and before the reservoir is opened."
        ),
        (
            "If gel, sludge, crystals or rust come out: stop. That is stripped and cleaned, not "
            "flushed out."
        ),
    )


def test_a_flush_has_no_fill_and_a_brake_without_abs_no_sure_limit() -> None:
    flushed = asked(tourer(), "front")
    assert (flushed.fill, flushed.beyond) == (None, ())
    made = filled(demo("Dunlin 650"), "front")
    assert not made.findings
    assert len(made.beyond) == 3


def test_each_limit_belongs_to_its_condition_alone() -> None:
    for condition in Condition:
        words = tuple(limit.words for limit in LIMITS if limit.applies is condition)
        assert words
        assert beyond_for(frozenset({condition})) == words


def test_what_is_done_seen_and_suspected() -> None:
    made = filled(tourer(), "front")
    assert made.fill is not None
    said = [(step.id, step.words, step.see, step.stop) for step in made.fill.steps]
    strokes = [step.strokes.p95 if step.strokes else 0 for step in made.fill.steps]
    assert said[:4] == [
        (
            "fill pot",
            (
                "Fill the reservoir to the plan's line and lay its cover on; keep it above MIN "
                "from now on."
            ),
            "Fluid stands still at the line, and a few bubbles rise from the ports.",
            "If the level falls while nothing is worked, stop: a joint below is open or leaks.",
        ),
        (
            "joint master",
            (
                "Prime “master”: short slow strokes until bubbles stop, then press lightly and "
                "hold, and crack the joint at its outlet with a rag round it, and close it before "
                "the control comes back."
            ),
            (
                "Bubbles rise in the reservoir with short strokes, and a small spurt shows that "
                "the port is open; then fluid without bubbles at the outlet, and the control meets "
                "resistance."
            ),
            (
                f"If no fluid has come after {2 * strokes[1]} strokes, stop: suspect a blocked "
                "compensating port, a wrongly built cylinder (cup the wrong way round, spring or "
                "seal left out), or a wrong lever or pushrod that keeps the piston from coming "
                "back."
            ),
        ),
        (
            "joint abs unit",
            f"At the ABS unit “abs unit”: {CRACK}; first the joint into it, then those out of it.",
            "Fluid without bubbles at each joint. Air behind closed valves does not show.",
            (
                f"If no fluid has come after {2 * strokes[2]} strokes, stop: {BLOCKED}; an ABS "
                "unit that passes nothing needs the maker's tool."
            ),
        ),
        (
            "joint splitter",
            f"At “splitter”: {CRACK}.",
            "Air spits, then fluid without bubbles, and the control meets resistance sooner.",
            f"If no fluid has come after {2 * strokes[3]} strokes, stop: {BLOCKED}.",
        ),
    ]
    assert said[4] == (
        "screw left caliper",
        (
            "At the screw “left caliper” of “left caliper”: work it by lever (close before "
            "release) until no bubbles come."
        ),
        "Air spits in the tube, then fluid with bubbles, then fluid without.",
        (
            f"If no fluid has come after {2 * strokes[4]} strokes, stop: {BLOCKED}; check that "
            "this part belongs to this control."
        ),
    )


def test_without_a_lever_the_limit_is_in_millilitres() -> None:
    made = filled(demo("Dunlin 650"), "front", method=Method.VACUUM)
    assert made.fill is not None
    screw = made.fill.steps[-1]
    assert screw.strokes is None
    assert screw.stop == (
        f"If {round(2 * screw.volume_ml.p95)} ml have gone and no fluid has come, stop: {BLOCKED}; "
        "check that this part belongs to this control."
    )
    # the master is primed by the control whatever follows
    assert made.fill.steps[1].strokes is not None


def test_an_abs_unit_refuses_a_fill_from_below() -> None:
    made = filled(tourer(), "front")
    assert made.fill is not None
    assert [(one.at, one.allowed, one.reason) for one in made.fill.reverse] == [
        ("left caliper", False, NO_ABS),
        ("right caliper", False, NO_ABS),
    ]
    assert {one.method: one.reason for one in made.methods}[Method.REVERSE] == NO_ABS
    with pytest.raises(InputError) as refused:
        filled(tourer(), "front", method=Method.REVERSE)
    assert str(refused.value) == f"a reverse fill is refused here: {NO_ABS}"


def test_the_overflow_guard_takes_the_bad_end() -> None:
    """Derived: the 5 % point of MAX less what stands in the reservoir; both log-normal or exact."""
    bike = demo("Dunlin 650")
    circuit = bike.circuit("front")
    known = with_part(circuit, "pot", max_ml=30.0, left_after_draw_ml=4.0)
    sure = filled(replace(bike, circuits=(known,)), "front").fill
    assert sure is not None
    assert [one.draw_off_after_ml for one in sure.reverse] == pytest.approx([26.0, 26.0])
    pot = known.part("pot")
    vague = replace(pot, given={**pot.given, "max_ml": Between(25.0, 36.0)})
    parts = tuple(vague if part.id == "pot" else part for part in known.parts)
    unsure = filled(replace(bike, circuits=(replace(known, parts=parts),)), "front").fill
    assert unsure is not None
    assert [one.draw_off_after_ml for one in unsure.reverse] == pytest.approx([21.0] * 2, abs=0.05)


def test_where_a_fill_from_below_is_offered_its_caution_stands() -> None:
    backwards = next(one.words for one in CAUTIONS if one.id == "backwards")
    assert backwards in filled(demo("Dunlin 650"), "front").cautions
    assert backwards not in filled(tourer(), "front").cautions
    assert backwards not in asked(demo("Dunlin 650"), "front").cautions


def test_from_below_the_joints_are_filled_through_the_screws() -> None:
    made, usual = (
        filled(outline("cruiser"), "front", method=method, fluid="DOT 4").fill
        for method in (Method.REVERSE, Method.LEVER)
    )
    assert made is not None
    assert usual is not None
    assert [step.id for step in usual.steps][2] == "joint splitter"
    assert [step.id for step in made.steps] == [
        "fill pot",
        "joint master",
        "screw left caliper",
        "screw right caliper",
    ]
    assert made.volume_ml == usual.volume_ml
    assert made.steps[2].volume_ml.p50 > usual.steps[3].volume_ml.p50
    assert made.steps[2].words == (
        "At the screw “left caliper” of “left caliper”: draw the reservoir down first, push fluid "
        "in slowly from a syringe without air, and draw the reservoir off again in time."
    )
    assert made.steps[2].see == "Bubbles, then fluid, rise in the reservoir."


def test_priming_strokes_bring_less_than_bleeding_ones() -> None:
    """Derived: at least the volume over a full stroke, for 0.7 of a stroke is the good end."""
    made = filled(tourer(), "front")
    assert made.fill is not None
    for step in made.fill.steps[1:]:
        assert step.strokes is not None
        assert step.strokes.p05 > step.volume_ml.p05 / made.unit_ml.p95 * 0.7
    names = {one.name for one in made.assumed}
    assert {"work/priming_share", "work/after_fill"} <= names


def test_the_files_order_is_followed_across_circuits() -> None:
    """The odd file's own sequence: linked, linked, front, front, linked."""
    bike = kept("odd/shared_body")
    linked, front = filled(bike, "linked"), filled(bike, "front")
    assert [point.at for point in linked.points] == ["rear caliper", "left middle", "rear caliper"]
    assert linked.points[1].posture == (
        "left front caliper off its bracket, this screw its highest point, spacer between the pads"
    )
    assert linked.points[2].note == (
        "now the other circuit: front, screw “left outer”; now the other circuit: front, screw "
        "“right caliper”; until the pedal is firm; the second time, after both front calipers"
    )
    assert front.points[1].note == (
        "after this; now the other circuit: linked, screw “rear caliper”; until the pedal is firm; "
        "the second time, after both front calipers"
    )
    assert linked.fill is not None
    said = {step.id: step.words for step in linked.fill.steps}
    assert said["screw left middle"].endswith(
        "until no bubbles come. Left front caliper off its bracket, this screw its highest point, "
        "spacer between the pads. Until new fluid comes and no bubbles for ten strokes; refit the "
        "caliper before the next step, not earlier."
    )


def test_a_linked_circuit_without_its_order_is_handed_over() -> None:
    bike = replace(kept("odd/shared_body"), sequence=())
    with pytest.raises(OrderNeededError) as refused:
        filled(bike, "front")
    assert str(refused.value) == (
        "a fill of “front” needs the manual's order, for it is linked: “left caliper” shares its "
        "body with the circuit “linked”. Enter the order as [[sequence]] in the file, or leave it "
        "to a workshop"
    )
    (finding,) = asked(bike, "front").findings
    assert finding == (
        "This circuit is linked: “left caliper” shares its body with the circuit “linked”. The "
        "manual's order is needed: enter it as [[sequence]]"
    )
    # an order for the other circuit alone is none for this one
    other = replace(bike, sequence=(SequenceStep("linked", "rear caliper"),))
    with pytest.raises(OrderNeededError):
        filled(other, "front")
