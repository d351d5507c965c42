# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Viscosity, density and the limits of the grades."""

import csv
from importlib.resources import files

from firmlever.physics.fluid import (
    density_kg_m3,
    dynamic_viscosity_pa_s,
    expansion_volume_m3,
    kinematic_viscosity_m2_s,
    walther_coefficients,
)
from reference.cases import Case, Kind

# viscosity at -40 and 100 degC: A, B, then viscosity at -20, 0, 10, 20, 40, 80 degC, in mm2/s
_CHART = {
    (1200, 2.5): (9.589, 3.844, 175, 46.7, 28.1, 18.2, 9.09, 3.51),
    (1200, 2.1): (10.203, 4.103, 157, 39.9, 23.7, 15.3, 7.58, 2.94),
    (850, 2.1): (9.930, 3.997, 128, 35.3, 21.6, 14.2, 7.26, 2.91),
    (700, 2.0): (9.952, 4.011, 110, 31.5, 19.5, 13.0, 6.74, 2.75),
    (1800, 1.5): (11.850, 4.789, 156, 32.8, 18.5, 11.5, 5.50, 2.09),
    (1500, 1.5): (11.715, 4.736, 141, 31.0, 17.7, 11.2, 5.40, 2.08),
}
_CHART_T_K = (253.15, 273.15, 283.15, 293.15, 313.15, 353.15)
_COLD_T_K, _HOT_T_K = 233.15, 373.15


def viscosity_between(
    cold_t_k: float,
    cold_viscosity_m2_s: float,
    hot_t_k: float,
    hot_viscosity_m2_s: float,
    t_k: float,
) -> object:
    """Viscosity at a third temperature, from two points."""
    line = walther_coefficients(cold_t_k, cold_viscosity_m2_s, hot_t_k, hot_viscosity_m2_s)
    return kinematic_viscosity_m2_s(t_k, *line)


def grade_limit(name: str, column: str) -> float:
    """A limit as the table of grades has it; NaN where the standard sets none."""
    table = files("firmlever").joinpath("data/grades.csv").read_text(encoding="utf-8")
    cells = {row["name"]: row[column] for row in csv.DictReader(table.splitlines())}
    return float(cells[name] or "nan")


def _pdms_density_kg_m3() -> float:
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("D", "T", 313.15, "P", 101325, "INCOMP::PMS1"))


_COEFFICIENTS = tuple(
    Case(
        walther_coefficients,
        {
            "cold_t_k": _COLD_T_K,
            "cold_viscosity_m2_s": cold * 1e-6,
            "hot_t_k": _HOT_T_K,
            "hot_viscosity_m2_s": hot * 1e-6,
        },
        (a, b),
        Kind.DERIVED,
        "astm-d341",
        "equation of the chart, solved by hand for the two points",
        abs=5.1e-4,
    )
    for (cold, hot), (a, b, *_) in _CHART.items()
)

_CHART_CASES = tuple(
    Case(
        viscosity_between,
        {
            "cold_t_k": _COLD_T_K,
            "cold_viscosity_m2_s": cold * 1e-6,
            "hot_t_k": _HOT_T_K,
            "hot_viscosity_m2_s": hot * 1e-6,
            "t_k": t_k,
        },
        viscosity * 1e-6,
        Kind.DERIVED,
        "astm-d341",
        "equation of the chart",
        rel=5e-3,
    )
    for (cold, hot), (_, _, *viscosities) in _CHART.items()
    for t_k, viscosity in zip(_CHART_T_K, viscosities, strict=True)
)

_ANCHORS = tuple(
    Case(
        viscosity_between,
        {
            "cold_t_k": _COLD_T_K,
            "cold_viscosity_m2_s": cold * 1e-6,
            "hot_t_k": _HOT_T_K,
            "hot_viscosity_m2_s": hot * 1e-6,
            "t_k": t_k,
        },
        viscosity * 1e-6,
        Kind.PUBLISHED,
        "astm-d341",
        "the line passes through both points",
        rel=1e-11,
    )
    for cold, hot in _CHART
    for t_k, viscosity in ((_COLD_T_K, cold), (_HOT_T_K, hot))
)

_PROPERTIES = (
    Case(
        kinematic_viscosity_m2_s,
        {"t_k": 293.15, "a": 9.589, "b": 3.844},
        18.2e-6,
        Kind.DERIVED,
        "astm-d341",
        "equation of the chart, with coefficients of four digits",
        rel=1e-2,
    ),
    Case(
        dynamic_viscosity_pa_s,
        {"kinematic_viscosity_m2_s": 18e-3 / 1050, "density_kg_m3": 1050.0},
        18e-3,
        Kind.DERIVED,
        "definition",
        "reference fluid",
        rel=1e-12,
    ),
    Case(
        density_kg_m3,
        {"t_k": 293.15, "density_20_kg_m3": 907.8, "expansion_1_k": 0.994e-3},
        1172.35 - 0.9025 * 293.15,
        Kind.PUBLISHED,
        "lib-coolprop",
        "PMS1, straight line in temperature",
        rel=1e-4,
    ),
    Case(
        density_kg_m3,
        {"t_k": 313.15, "density_20_kg_m3": 907.8, "expansion_1_k": 0.994e-3},
        _pdms_density_kg_m3,
        Kind.INDEPENDENT,
        "lib-coolprop",
        "PMS1 at 40 degC; it takes the density as straight, we the volume",
        rel=6e-4,
    ),
    Case(
        expansion_volume_m3,
        {"volume_m3": 60e-6, "rise_k": 10.0, "expansion_1_k": 9e-4},
        0.54e-6,
        Kind.DERIVED,
        "definition",
        "60 ml warmed by 10 K",
        rel=1e-12,
    ),
)

# dry and wet boiling point at least, viscosity at -40 degC at most, at 100 degC at least
_LIMITS = (
    "dry_boiling_min_degc",
    "wet_boiling_min_degc",
    "cold_viscosity_max_mm2_s",
    "hot_viscosity_min_mm2_s",
)
_FMVSS_116 = {
    "DOT 3": (205, 140, 1500, 1.5),
    "DOT 4": (230, 155, 1800, 1.5),
    "DOT 5": (260, 180, 900, 1.5),
    "DOT 5.1": (260, 180, 900, 1.5),
}
_JIS_K2233 = {
    "JIS BF-3": (205, 140, 1500, 1.5),
    "JIS BF-4": (230, 155, 1500, 1.5),
    "JIS BF-6": (250, 165, 750, 1.5),
    "ISO 3": (205, 140, 1500, 1.5),
    "ISO 4": (230, 155, 1500, 1.5),
    "ISO 6": (250, 165, 750, 1.5),
}
_REMEMBERED = {
    "JIS BF-5": (260, 180, 900, 1.5),
    "ISO 5-1": (260, 180, 900, 1.5),
    "ISO 7": (260, 180, 750, 1.5),
}


def _grade_cases(
    table: dict[str, tuple[int, int, int, float]], kind: Kind, source: str, where: str
) -> tuple[Case, ...]:
    return tuple(
        Case(grade_limit, {"name": name, "column": column}, limit, kind, source, where, abs=1e-9)
        for name, limits in table.items()
        for column, limit in zip(_LIMITS, limits, strict=True)
    )


CASES = (
    *_COEFFICIENTS,
    *_CHART_CASES,
    *_ANCHORS,
    *_PROPERTIES,
    *_grade_cases(_FMVSS_116, Kind.PUBLISHED, "fmvss-116", "S5.1.1, S5.1.2, S5.1.3"),
    *_grade_cases(_JIS_K2233, Kind.PUBLISHED, "jis-k2233", "table of classes, second-hand"),
    *_grade_cases(_REMEMBERED, Kind.FROM_MEMORY, "from-memory", "class 5 viscosity, class 7"),
)
