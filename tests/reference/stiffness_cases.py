# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Springiness of a closed circuit: bulk modulus with air, air volume, hoses, pads, leaks.

Pounds per square inch are turned with 6894.757 Pa. FMVSS 106 gives the most a hose may
swell; the figures here turn its cc per foot into cubic millimetres per metre and MPa.
"""

from scipy.constants import psi

from firmlever.physics.leakage import annulus_leak_m3_s, piston_sink_m_s, scratch_leak_m3_s
from firmlever.physics.relaxation import creep_m, settling_m
from firmlever.physics.stiffness import (
    air_taken_up_m3,
    clearance_taken_up_m3,
    fluid_shrinkage_m3,
    hose_swelling_m3,
    lumped_modulus_pa,
    mixture_modulus_pa,
    pads_and_caliper_give_m3,
)
from reference.cases import Case, Kind

PA = 101_325.0
ML, MPA = 1e-6, 1e6
CC_PER_FOOT = 1e-6 / 0.3048
PRESSURES_MPA = (0.0, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0)
MIXTURES = (
    (1.0, 0.001, (96.02, 327.45, 1196.7, 1564.9, 1728.7, 1787.5, 1796.8)),
    (1.0, 0.01, (10.18, 39.33, 298.32, 719.60, 1274.5, 1682.4, 1768.6)),
    (1.0, 0.05, (2.13, 8.17, 69.23, 212.28, 588.64, 1334.2, 1653.2)),
    (1.4, 0.01, (14.22, 45.15, 258.14, 577.29, 1059.0, 1561.6, 1718.9)),
)
TAKEN_UP = (
    (1.0, (0.4967, 0.8315, 0.9080, 0.9518, 0.9801)),
    (1.4, (0.3876, 0.7197, 0.8181, 0.8853, 0.9391)),
)
LEAKS = ((2, 1.629e-3, 0.635), (5, 2.545e-2, 9.92), (10, 0.2036, 79.4), (20, 1.629, 635.0))
SCRATCHES = ((20, 2.18e-4), (50, 8.52e-3), (100, 0.1364))


# 2 mm of a seal at 2 MPa, 18 mPa s
SEAL = {"length_m": 2e-3, "pressure_pa": 2 * MPA, "viscosity_pa_s": 0.018}
# 250,000 psi, 1 % of air, a steel pipe ten times as wide as its wall
PIPE = {
    "fluid_modulus_pa": 250e3 * psi,
    "air_share": 0.01,
    "bore_over_wall": 10.0,
    "wall_modulus_pa": 30e6 * psi,
}


def softening(pressure_psi: float, fluid_modulus_pa: float) -> float:
    """Modulus with 2 % of air over the modulus without, isothermal."""
    mixed = mixture_modulus_pa(fluid_modulus_pa, 0.02, pressure_psi * psi, PA, 1.0)
    return float(mixed / fluid_modulus_pa)


def hose_cc_per_foot(pressure_pa: float, rated_at_1000_psi: float, exponent: float) -> object:
    """What a hose rated at so many cc a foot at 1000 psi swells by, in cc a foot."""
    rated = rated_at_1000_psi * CC_PER_FOOT / (1000 * psi)
    return hose_swelling_m3(1.0, pressure_pa, rated, exponent) / CC_PER_FOOT


CASES = (
    Case(
        lumped_modulus_pa,
        {**PIPE, "air_modulus_pa": 500 * psi},
        41_096.0 * psi,
        Kind.PUBLISHED,
        "handbook-9781482269895",
        "chapter 28, effective bulk modulus: form and inputs; the result worked out by hand",
        rel=2e-5,
    ),
    Case(
        lumped_modulus_pa,
        {**PIPE, "air_modulus_pa": 1.4 * 500 * psi},
        53_708.0 * psi,
        Kind.PUBLISHED,
        "handbook-9781482269895",
        "chapter 28, the same without loss of heat",
        rel=2e-5,
    ),
    *(
        Case(
            mixture_modulus_pa,
            {
                "fluid_modulus_pa": 1.8e9,
                "air_share": share,
                "pressure_pa": pressure * MPA,
                "ambient_pa": PA,
                "polytropic": n,
            },
            expected * MPA,
            Kind.DERIVED,
            "mathworks-blocks",
            "Hydraulic Fluid, tangent modulus, evaluated apart from this code to five digits",
            rel=2.5e-3 if expected < 10 else 5e-4,
        )
        for n, share, row in MIXTURES
        for pressure, expected in zip(PRESSURES_MPA, row, strict=True)
    ),
    Case(
        softening,
        {"pressure_psi": 500.0, "fluid_modulus_pa": 2.07e9},
        0.8,
        Kind.FROM_MEMORY,
        "common-practice",
        "a trade chart for 2 % of air, read by eye",
        rel=0.07,
    ),
    Case(
        softening,
        {"pressure_psi": 2000.0, "fluid_modulus_pa": 2.07e9},
        0.98,
        Kind.FROM_MEMORY,
        "common-practice",
        "a trade chart for 2 % of air, read by eye",
        rel=0.01,
    ),
    *(
        Case(
            air_taken_up_m3,
            {
                "free_volume_m3": ML,
                "pressure_pa": pressure * MPA,
                "ambient_pa": PA,
                "polytropic": n,
            },
            expected * ML,
            Kind.DERIVED,
            "definition",
            "perfect gas, worked out by hand to four digits",
            rel=2e-4,
        )
        for n, row in TAKEN_UP
        for pressure, expected in zip((0.1, 0.5, 1.0, 2.0, 5.0), row, strict=True)
    ),
    Case(
        fluid_shrinkage_m3,
        {"volume_m3": 60 * ML, "pressure_pa": MPA, "bulk_modulus_pa": 1.8e9},
        0.0333 * ML,
        Kind.DERIVED,
        "definition",
        "60 ml at 1 MPa",
        rel=2e-3,
    ),
    *(
        Case(
            hose_cc_per_foot,
            {"pressure_pa": pressure * psi, "rated_at_1000_psi": rated, "exponent": 0.58},
            expected,
            kind,
            "fmvss-106",
            f"Table I, {bore}, {pressure} psi; no power law meets all of its limits",
            rel=rel,
        )
        for bore, rated, row, kind, rel in (
            ("1/8 in or less", 0.33, (0.33, 0.42, 0.61), Kind.PUBLISHED, 0.01),
            ("1/8 in or less", 0.66, (0.66, 0.79, 1.21), Kind.FROM_MEMORY, 0.06),
            ("3/16 in or less", 0.55, (0.55, 0.72, 0.91), Kind.FROM_MEMORY, 0.13),
            ("3/16 in or less", 0.86, (0.86, 1.02, 1.67), Kind.FROM_MEMORY, 0.07),
            ("1/4 in or more", 0.82, (0.82, 1.17), Kind.FROM_MEMORY, 0.12),
            ("1/4 in or more", 1.04, (1.04, 1.30), Kind.FROM_MEMORY, 0.02),
        )
        for pressure, expected in zip((1000, 1500, 2900), row, strict=False)
    ),
    Case(
        hose_cc_per_foot,
        {"pressure_pa": 1500 * psi, "rated_at_1000_psi": 0.15, "exponent": 0.71},
        0.20,
        Kind.PUBLISHED,
        "us-7748412",
        "a good 1/8 in rubber hose: 0.15 cc/ft at 1000 psi, 0.20 at 1500",
        rel=0.01,
    ),
    Case(
        hose_swelling_m3,
        {"length_m": 1.6, "pressure_pa": 3 * MPA, "rated_m3_m_pa": 60e-15},
        385e-9,
        Kind.DERIVED,
        "derived",
        "travel of a twin-disc front brake at 3 MPa, its rubber hoses",
        rel=2e-3,
    ),
    Case(
        pads_and_caliper_give_m3,
        {"area_m2": 5.68e-3, "give_m": 0.05e-3, "pressure_pa": 5 * MPA},
        284e-9,
        Kind.DERIVED,
        "derived",
        "the same brake, pads and calipers give 0.05 mm at the reference pressure",
        rel=2e-3,
    ),
    Case(
        clearance_taken_up_m3,
        {"clearance_m3": 0.568 * ML, "pressure_pa": 0.2 * MPA, "scale_pa": 0.1 * MPA},
        0.568 * ML * (1 - 0.1353353),
        Kind.DERIVED,
        "judgement",
        "two scales of the form chosen",
        rel=1e-6,
    ),
    Case(
        creep_m,
        {"rate_m": 0.3e-3, "time_s": 60.0, "onset_s": 2.0},
        0.3e-3 * 3.4339872,
        Kind.DERIVED,
        "derived",
        "the natural logarithm of 31, from a table",
        rel=1e-6,
    ),
    Case(
        settling_m,
        {"reach_m": 1e-3, "time_s": 20.0, "constant_s": 10.0},
        1e-3 * (1 - 0.1353353),
        Kind.DERIVED,
        "definition",
        "two time constants",
        rel=1e-6,
    ),
    *(
        Case(
            annulus_leak_m3_s,
            {**SEAL, "bore_m": 0.014, "gap_m": gap * 1e-6, "eccentricity": 0.0},
            leak * ML,
            Kind.DERIVED,
            "merritt-1967",
            "annulus, evaluated apart from this code",
            rel=1e-3,
        )
        for gap, leak, _ in LEAKS
    ),
    Case(
        annulus_leak_m3_s,
        {**SEAL, "bore_m": 0.014, "gap_m": 5e-6, "eccentricity": 1.0},
        2.5 * 2.545e-2 * ML,
        Kind.DERIVED,
        "merritt-1967",
        "a piston that touches leaks two and a half times as much",
        rel=1e-3,
    ),
    *(
        Case(
            scratch_leak_m3_s,
            {**SEAL, "width_m": width * 1e-6},
            leak * ML,
            Kind.DERIVED,
            "hagen-poiseuille",
            "round scratch, evaluated apart from this code",
            rel=2e-3,
        )
        for width, leak in SCRATCHES
    ),
    *(
        Case(
            piston_sink_m_s,
            {"leak_m3_s": leak * ML, "master_bore_m": 0.014},
            sink / 60e3,
            Kind.DERIVED,
            "definition",
            "millimetres a minute on a 14 mm bore",
            rel=1e-3,
        )
        for _, leak, sink in LEAKS
    ),
    *(
        Case(
            piston_sink_m_s,
            {"leak_m3_s": ML, "master_bore_m": bore * 1e-3},
            way * 1e-3,
            Kind.DERIVED,
            "definition",
            f"1 ml is {way} mm of a {bore} mm bore",
            rel=1e-3,
        )
        for bore, way in ((11.0, 10.52), (12.7, 7.89), (14.0, 6.50), (16.0, 4.97), (19.0, 3.53))
    ),
)
