# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The file kept from the day format 1 was fixed must read the same for ever."""

import tomllib
from datetime import date
from pathlib import Path

from firmlever.domain.circuit import (
    Bike,
    BikeClass,
    Circuit,
    Control,
    FluidFill,
    Layout,
    Line,
    Material,
    Part,
    PartKind,
    Screw,
    SequenceStep,
)
from firmlever.domain.quantities import SPECS
from firmlever.domain.quantity import Between, Exact
from firmlever.store.circuit_file import TomlCircuitFiles

KEPT = Path(__file__).with_name("circuit_format_1.toml")
GRADES = ("DOT 4", "DOT 5.1")

FRONT = Circuit(
    name="front",
    control=Control.LEVER,
    parts=(
        Part(
            "pot",
            PartKind.RESERVOIR,
            {
                "max_ml": Exact(38.0),
                "min_ml": Exact(16.0),
                "left_after_draw_ml": Between(0.5, 2.0),
                "height_mm": Exact(1060.0),
            },
        ),
        Part(
            "master",
            PartKind.MASTER,
            {
                "bore_mm": Exact(16.0),
                "stroke_mm": Exact(12.0),
                "stroke_used": Between(0.7, 0.95),
                "port_travel_mm": Exact(0.9),
                "port_bore_mm": Exact(0.6),
                "leverage": Exact(5.6),
                "volume_ml": Exact(2.5),
                "height_mm": Exact(1040.0),
            },
            (Screw("master", {"hex_mm": Exact(7.0)}),),
        ),
        Part(
            "abs unit",
            PartKind.MODULATOR,
            {
                "volume_ml": Exact(8.0),
                "unswept_ml": Between(1.5, 4.0),
                "orifice_mm": Exact(0.8),
                "height_mm": Exact(620.0),
            },
        ),
        Part("banjo", PartKind.JOINT, {"height_mm": Exact(640.0)}),
        Part(
            "fork valve",
            PartKind.ANTI_DIVE,
            {"volume_ml": Exact(0.8), "unswept_ml": Exact(0.2), "height_mm": Exact(420.0)},
        ),
        Part(
            "left caliper",
            PartKind.CALIPER,
            {
                "volume_ml": Exact(13.0),
                "volume_home_ml": Exact(8.5),
                "unswept_ml": Between(0.0, 5.0),
                "pad_mm": Exact(3.2),
                "pad_new_mm": Exact(4.5),
                "height_mm": Exact(320.0),
            },
            (
                Screw(
                    "left caliper",
                    {
                        "hex_mm": Exact(8.0),
                        "height_mm": Exact(345.0),
                        "above_ml": Exact(0.0),
                        "drilling_mm": Exact(1.5),
                    },
                ),
            ),
            Layout.OPPOSED,
            (32.0, 28.0, 32.0, 28.0),
            "front",
        ),
        Part(
            "shared caliper",
            PartKind.CALIPER,
            {},
            (Screw("shared caliper, outer"),),
            Layout.FLOATING,
            (27.0, 27.0),
            "front",
            "right front",
        ),
    ),
    lines=(
        Line("pot", "master"),
        Line(
            "master",
            "abs unit",
            {"bore_mm": Exact(3.2), "length_mm": Exact(950.0)},
            Material.BRAIDED,
            ((300.0, 1090.0), (600.5, 800.0)),
        ),
        Line("abs unit", "banjo", {}, Material.STEEL),
        Line("banjo", "fork valve"),
        Line("fork valve", "left caliper", {}, Material.RUBBER),
        Line("banjo", "shared caliper"),
    ),
    fluid=FluidFill(("DOT 4", "DOT 5.1"), "DOT 4", date(2024, 4, 20)),
)
REAR = Circuit(
    name="rear",
    control=Control.PEDAL,
    parts=(
        Part("pot", PartKind.RESERVOIR),
        Part("pedal master", PartKind.MASTER),
        Part(
            "link",
            PartKind.SECONDARY_MASTER,
            {"volume_ml": Exact(3.0), "unswept_ml": Exact(0.4)},
        ),
        Part("load valve", PartKind.VALVE, {"volume_ml": Exact(0.6)}),
        Part("tee", PartKind.SPLITTER, {"volume_ml": Exact(1.0)}),
        Part("lamp switch", PartKind.DEAD_END, {"volume_ml": Exact(0.1)}),
        Part(
            "shared caliper",
            PartKind.CALIPER,
            {},
            (Screw("shared caliper, middle"),),
            None,
            (22.0,),
            "front",
            "right front",
        ),
        Part("rear caliper", PartKind.CALIPER, {}, (Screw("rear caliper"),), wheel="rear"),
    ),
    lines=(
        Line("pot", "pedal master"),
        Line("pedal master", "link"),
        Line("link", "load valve"),
        Line("load valve", "tee"),
        Line("tee", "lamp switch"),
        Line("tee", "shared caliper"),
        Line("tee", "rear caliper"),
    ),
    fluid=FluidFill(("DOT 4",), None),
)
CLUTCH = Circuit(
    name="clutch",
    control=Control.CLUTCH_LEVER,
    parts=(
        Part("pot", PartKind.RESERVOIR),
        Part("master", PartKind.MASTER),
        Part(
            "slave",
            PartKind.SLAVE,
            {
                "volume_ml": Exact(9.0),
                "volume_home_ml": Exact(4.0),
                "unswept_ml": Exact(1.0),
                "height_mm": Exact(380.0),
            },
            (Screw("slave"),),
            pistons_mm=(35.0,),
        ),
    ),
    lines=(Line("pot", "master"), Line("master", "slave")),
)
SKERRY = Bike(
    name="Skerry 1100",
    bike_class=BikeClass.TOURER,
    circuits=(FRONT, REAR, CLUTCH),
    given={"mass_kg": Exact(268.0), "rider_kg": Between(60.0, 110.0)},
    other_brakes=("parking drum",),
    sequence=(
        SequenceStep(
            "rear",
            "shared caliper, middle",
            "on the centre stand",
            "no bubbles for ten strokes",
            "before the front circuit",
        ),
        SequenceStep("front", "left caliper"),
    ),
)


def test_kept_file_reads_as_ever() -> None:
    assert TomlCircuitFiles(GRADES).read(str(KEPT)) == SKERRY


def test_kept_file_holds_every_key_of_the_first_release() -> None:
    raw = tomllib.loads(KEPT.read_text("utf-8"))
    used = {("bike", key) for key in raw["bike"]}
    for circuit in raw["circuit"]:
        used |= {("line", key) for line in circuit["line"] for key in line}
        for part in circuit["part"]:
            used |= {(part["kind"], key) for key in part}
            used |= {("screw", key) for screw in part.get("screw", ()) for key in screw}
    # heights are the same key for every kind; four of the plain kinds show it
    unused = {(spec.kind, spec.key) for spec in SPECS if spec.key != "height_mm"} - used
    assert unused == set()
