# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""An invented circuit and an invented plan for it; no number here was worked out."""

from datetime import date

from firmlever.domain.cautions import cautions_for
from firmlever.domain.circuit import (
    Bike,
    BikeClass,
    Circuit,
    Control,
    FluidFill,
    Layout,
    Line,
    Part,
    PartKind,
    Screw,
)
from firmlever.domain.plan import (
    Assumed,
    FlushPlan,
    LeftOld,
    MethodTime,
    Narrow,
    OrderNote,
    PistonsHome,
    PlanPoint,
    ReservoirPlan,
    Strip,
    Tool,
    TubeFigures,
    Washout,
)
from firmlever.domain.quantity import Band, Between, CountBand, Exact
from firmlever.domain.tables import Basis, Method, Work

ON = date(2026, 5, 1)


def band(p05: float, p50: float, p95: float) -> Band:
    return Band(p05, p50, p95)


def front() -> Circuit:
    """A twin disc with an ABS unit, a splitter above it and a hose that arches."""
    caliper = {"pistons_mm": (32.0, 28.0, 32.0, 28.0), "layout": Layout.OPPOSED, "wheel": "front"}
    return Circuit(
        "front",
        Control.LEVER,
        (
            Part("pot", PartKind.RESERVOIR, {"height_mm": Exact(1060), "max_ml": Exact(38)}),
            Part(
                "master",
                PartKind.MASTER,
                {"height_mm": Exact(1040), "bore_mm": Exact(16)},
                (Screw("master", {"hex_mm": Exact(7)}),),
            ),
            Part("abs unit", PartKind.MODULATOR, {"height_mm": Exact(620)}),
            Part("tee", PartKind.SPLITTER, {"height_mm": Exact(700)}),
            Part(
                "left caliper",
                PartKind.CALIPER,
                {"height_mm": Exact(320), "volume_ml": Between(11, 15)},
                (Screw("left caliper", {"hex_mm": Exact(8)}),),
                **caliper,  # type: ignore[arg-type]
            ),
            Part(
                "right caliper",
                PartKind.CALIPER,
                {"height_mm": Exact(320)},
                (Screw("right caliper"),),
                **caliper,  # type: ignore[arg-type]
            ),
        ),
        (
            Line("pot", "master", {"length_mm": Exact(60)}),
            Line("master", "abs unit", {"length_mm": Exact(950)}, via_mm=((300.0, 1090.0),)),
            Line("abs unit", "tee"),
            Line("tee", "left caliper"),
            Line("tee", "right caliper"),
        ),
        FluidFill(("DOT 4",), "DOT 4", date(2024, 4, 20)),
    )


def rear() -> Circuit:
    """A rear brake of which only the parts are known."""
    return Circuit(
        "rear",
        Control.PEDAL,
        (
            Part("rear pot", PartKind.RESERVOIR),
            Part("rear master", PartKind.MASTER),
            Part("rear caliper", PartKind.CALIPER, screws=(Screw("rear caliper"),), wheel="rear"),
        ),
        (Line("rear pot", "rear master"), Line("rear master", "rear caliper")),
    )


def bike() -> Bike:
    """The machine both circuits belong to."""
    given = {"mass_kg": Exact(268.0)}
    return Bike("Skerry 1100", BikeClass.TOURER, (front(), rear()), given, ("parking brake",))


def strip() -> Strip:
    return Strip(1.0, ("lines", "left caliper", "new"), ((0.0, 1.0, 0.0), (0.25, 0.5, 0.25)))


def washout() -> Washout:
    return Washout((0.0, 30.0, 75.0), (band(0, 0, 0), band(0.3, 0.5, 0.6), band(0.9, 0.95, 0.98)))


def point(
    at: str,
    volume: Band,
    strokes: CountBand | None,
    topups: CountBand,
    minutes: Band,
    hex_mm: float | None,
    posture: str | None = None,
    note: str | None = None,
) -> PlanPoint:
    return PlanPoint(
        at, at, volume, strokes, topups, minutes, posture, note, hex_mm, strip(), washout()
    )


def plan(circuit: str = "front", findings: tuple[str, ...] = ()) -> FlushPlan:
    """A plan with something in every field."""
    return FlushPlan(
        bike="Skerry 1100",
        circuit=circuit,
        on=ON,
        work=Work.FLUSH,
        method=Method.LEVER,
        technique="close before release",
        technique_steps=("Pull slowly.", "Open the screw a quarter turn.", "Close, then let go."),
        fluid="DOT 4",
        target=0.95,
        pistons_home_first=False,
        left_old=LeftOld(
            whole=band(0.0513, 0.0912, 0.1704),
            after_mixing=band(0.021, 0.0402, 0.081),
            parts={
                "master": band(0.0, 0.001, 0.004),
                "abs unit": band(0.21, 0.41, 0.62),
                "left caliper": band(0.02, 0.11, 0.31),
                "right caliper": band(0.01, 0.09, 0.29),
            },
            parts_ml={
                "master": band(0.0, 0.01, 0.02),
                "abs unit": band(1.4, 3.3, 5.6),
                "left caliper": band(0.2, 1.4, 4.0),
                "right caliper": band(0.1, 1.2, 3.8),
            },
            of_whole={
                "master": band(0.0, 0.0, 0.0),
                "abs unit": band(0.02, 0.045, 0.08),
                "left caliper": band(0.0, 0.02, 0.05),
                "right caliper": band(0.0, 0.02, 0.05),
            },
        ),
        points=(
            point(
                "master",
                band(5.6, 6.1, 6.6),
                CountBand(3, 3, 3),
                CountBand(0, 0, 0),
                band(1.0, 1.5, 2.0),
                7.0,
            ),
            point(
                "left caliper",
                band(64.3, 72.9, 83.2),
                CountBand(27, 31, 36),
                CountBand(2, 2, 2),
                band(12.0, 16.0, 20.0),
                8.0,
                "turn the bars to the right",
                "the disc side nipple only",
            ),
            point(
                "right caliper",
                band(41.2, 48.0, 56.4),
                CountBand(18, 21, 25),
                CountBand(1, 1, 2),
                band(8.0, 11.0, 14.0),
                None,
            ),
        ),
        reservoir=ReservoirPlan(
            usable_ml=band(20.0, 22.0, 24.0),
            strokes_to_min=CountBand(12, 13, 15),
            ml_to_min=band(20.4, 22.0, 24.0),
            on_side_stand_ml=band(11.2, 14.0, 18.0),
            fill_to_ml=band(31.5, 34.0, 36.2),
            fill_above_min_ml=band(15.5, 18.0, 20.2),
        ),
        through_ml=band(113.2, 127.4, 144.9),
        pots_min_max=band(5.0, 5.8, 6.7),
        minutes=band(35.0, 42.0, 50.0),
        buy_ml=250,
        unit_ml=band(1.96, 2.31, 2.68),
        tube=TubeFigures(24, None),
        order=OrderNote("the branch nearest the reservoir comes first", 3.21, either=True),
        pistons_home=(
            PistonsHome(
                "left caliper",
                band(18.0, 24.0, 31.0),
                band(0.01, 0.03, 0.05),
                done=False,
                how="clean the pistons, open the screw, push them home",
            ),
            PistonsHome(
                "right caliper",
                band(14.0, 19.0, 25.0),
                band(0.01, 0.02, 0.04),
                done=True,
                how="clean the pistons, open the screw, push them home",
            ),
        ),
        methods=(
            MethodTime(Method.VACUUM, "hand pump", band(18.0, 25.0, 33.0), allowed=True, reason=""),
            MethodTime(
                Method.REVERSE,
                "syringe",
                band(0, 0, 0),
                allowed=False,
                reason="old dirt would go through the ABS unit",
            ),
        ),
        tools=(
            Tool(7.0, ("master",)),
            Tool(8.0, ("left caliper",)),
            Tool(None, ("right caliper",)),
        ),
        assumed=(
            Assumed(
                "abs unit/unswept_ml",
                "fluid in it that the flow does not sweep",
                1.5,
                4.0,
                "ml",
                Basis.JUDGEMENT,
                "judgement",
            ),
            Assumed(
                "master > abs unit/bore_mm",
                "bore of the line",
                3.0,
                3.5,
                "mm",
                Basis.FROM_MEMORY,
                "hose-sizes",
            ),
        ),
        narrow=(
            Narrow(
                "abs unit/unswept_ml",
                "fluid in it that the flow does not sweep",
                "push dyed fluid through and see how much colour comes out late",
                38.2,
            ),
            Narrow(
                "close before release/delivered",
                "share of each stroke that leaves the screw",
                "read the catch bottle after the first ten strokes",
                6.4,
            ),
        ),
        cautions=cautions_for(Method.LEVER, has_modulator=True, pistons_home=False),
        findings=findings,
        sources=("from-memory", "hose-sizes", "judgement"),
    )
