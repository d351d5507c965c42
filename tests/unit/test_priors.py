# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The class priors: complete, inside what is possible, and honest about their source."""

import re
from itertools import product
from pathlib import Path

import pytest

from firmlever.domain.circuit import BikeClass, Family, PartKind
from firmlever.domain.quantities import LINE, SCREW, SPECS
from firmlever.domain.tables import Basis, Prior, Technique
from firmlever.store.tables import CsvTables

TABLES = CsvTables()
PRIORS = TABLES.priors()
SOURCED: tuple[Prior | Technique, ...] = (*PRIORS, *TABLES.techniques())
CASES = tuple(product(Family, BikeClass))
KINDS = (*PartKind, LINE, SCREW)
LOOSE = ("work", "lever test", "air")

# a key of the circuit file that has no prior of its own: what the value is worked out from
WORKED_OUT_FROM = {
    ("reservoir", "min_ml"): {"max_ml", "min_share"},
    ("master cylinder", "volume_ml"): {"bore_mm", "stroke_mm", "volume_factor"},
    ("caliper", "volume_ml"): {"home_ml_per_cm2", "pad_mm", "pad_new_mm"},
    ("caliper", "volume_home_ml"): {"home_ml_per_cm2"},
    ("caliper", "unswept_ml"): {"unswept_share_opposed", "unswept_share_floating"},
    ("slave cylinder", "volume_ml"): {"piston_area_mm2", "home_ml_per_cm2", "piston_out_mm"},
    ("slave cylinder", "volume_home_ml"): {"piston_area_mm2", "home_ml_per_cm2"},
    ("slave cylinder", "unswept_ml"): {"unswept_share"},
    ("screw", "height_mm"): {"rise_mm"},
}
# a spanner size only names a tool: unknown is better than guessed
NEVER_GUESSED = {("screw", "hex_mm")}

# quantities of the model that no circuit file holds: the bounds of what is possible, judgement
MODEL_BOUNDS = {
    ("reservoir", "min_share"): ("", 0.0, 1.0),
    ("master cylinder", "volume_factor"): ("", 1.0, 4.0),
    ("caliper", "piston_area_floating_mm2"): ("mm2", 100.0, 12000.0),
    ("caliper", "piston_area_opposed_mm2"): ("mm2", 100.0, 12000.0),
    ("caliper", "home_ml_per_cm2"): ("ml/cm2", 0.02, 2.0),
    ("reservoir", "marks_apart_mm"): ("mm", 2.0, 60.0),
    ("caliper", "other_pad_share_floating"): ("", 0.0, 1.0),
    ("caliper", "other_pad_share_opposed"): ("", 0.0, 1.0),
    ("caliper", "disc_worn_share"): ("", 0.0, 1.0),
    ("slave cylinder", "pushed_home_mm"): ("mm", 0.0, 10.0),
    ("caliper", "unswept_share_opposed"): ("", 0.0, 1.0),
    ("caliper", "unswept_share_floating"): ("", 0.0, 1.0),
    ("slave cylinder", "piston_area_mm2"): ("mm2", 100.0, 5000.0),
    ("slave cylinder", "home_ml_per_cm2"): ("ml/cm2", 0.02, 2.0),
    ("slave cylinder", "piston_out_mm"): ("mm", 0.0, 30.0),
    ("slave cylinder", "unswept_share"): ("", 0.0, 1.0),
    ("line", "pipe_bore_mm"): ("mm", 0.8, 15.0),
    ("line", "feed_bore_mm"): ("mm", 0.8, 15.0),
    ("line", "feed_length_mm"): ("mm", 5.0, 8000.0),
    ("line", "to_splitter_length_mm"): ("mm", 5.0, 8000.0),
    ("line", "from_splitter_length_mm"): ("mm", 5.0, 8000.0),
    ("line", "across_length_mm"): ("mm", 5.0, 8000.0),
    ("line", "stub_length_mm"): ("mm", 5.0, 8000.0),
    ("line", "abs_length_mm"): ("mm", 5.0, 8000.0),
    ("screw", "rise_mm"): ("mm", 0.0, 500.0),
    ("work", "workshop_degc"): ("degC", -20.0, 50.0),
    ("work", "diffusion_mm2_s"): ("mm2/s", 1e-6, 1e-2),
    ("work", "priming_share"): ("", 0.0, 1.0),
    ("work", "after_fill"): ("", 0.0, 10.0),
    ("work", "lip_kpa"): ("kPa", 0.0, 500.0),
    ("work", "tube_bore_mm"): ("mm", 2.0, 12.0),
    ("work", "tube_length_mm"): ("mm", 50.0, 3000.0),
    ("work", "tube_end_height_mm"): ("mm", 0.0, 1500.0),
    ("work", "topup_s"): ("s", 1.0, 600.0),
    ("work", "per_screw_s"): ("s", 5.0, 3600.0),
    ("work", "prepare_s"): ("s", 30.0, 7200.0),
    ("work", "spill_ml"): ("ml", 0.0, 100.0),
    ("work", "side_stand_loss_share"): ("", 0.0, 1.0),
    ("lever test", "efficiency"): ("", 0.5, 1.0),
    ("lever test", "take_up_kpa"): ("kPa", 10.0, 500.0),
    ("lever test", "before_n"): ("N", 0.5, 20.0),
    ("lever test", "free_play_mm"): ("mm", 0.0, 20.0),
    ("lever test", "retraction_mm"): ("mm", 0.0, 1.0),
    ("lever test", "knock_back_mm"): ("mm", 0.0, 1.0),
    ("lever test", "pads_mm"): ("mm", 0.0, 0.3),
    ("lever test", "spread_mm"): ("mm", 0.0, 0.3),
    ("lever test", "rubber_mm3_m_mpa"): ("mm3/(m MPa)", 10.0, 314.0),
    ("lever test", "braided_mm3_m_mpa"): ("mm3/(m MPa)", 1.0, 157.0),
    ("lever test", "steel_mm3_m_mpa"): ("mm3/(m MPa)", 0.0, 5.0),
    ("lever test", "flex_mm_100n"): ("mm/100N", 0.0, 10.0),
    ("lever test", "bulk_modulus_gpa"): ("GPa", 0.3, 2.5),
    ("air", "surface_tension_mn_m"): ("mN/m", 15.0, 75.0),
    ("air", "bore_ratio"): ("", 0.8, 1.2),
    ("air", "climb_between_share"): ("", 0.0, 1.0),
    ("air", "bar_reach_mm"): ("mm", 100.0, 600.0),
    ("air", "rake_share"): ("", 0.2, 0.8),
}
BOUNDS = {(spec.kind, spec.key): (spec.unit, spec.low, spec.high) for spec in SPECS} | MODEL_BOUNDS


def found(kind: str, key: str, family: str, bike_class: str) -> Prior | None:
    """The first row that fits, as a plan looks it up."""
    for row in PRIORS:
        fits = row.family in (family, "any") and (not row.classes or bike_class in row.classes)
        if (row.kind, row.key) == (kind, key) and fits:
            return row
    return None


def needed(kind: str) -> set[str]:
    """The keys whose priors a plan asks for, for a part, line or screw of this kind."""
    keys = {spec.key for spec in SPECS if (spec.kind, spec.key) not in NEVER_GUESSED}
    keys = {key for key in keys if (kind, key) in BOUNDS and (kind, key) not in MODEL_BOUNDS}
    worked_out = {key for key in keys if (kind, key) in WORKED_OUT_FROM}
    sources = {part for key in worked_out for part in WORKED_OUT_FROM[kind, key]}
    model = {key for model_kind, key in MODEL_BOUNDS if model_kind == kind}
    return (keys - worked_out) | sources | model


@pytest.mark.parametrize(("family", "bike_class"), CASES)
@pytest.mark.parametrize("kind", [*KINDS, *LOOSE])
def test_every_quantity_has_a_prior_everywhere(kind: str, family: str, bike_class: str) -> None:
    missing = {key for key in needed(kind) if found(kind, key, family, bike_class) is None}
    assert missing == set()


def test_the_walk_asks_for_something_of_every_kind_but_a_joint() -> None:
    # a guard on the walk itself: were needed() empty, it would find nothing missing
    assert needed("joint") == {"height_mm"}
    assert needed("line") >= {"bore_mm", "pipe_bore_mm", "feed_bore_mm", "length_mm"}
    assert all(len(needed(kind)) >= 2 for kind in (*KINDS, *LOOSE) if kind != PartKind.JOINT)


@pytest.mark.parametrize("row", PRIORS, ids=lambda row: f"{row.kind}-{row.key}-{row.family}")
def test_every_prior_is_possible(row: Prior) -> None:
    unit, low, high = BOUNDS[row.kind, row.key]
    assert row.unit == unit
    assert low <= row.low < row.high <= high


def test_every_prior_is_reached_by_some_machine() -> None:
    reached = {
        found(row.kind, row.key, family, bike_class)
        for row in PRIORS
        for family, bike_class in CASES
    }
    assert [row for row in PRIORS if row not in reached] == []


def test_a_family_comes_before_any_and_a_class_before_none() -> None:
    row = found("master cylinder", "bore_mm", Family.REAR, BikeClass.OFF_ROAD)
    assert row is not None
    assert (row.family, row.classes) == ("rear", ("off-road",))
    row = found("master cylinder", "stroke_mm", Family.REAR, BikeClass.TOURER)
    assert row is not None
    assert (row.family, row.classes) == ("rear", ())


@pytest.mark.parametrize(("family", "bike_class"), CASES)
def test_a_reservoir_stands_above_its_master_cylinder(family: str, bike_class: str) -> None:
    pot = found("reservoir", "height_mm", family, bike_class)
    master = found("master cylinder", "height_mm", family, bike_class)
    assert pot is not None
    assert master is not None
    assert pot.low + pot.high > master.low + master.high


def test_every_source_is_a_key_of_the_references(root: Path) -> None:
    page = (root / "docs" / "references.md").read_text("utf-8")
    keys = set(re.findall(r"^- \[([^\]]+)\]", page, re.MULTILINE))
    assert {row.source for row in SOURCED} - keys == set()


def test_basis_and_source_say_the_same() -> None:
    labels = {basis.value.replace(" ", "-"): basis for basis in Basis}
    for row in SOURCED:
        assert labels.get(row.source, Basis.PUBLISHED) is row.basis, row
