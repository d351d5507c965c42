# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The formulas of fluid, flow and springiness on quantities that carry their dimensions.

Pint runs the very functions, in units that are not SI, and must arrive at the dimension that the
name promises and at the number that SI floats give. A missing square or a forgotten density
cannot pass. The viscosity chart is an empirical fit of bare numbers and has no dimensions to check.
"""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import pint
import pytest

from firmlever.physics import (
    branches,
    dissolving,
    drive,
    flow,
    fluid,
    leakage,
    long_bubbles,
    orifice,
    relaxation,
    stiffness,
    wear,
)
from firmlever.physics.flow import Loss

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()

HOSE = {"viscosity_pa_s": "18 mPa s", "length_m": "120 cm", "bore_m": "3.2 mm"}
LINEAR, SQUARE = "9 kPa s/ml", "250 Pa s**2/ml**2"
PATH = (LINEAR, SQUARE)
LEG = ("4 Pa s/mm**3", SQUARE)
WORN = {
    "area_m2": "28.4 cm**2",
    "near_worn_m": "1.2 mm",
    "far_worn_m": "0.1 cm",
    "disc_worn_m": "60 um",
}

GRAVITY: Any = UNITS.Quantity("9.80665 m/s**2")

# function, arguments as text with units, unit of the result
FORMULAS: tuple[tuple[Callable[..., object], Mapping[str, object], str], ...] = (
    (
        fluid.dynamic_viscosity_pa_s,
        {"kinematic_viscosity_m2_s": "17 mm**2/s", "density_kg_m3": "1.05 g/cm**3"},
        "Pa s",
    ),
    (
        fluid.expansion_volume_m3,
        {"volume_m3": "60 ml", "rise_k": "10 K", "expansion_1_k": "0.85e-3 / K"},
        "m**3",
    ),
    (flow.laminar_resistance_pa_s_m3, HOSE, "Pa s/m**3"),
    (
        flow.square_loss_pa_s2_m6,
        {"density_kg_m3": "1.05 g/cm**3", "bore_m": "0.6 mm", "loss_factor": "1.5"},
        "Pa s**2/m**6",
    ),
    (flow.drop_pa, {"flow_m3_s": "2 ml/s", "loss": (LINEAR, SQUARE)}, "Pa"),
    (flow.flow_m3_s, {"drive_pa": "5 kPa", "loss": (LINEAR, SQUARE)}, "m**3/s"),
    (
        flow.flow_past_lip_m3_s,
        {
            "drive_pa": "60 kPa",
            "path": (LINEAR, SQUARE),
            "port": (LINEAR, SQUARE),
            "lip_pa": "0.15 bar",
        },
        "m**3/s",
    ),
    (
        flow.reynolds_number,
        {"flow_m3_s": "1 ml/s", "bore_m": "3.2 mm", "kinematic_viscosity_m2_s": "17 mm**2/s"},
        "",
    ),
    (
        orifice.short_tube_discharge,
        {"length_m": "8 mm", "bore_m": "0.15 cm", "reynolds": "50"},
        "",
    ),
    (
        orifice.discharge_drop_pa,
        {
            "flow_m3_s": "1 ml/s",
            "bore_m": "1.5 mm",
            "density_kg_m3": "1.05 g/cm**3",
            "discharge": "0.33",
        },
        "Pa",
    ),
    (
        orifice.orifice_flow_m3_s,
        {
            "drive_pa": "1 kPa",
            "bore_m": "0.7 mm",
            "density_kg_m3": "1.05 g/cm**3",
            "kinematic_viscosity_m2_s": "17 mm**2/s",
        },
        "m**3/s",
    ),
    (
        branches.linear_parallel,
        {"*": (LINEAR, LEG[0])},
        "Pa s/m**3",
    ),
    (branches.parallel_drop_pa, {"total_m3_s": "1 ml/s", "*": (PATH, LEG)}, "Pa"),
    (
        branches.branched_flows_m3_s,
        {"drive_pa": "5 kPa", "trunk": PATH, "*": (PATH, LEG)},
        "m**3/s",
    ),
    (
        long_bubbles.carried_speed_m_s,
        {
            "flow_speed_m_s": "10 cm/s",
            "viscosity_pa_s": "18 mPa s",
            "surface_tension_n_m": "33 mN/m",
        },
        "m/s",
    ),
    (
        long_bubbles.bubble_drop_pa,
        {
            "speed_m_s": "10 cm/s",
            "bore_m": "3.2 mm",
            "viscosity_pa_s": "18 mPa s",
            "surface_tension_n_m": "33 mN/m",
        },
        "Pa",
    ),
    (
        dissolving.dissolving_time_s,
        {
            "radius_m": "0.5 mm",
            "diffusion_m2_s": "1e-6 cm**2/s",
            "solubility": "0.05",
            "saturation": "0.1",
        },
        "s",
    ),
    (
        stiffness.air_taken_up_m3,
        {
            "free_volume_m3": "0.3 ml",
            "pressure_pa": "20 bar",
            "ambient_pa": "1013.25 hPa",
            "polytropic": "1.2",
        },
        "m**3",
    ),
    (
        stiffness.fluid_shrinkage_m3,
        {"volume_m3": "60 ml", "pressure_pa": "20 bar", "bulk_modulus_pa": "1.8 GPa"},
        "m**3",
    ),
    (
        stiffness.clearance_taken_up_m3,
        {"clearance_m3": "568 mm**3", "pressure_pa": "2 bar", "scale_pa": "0.1 MPa"},
        "m**3",
    ),
    (
        stiffness.mixture_modulus_pa,
        {
            "fluid_modulus_pa": "1.8 GPa",
            "air_share": "0.01",
            "pressure_pa": "10 bar",
            "ambient_pa": "1013.25 hPa",
            "polytropic": "1.2",
        },
        "Pa",
    ),
    (
        stiffness.lumped_modulus_pa,
        {
            "fluid_modulus_pa": "1.8 GPa",
            "air_share": "0.01",
            "air_modulus_pa": "10 bar",
            "bore_over_wall": "10",
            "wall_modulus_pa": "207 kN/mm**2",
        },
        "Pa",
    ),
    (
        leakage.annulus_leak_m3_s,
        {
            "bore_m": "14 mm",
            "gap_m": "5 um",
            "length_m": "2 mm",
            "pressure_pa": "20 bar",
            "viscosity_pa_s": "18 mPa s",
            "eccentricity": "0.5",
        },
        "m**3/s",
    ),
    (
        leakage.scratch_leak_m3_s,
        {
            "width_m": "50 um",
            "length_m": "2 mm",
            "pressure_pa": "20 bar",
            "viscosity_pa_s": "18 mPa s",
        },
        "m**3/s",
    ),
    (relaxation.creep_m, {"rate_m": "0.3 mm", "time_s": "1 min", "onset_s": "2 s"}, "m"),
    (relaxation.settling_m, {"reach_m": "1 mm", "time_s": "1 min", "constant_s": "10 s"}, "m"),
    (leakage.piston_sink_m_s, {"leak_m3_s": "0.02 ml/s", "master_bore_m": "14 mm"}, "m/s"),
    (wear.piston_area_m2, {"bore_m": "38.2 mm"}, "m**2"),
    (wear.opposed_drawn_m3, WORN, "m**3"),
    (wear.floating_drawn_m3, WORN, "m**3"),
    (wear.clutch_returned_m3, {"area_m2": "11.4 cm**2", "pushed_home_m": "0.4 mm"}, "m**3"),
    (
        wear.level_area_m2,
        {"full_m3": "38 ml", "low_m3": "16 ml", "marks_apart_m": "1.5 cm"},
        "m**2",
    ),
)

# the functions that hold a constant with a dimension, written again with that dimension
G, RHO = "9.80665 m/s**2", "1.05 g/cm**3"
HIGH, LOW = "106 cm", "560 mm"
PSI_1000: Any = UNITS.Quantity("6.894757 MPa")
RENDERED: tuple[tuple[Callable[..., object], tuple[str, ...], Callable[..., Any], str], ...] = (
    (
        fluid.density_kg_m3,
        ("350 K", RHO, "0.85e-3 / K"),
        lambda t, rho, alpha: rho / (1 + alpha * (t - UNITS.Quantity(293.15, "K"))),
        "kg/m**3",
    ),
    (
        drive.gravity_drive_pa,
        (RHO, HIGH, LOW),
        lambda rho, high, low: rho * UNITS.Quantity(G) * (high - low),
        "Pa",
    ),
    (
        drive.vacuum_drive_pa,
        ("0.6 bar", "1013.25 hPa", RHO, HIGH, LOW),
        lambda suction, _air, rho, high, low: suction + rho * UNITS.Quantity(G) * (high - low),
        "Pa",
    ),
    (
        drive.pressure_drive_pa,
        ("1 bar", RHO, HIGH, LOW),
        lambda cap, rho, high, low: cap + rho * UNITS.Quantity(G) * (high - low),
        "Pa",
    ),
    (
        drive.reverse_drive_pa,
        ("0.5 bar", RHO, HIGH, LOW),
        lambda syringe, rho, high, low: syringe - rho * UNITS.Quantity(G) * (high - low),
        "Pa",
    ),
    (
        stiffness.hose_swelling_m3,
        ("160 cm", "30 bar", "60 mm**3/(m MPa)"),
        lambda length, p, rated: length * rated * PSI_1000 * (p / PSI_1000) ** 0.65,
        "m**3",
    ),
    (
        stiffness.pads_and_caliper_give_m3,
        ("56.8 cm**2", "50 um", "30 bar"),
        lambda area, give, p: area * give * (p / UNITS.Quantity("5 MPa")) ** 0.6,
        "m**3",
    ),
    (
        long_bubbles.bond_number,
        ("0.4 cm", "1.05 g/cm**3", "33 mN/m"),
        lambda bore, density, tension: density * GRAVITY * (bore / 2) ** 2 / tension,
        "",
    ),
    (
        long_bubbles.hold_bore_m,
        ("1.05 g/cm**3", "33 mN/m"),
        lambda density, tension: 2 * (0.842 * tension / (density * GRAVITY)) ** 0.5,
        "m",
    ),
)

WITHOUT_DIMENSION = {
    fluid.walther_coefficients,  # a fit of bare numbers
    fluid.kinematic_viscosity_m2_s,  # the same
    drive.atmosphere_pa,  # the same
    flow.beyond_laminar,  # a bare number in, a bare number out
    flow.passage_loss,  # the pair of two functions that are checked
    flow.in_series,  # a sum
    long_bubbles.film_share,  # a bare number in, a bare number out
    long_bubbles.creeping_climb_m_s,  # the root of a law in bare numbers
}


def measured(text: object) -> object:
    """The argument as Pint sees it."""
    if isinstance(text, tuple):
        return Loss._make(UNITS.Quantity(part) for part in text)
    return UNITS.Quantity(str(text))


def in_si(argument: object) -> object:
    """The same argument as the product passes it."""
    if isinstance(argument, tuple):
        return Loss._make(float(part.to_base_units().magnitude) for part in argument)
    assert isinstance(argument, pint.Quantity)
    return float(argument.to_base_units().magnitude)


def assert_same(with_units: object, bare: object, unit: str) -> None:
    measures = with_units if isinstance(with_units, tuple) else (with_units,)
    numbers = bare if isinstance(bare, tuple) else (bare,)
    for measure, number in zip(measures, numbers, strict=True):
        assert UNITS.Quantity(measure).check(UNITS.Quantity(1, unit).dimensionality)
        np.testing.assert_allclose(UNITS.Quantity(measure).to(unit).magnitude, number, rtol=1e-10)


@pytest.mark.parametrize(
    ("function", "given", "unit"), FORMULAS, ids=lambda value: getattr(value, "__name__", "")
)
def test_formula_has_the_dimension_of_its_name(
    function: Callable[..., object], given: Mapping[str, object], unit: str
) -> None:
    texts = dict(given)
    many = texts.pop("*", ())
    assert isinstance(many, tuple)
    arguments = [measured(text) for text in (*texts.values(), *many)]
    assert_same(function(*arguments), function(*map(in_si, arguments)), unit)


@pytest.mark.parametrize(
    ("function", "texts", "rendered", "unit"),
    RENDERED,
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_formula_equals_its_rendering_with_dimensions(
    function: Callable[..., object],
    texts: tuple[str, ...],
    rendered: Callable[..., object],
    unit: str,
) -> None:
    arguments = [measured(text) for text in texts]
    assert_same(rendered(*arguments), function(*map(in_si, arguments)), unit)


def test_no_formula_is_left_out() -> None:
    checked = {row[0] for row in FORMULAS} | {row[0] for row in RENDERED} | WITHOUT_DIMENSION
    modules = (
        fluid,
        flow,
        orifice,
        branches,
        drive,
        stiffness,
        leakage,
        relaxation,
        wear,
        long_bubbles,
        dissolving,
    )
    assert {model.function for module in modules for model in module.MODELS} == checked
