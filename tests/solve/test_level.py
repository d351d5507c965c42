# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at a level: a literal second opinion, laws of balance, and what comes next."""

import random
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from statistics import quantiles

import pytest

from firmlever.domain.circuit import Bike, BikeClass, Circuit, Part, PartKind
from firmlever.domain.level import (
    LevelLook,
    LevelMeasure,
    LevelReport,
    LevelRequest,
    LevelVerdict,
    PadReading,
    Stand,
)
from firmlever.domain.quantity import Band, Exact
from firmlever.domain.tables import FluidBase
from firmlever.errors import ImpossibleOptionError
from firmlever.services.levelling import judge, needs_attention
from firmlever.solve.level.leak import is_sure
from solve.machines import DATA, ON, WORKSHOP, asked, kept, outline, tourer

START = date(2025, 10, 1)
DAYS = 180
# 2 x (32 and 28 mm) a caliper, both sides: by hand, cm2
TWIN_CM2, SINGLE_CM2 = 28.400, 11.451


def look(day: int, ml: float, **more: object) -> LevelLook:
    plain = LevelLook(START + timedelta(days=day), LevelMeasure.CONTENT, ml, degc=20.0)
    return replace(plain, **more)  # type: ignore[arg-type]


def twin(left: float, right: float) -> dict[str, PadReading]:
    return {"left caliper": PadReading(left), "right caliper": PadReading(right)}


def single(thin: float, other: float | None = None) -> dict[str, PadReading]:
    return {"rear caliper": PadReading(thin, other)}


def judged(circuit: str, looks: Sequence[LevelLook], **more: object) -> LevelReport:
    bike = tourer()
    request = replace(LevelRequest(ON, tuple(looks)), **more)  # type: ignore[arg-type]
    return judge(bike, bike.circuit(circuit), request, WORKSHOP.tables)


def sharp(circuit: str, looks: Sequence[LevelLook], **more: object) -> LevelReport:
    """Read so finely that only what cannot be read stays open."""
    return judged(circuit, looks, ruler_mm=0.01, gauge_mm=0.01, **more)


def span(band: Band | None) -> float:
    assert band is not None
    return band.p95 - band.p05


def middle(band: Band | None) -> float:
    assert band is not None
    return band.p50


# A literal second opinion


def literal_left_ml(
    fell: float, thin_mm: float, ruler: float, gauge: float, count: int
) -> list[float]:
    """The balance of the twin disc, one draw after the other, with another source of chance.

    Derived: fall less wear, from the same stated errors and priors, in plain arithmetic.
    """
    chance = random.Random(7)

    def within(error: float) -> float:
        return chance.gauss(0.0, error / 1.645)

    def cut(low: float, high: float) -> float:
        while True:
            value = chance.gauss((low + high) / 2.0, (high - low) / 3.29)
            if 0.0 <= value <= 1.0:
                return value

    def spread(low: float, high: float) -> float:
        return float((low * high) ** 0.5 * (high / low) ** (chance.gauss(0.0, 1.0) / 3.29))

    found = []
    for _ in range(count):
        ml_a_mm = (38.0 - 16.0) / spread(8.0, 22.0)
        level_fell = fell + ml_a_mm * (within(ruler) - within(ruler))
        drawn = 0.0
        other, disc = cut(0.8, 0.99), spread(0.02, 0.12)
        for _caliper in range(2):
            near = thin_mm + within(gauge) - within(gauge)
            far = other * near
            travel = (near + far + disc * (near + far) / 2.0) / 2.0
            drawn += TWIN_CM2 * travel / 10.0
        warmth = 75.0 * 0.9e-3 * (within(3.0) - within(3.0))
        found.append(level_fell - drawn + warmth)
    return found


@pytest.mark.parametrize(
    ("fell", "worn", "ruler", "gauge"), [(4.0, 0.6, 0.5, 0.5), (9.0, 1.2, 0.3, 0.1)]
)
def test_a_literal_second_opinion(fell: float, worn: float, ruler: float, gauge: float) -> None:
    """Three percentiles of what is left, within a tenth of the band's width (derived)."""
    looks = (
        look(0, 34.0, pads=twin(4.6, 4.6)),
        look(DAYS, 34.0 - fell, pads=twin(4.6 - worn, 4.6 - worn)),
    )
    left = judged("front", looks, ruler_mm=ruler, gauge_mm=gauge).left_ml
    assert left is not None
    cuts = quantiles(literal_left_ml(fell, worn, ruler, gauge, 20_000), n=20)
    for mine, literal in zip(
        (left.p05, left.p50, left.p95), (cuts[0], cuts[9], cuts[18]), strict=True
    ):
        assert mine == pytest.approx(literal, abs=0.1 * span(left))


# Laws


@pytest.mark.parametrize("worn_mm", [0.0, 0.5, 2.0])
def test_wear_draws_piston_area_by_travel(worn_mm: float) -> None:
    """Derived: both pads and the disc read, so nothing is left to a prior."""
    discs = ({"rear caliper": 5.0}, {"rear caliper": 5.0 - 0.05 * worn_mm})
    looks = (
        look(0, 24.0, pads=single(4.9, 5.0), discs_mm=discs[0]),
        look(DAYS, 22.0, pads=single(4.9 - worn_mm, 5.0 - 0.8 * worn_mm), discs_mm=discs[1]),
    )
    travel_mm = worn_mm * (1.0 + 0.8 + 0.05)
    assert middle(sharp("rear", looks).drawn_ml) == pytest.approx(
        SINGLE_CM2 * travel_mm / 10.0, abs=0.02
    )


def test_what_goes_in_and_out_adds_up() -> None:
    """Fall + topped up = drawn - warmth + left, in the middle (derived)."""
    looks = (
        look(0, 24.0, pads=single(4.9)),
        look(60, 25.0, pads=single(4.5), topped_up_ml=3.0),
        look(DAYS, 20.0, pads=single(3.9), degc=30.0),
    )
    for one in judged("rear", looks).between:
        into = middle(one.fell_ml) + one.topped_up_ml
        out = middle(one.drawn_ml) - middle(one.warmth_ml) + middle(one.left_ml)
        assert into == pytest.approx(out, abs=0.1)


def test_a_lower_level_is_more_gone_and_more_wear_is_less() -> None:
    def left(ml: float, thin: float) -> float:
        return middle(
            judged(
                "rear", (look(0, 24.0, pads=single(4.9)), look(DAYS, ml, pads=single(thin)))
            ).left_ml
        )

    falling = [left(ml, 4.0) for ml in (23.0, 21.0, 19.0)]
    assert falling[0] + 2.0 == pytest.approx(falling[1], abs=0.05)
    assert falling[1] + 2.0 == pytest.approx(falling[2], abs=0.05)
    wearing = [left(21.0, thin) for thin in (4.8, 4.2, 3.6)]
    assert wearing[0] > wearing[1] > wearing[2]


def test_a_steady_loss_is_the_same_over_two_looks_and_over_five() -> None:
    """Derived: 4 ml in half a year by a leak, with pads that do not wear."""
    five = [look(45 * n, 24.0 - n, pads=single(4.0)) for n in range(5)]
    assert middle(sharp("rear", five).left_ml) == pytest.approx(4.0, abs=0.05)
    assert middle(sharp("rear", [five[0], five[4]]).left_ml) == pytest.approx(4.0, abs=0.05)
    month = middle(sharp("rear", five).left_per_month_ml)
    assert month == pytest.approx(4.0 / (180 / 30.4375), abs=0.02)


def test_finer_readings_never_widen_the_band() -> None:
    looks = (look(0, 24.0, pads=single(4.9)), look(DAYS, 22.0, pads=single(4.2)))
    widths = [
        span(judged("rear", looks, ruler_mm=mm, gauge_mm=mm).left_ml) for mm in (1.0, 0.5, 0.1)
    ]
    assert widths[0] > widths[1] > widths[2]
    both = (look(0, 24.0, pads=single(4.9, 4.9)), look(DAYS, 22.0, pads=single(4.2, 4.2)))
    assert span(sharp("rear", both).left_ml) < span(sharp("rear", looks).left_ml)


def test_a_side_stand_widens_one_look_and_cancels_in_two() -> None:
    def width(*stands: Stand) -> float:
        looks = [
            look(DAYS * n, 24.0 - n, pads=single(4.0), stand=stand)
            for n, stand in enumerate(stands)
        ]
        return span(sharp("rear", looks).left_ml)

    level = width(Stand.LEVEL, Stand.LEVEL)
    assert width(Stand.LEVEL, Stand.SIDE) > 10 * level
    assert width(Stand.SIDE, Stand.SIDE) == pytest.approx(level, abs=0.05)


def test_three_ways_to_read_the_same_level_agree() -> None:
    def left(measure: LevelMeasure, first: float, last: float) -> float:
        looks = [
            look(day, level, measure=measure, pads=single(4.0))
            for day, level in ((0, first), (DAYS, last))
        ]
        return middle(sharp("rear", looks, marks_mm=16.0).left_ml)

    ml = left(LevelMeasure.CONTENT, 27.0, 19.0)
    assert left(LevelMeasure.SHARE, 1.0, 0.5) == pytest.approx(ml, abs=0.03)
    assert left(LevelMeasure.BELOW_MAX, 0.0, 8.0) == pytest.approx(ml, abs=0.03)


def test_the_same_seed_gives_the_same_and_another_nearly() -> None:
    looks = (look(0, 24.0, pads=single(4.9)), look(DAYS, 22.0, pads=single(4.2)))
    assert judged("rear", looks) == judged("rear", looks)
    other = judged("rear", looks, seed=2).left_ml
    assert middle(other) == pytest.approx(middle(judged("rear", looks).left_ml), abs=0.1)


# Verdicts


def test_wear_alone_is_called_wear() -> None:
    looks = (look(0, 24.0, pads=single(4.9)), look(DAYS, 21.8, pads=single(3.9)))
    report = judged("rear", looks, gauge_mm=0.1)
    assert report.verdict is LevelVerdict.WEAR
    assert report.says[0].startswith("Wear explains it: what is left over, ")
    assert not needs_attention(report)


def test_a_level_that_falls_with_whole_pads_is_a_leak() -> None:
    report = judged("rear", (look(0, 26.0, pads=single(4.9)), look(30, 18.0, pads=single(4.9))))
    assert report.verdict is LevelVerdict.GONE
    assert needs_attention(report)
    assert report.findings == (
        "A leak is likely: find it before the machine moves; do not just top up",
    )
    assert report.says[0].startswith("More has gone than wear explains: ")


def test_a_sudden_loss_among_many_looks_is_found_and_dated() -> None:
    levels = (25.0, 25.0, 25.0, 25.0, 25.0, 18.0)
    looks = [look(30 * n, ml, pads=single(4.5)) for n, ml in enumerate(levels)]
    report = judged("rear", looks, gauge_mm=0.1)
    assert report.verdict is LevelVerdict.GONE
    assert "missing between 2026-01-29 and 2026-02-28" in report.says[0]


def test_a_level_that_rises_asks_who_poured() -> None:
    report = judged("rear", (look(0, 15.0, pads=single(4.5)), look(30, 25.0, pads=single(4.5))))
    assert report.verdict is LevelVerdict.ROSE
    assert "A top-up was not noted" in report.says[1]
    assert needs_attention(report)
    noted = look(30, 25.0, pads=single(4.5), topped_up_ml=10.0)
    report = judged("rear", (look(0, 15.0, pads=single(4.5)), noted))
    assert report.verdict is LevelVerdict.WEAR


def test_pistons_that_went_home_for_new_pads_explain_a_rise() -> None:
    looks = (look(0, 18.0, pads=single(2.0)), look(30, 24.3, pads=single(5.0), new_pads=True))
    assert judged("rear", looks).verdict is LevelVerdict.WEAR


def test_new_pads_give_back_and_do_not_grow_the_disc() -> None:
    """Derived: 3 mm on both pads of 11.451 cm2 is 6.87 ml, the disc as it was."""
    looks = (
        look(0, 18.0, pads=single(2.0, 2.0)),
        look(1, 24.8, pads=single(5.0, 5.0), new_pads=True),
    )
    assert middle(sharp("rear", looks).drawn_ml) == pytest.approx(
        -SINGLE_CM2 * 6.0 / 10.0, abs=0.03
    )


def test_many_tries_share_one_chance_of_a_false_alarm() -> None:
    assert is_sure(0.96, [0.96])
    assert not is_sure(0.94, [0.94])
    assert not is_sure(0.96, [0.0, 0.98])
    assert is_sure(0.98, [0.0, 0.0])
    assert is_sure(0.0, [0.0, 0.99])
    assert not is_sure(0.0, [0.0, 0.99, 0.0, 0.0])


def test_one_look_says_nothing_of_a_leak() -> None:
    report = judged("rear", (look(0, 24.0, pads=single(4.0)),))
    assert report.verdict is LevelVerdict.ONE_LOOK
    assert (report.left_ml, report.between, report.min_on) == (None, (), None)
    assert report.new_pads is not None
    assert "look again on another day" in report.says[0]


def test_a_clutch_behaves_differently_and_says_so() -> None:
    steady = judged("clutch", (look(0, 14.0), look(DAYS, 14.0)))
    assert steady.is_clutch
    assert steady.verdict is LevelVerdict.WEAR
    assert steady.says[0].startswith("Nothing is missing: ")
    assert "wear never explains a level that falls" in steady.says[2]
    assert (steady.new_pads, steady.min_on) == (None, None)
    assert middle(steady.drawn_ml) < 0.0
    falling = judged("clutch", (look(0, 16.0), look(DAYS, 9.0)))
    assert falling.verdict is LevelVerdict.GONE
    assert "it may run into the engine cover unseen" in falling.says[1]


def test_mineral_oil_in_a_clutch_is_named() -> None:
    bike = tourer()
    clutch = bike.circuit("clutch")
    grade = next(one for one in WORKSHOP.tables.grades() if one.base is FluidBase.MINERAL)
    oil = replace(clutch, fluid=replace(clutch.fluid, filled=grade.name))
    request = LevelRequest(ON, (look(0, 14.0),))
    report = judge(bike, oil, request, WORKSHOP.tables)
    assert report.says[-1] == "It holds mineral oil: brake fluid in this reservoir ruins the seals."


# What comes next


def with_pads(circuit: Circuit, thin_mm: float) -> Circuit:
    """The same with pads as read, and no content that was true of other pads."""

    def worn(part: Part) -> Part:
        if part.kind is not PartKind.CALIPER:
            return part
        given = {key: known for key, known in part.given.items() if key != "volume_ml"}
        return replace(part, given={**given, "pad_mm": Exact(thin_mm)})

    return replace(circuit, parts=tuple(map(worn, circuit.parts)))


def test_the_fill_line_is_that_of_the_plan() -> None:
    report = sharp("front", (look(0, 30.0, pads=twin(3.2, 3.2)),))
    bike = tourer()
    worn = with_pads(bike.circuit("front"), 3.2)
    plan = asked(replace(bike, circuits=(worn,)), "front")
    assert middle(report.fill_to_ml) == pytest.approx(plan.reservoir.fill_to_ml.p50, abs=0.05)


def test_the_overflow_guard_takes_the_bad_end() -> None:
    """Derived: from 4.8 to 1.8 mm on both sides of two calipers is 17.0 ml."""
    report = judged("front", (look(0, 36.0, pads=twin(1.8, 1.8)),), gauge_mm=0.1)
    assert report.new_pads is not None
    assert middle(report.new_pads.rise_ml) == pytest.approx(2 * TWIN_CM2 * 3.0 / 10.0, rel=0.01)
    bad_end = report.new_pads.level_after_ml.p95 - 38.0
    assert report.new_pads.take_out_first_ml == pytest.approx(bad_end, abs=0.05)
    room = judged("front", (look(0, 17.0, pads=twin(1.8, 1.8)),), gauge_mm=0.1)
    assert room.new_pads is not None
    assert room.new_pads.take_out_first_ml == 0.0


def test_the_day_of_min_is_reached_at_the_pace_of_the_wear() -> None:
    """Derived: with both pads and the disc read, 1.0 mm a side in 180 days is 2.29 ml."""
    disc = {"rear caliper": 5.0}
    looks = (
        look(0, 24.0, pads=single(4.5, 4.5), discs_mm=disc),
        look(DAYS, 21.71, pads=single(3.5, 3.5), discs_mm=disc),
    )
    report = sharp("rear", looks)
    assert report.min_on is not None
    assert report.min_on.p50 is not None
    days = (report.min_on.p50 - looks[1].on).days
    assert days == pytest.approx((21.71 - 11.0) / (2 * SINGLE_CM2 / 10.0) * DAYS, rel=0.03)
    # 3.5 mm at 1 mm in 180 days is gone long before
    assert report.pads_gone_first == pytest.approx(1.0, abs=0.01)


def test_pads_that_do_not_wear_never_reach_min() -> None:
    looks = (look(0, 24.0, pads=single(4.5)), look(DAYS, 24.0, pads=single(4.5)))
    report = judged("rear", looks)
    assert report.min_on is not None
    assert report.min_on.p95 is None


def test_below_min_is_a_finding() -> None:
    report = judged("rear", (look(0, 9.0, pads=single(1.0)),))
    assert report.findings == ("The level stands below MIN: look at the pads first, then top up",)


def test_everything_taken_for_granted_is_named() -> None:
    bare = replace(look(0, 30.0, pads={"left caliper": PadReading(3.0)}), degc=None)
    report = judged("front", (bare,))
    named = {one.name for one in report.assumed}
    assert {"looks/degc", "looks/pad_mm", "pot/marks_apart_mm"} <= named
    assert "judgement" in report.sources


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"ruler_mm": 0.0}, "--ruler cannot be 0; it is in mm, 0.01 to 5"),
        ({"gauge_mm": 9.0}, "--gauge cannot be 9; it is in mm, 0.01 to 5"),
        ({"marks_mm": 900.0}, "--marks cannot be 900; it is in mm, 2 to 60"),
        ({"seed": -1}, "--seed cannot be -1; it is a whole number from 0 on"),
    ],
)
def test_an_option_that_cannot_be(more: dict[str, object], said: str) -> None:
    with pytest.raises(ImpossibleOptionError) as caught:
        judged("rear", (look(0, 24.0, pads=single(4.0)),), **more)
    assert str(caught.value) == said


MACHINES = [
    *WORKSHOP.files.demo(),
    *(outline(one.value) for one in BikeClass),
    *(kept(f"odd/{path.stem}") for path in sorted((DATA / "odd").glob("*.toml"))),
]


@pytest.mark.parametrize("bike", MACHINES, ids=lambda bike: bike.name)
def test_every_kind_of_machine_can_be_judged(bike: Bike) -> None:
    """Known by its class or by odd plumbing: always a verdict, and a band that is a band."""
    for circuit in bike.circuits:
        pads = {part.id: PadReading(3.0) for part in circuit.of_kind(PartKind.CALIPER)}
        looks = [
            look(day, share, measure=LevelMeasure.SHARE, pads=pads)
            for day, share in ((0, 0.9), (90, 0.9))
        ]
        report = judge(bike, circuit, LevelRequest(ON, tuple(looks)), WORKSHOP.tables)
        assert report.verdict is LevelVerdict.WEAR
        assert report.left_ml is not None
        assert report.left_ml.p05 < report.left_ml.p50 < report.left_ml.p95
