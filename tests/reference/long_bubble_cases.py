# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Bubbles that fill a bore: held, creeping, carried, climbing, dissolving."""

from collections.abc import Callable

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from firmlever.physics.dissolving import dissolving_time_s
from firmlever.physics.long_bubbles import (
    bond_number,
    bubble_drop_pa,
    carried_speed_m_s,
    creeping_climb_m_s,
    film_share,
    hold_bore_m,
)
from firmlever.physics.numeric import Numeric
from firmlever.physics.rising_bubbles import (
    climb_m_s,
    level_drift_m_s,
    slanted_climb_m_s,
    sweep_down_m_s,
    viana_climb_m_s,
    wallis_climb_m_s,
)
from reference.cases import Case, Kind

G = 9.80665
BRAKE = {"density_kg_m3": 1050.0, "viscosity_pa_s": 0.018, "surface_tension_n_m": 0.033}
WATER = {"density_kg_m3": 998.0, "viscosity_pa_s": 1.002e-3, "surface_tension_n_m": 0.0728}
_WORKED = "the formula of the paper worked out apart from this code"

_BONDS = tuple(
    Case(
        bond_number,
        {"bore_m": bore * 1e-3, "density_kg_m3": 1050.0, "surface_tension_n_m": 0.033},
        bond,
        Kind.DERIVED,
        "definition",
        "rho g R**2 / sigma by hand",
        rel=2e-3,
    )
    for bore, bond in {
        1.0: 0.078,
        2.0: 0.312,
        3.2: 0.799,
        4.0: 1.248,
        6.0: 2.81,
        10.0: 7.80,
    }.items()
)

# surface tension in mN/m and density: limiting bore in mm
_LIMITS = tuple(
    Case(
        hold_bore_m,
        {"density_kg_m3": density, "surface_tension_n_m": tension * 1e-3},
        bore * 1e-3,
        Kind.DERIVED,
        "bretherton-1961",
        f"Bo 0.842 solved for the bore, {fluid}",
        abs=0.6e-5,
    )
    for tension, density, bore, fluid in (
        (20.8, 960.0, 2.73, "silicone"),
        (27.6, 1000.0, 3.08, "butyl ether"),
        (32.7, 1020.0, 3.32, "methyl ether"),
        (45.6, 1120.0, 3.74, "triethylene glycol"),
        (33.0, 1050.0, 3.29, "brake fluid"),
        (28.0, 1050.0, 3.03, "brake fluid"),
        (36.0, 1050.0, 3.43, "brake fluid"),
        (72.8, 998.0, 5.01, "water"),
    )
)


def creeping_capillary(bond: Numeric) -> Numeric:
    """Capillary number of the creeping climb at a Bond number, in brake fluid."""
    bore = 2.0 * np.sqrt(bond * 0.033 / (1050.0 * G))
    return creeping_climb_m_s(bore, **BRAKE) * 0.018 / 0.033


def _creeping_root(bond: float) -> Callable[[], float]:
    """The same root by another way (independent)."""

    def excess(log_capillary: float) -> float:
        capillary = np.exp(log_capillary)
        return float(1.25 * capillary ** (2 / 9) + 2.24 * capillary ** (1 / 3) - (bond - 0.842))

    return lambda: float(np.exp(brentq(excess, -60.0, 0.0, xtol=1e-14)))


_CREEPING = tuple(
    case
    for bond, capillary in {
        0.86: 2.301e-9,
        0.88: 4.963e-8,
        0.90: 2.728e-7,
        0.95: 3.184e-6,
        1.00: 1.390e-5,
        1.04: 3.298e-5,
    }.items()
    for case in (
        Case(
            creeping_capillary,
            {"bond": bond},
            capillary,
            Kind.DERIVED,
            "bretherton-1961",
            f"root of the two-term law, {_WORKED}",
            rel=5e-4,
        ),
        Case(
            creeping_capillary,
            {"bond": bond},
            _creeping_root(bond),
            Kind.INDEPENDENT,
            "lib-scipy",
            "brentq on the logarithm of Ca",
            rel=1e-8,
        ),
    )
)

_FILMS = tuple(
    Case(
        film_share,
        {"capillary": capillary},
        film,
        kind,
        "aussillous-2000",
        where,
        rel=rel,
    )
    for capillary, film, kind, where, rel in (
        (1e-4, 0.002866, Kind.DERIVED, _WORKED, 2e-4),
        (1e-3, 0.012966, Kind.DERIVED, _WORKED, 2e-4),
        (0.01, 0.053827, Kind.DERIVED, _WORKED, 2e-4),
        (0.1, 0.167676, Kind.DERIVED, _WORKED, 2e-4),
        (0.5, 0.271398, Kind.DERIVED, _WORKED, 2e-4),
        # Bretherton's own law, the limit of slow flow: 0.643 (3 Ca)**(2/3)
        (1e-9, 0.643 * 3e-9 ** (2 / 3), Kind.PUBLISHED, "limit of slow flow", 3e-3),
    )
)

# bubble over flow at a capillary number of the bubble
_CARRIED = tuple(
    Case(
        carried_speed_m_s,
        {
            "flow_speed_m_s": capillary * 0.033 / 0.018 / ratio,
            "viscosity_pa_s": 0.018,
            "surface_tension_n_m": 0.033,
        },
        capillary * 0.033 / 0.018,
        Kind.DERIVED,
        "aussillous-2000",
        f"U_b / U at Ca {capillary:g}, {_WORKED}",
        rel=3e-4,
    )
    for capillary, ratio in {
        1e-4: 1.0058,
        1e-3: 1.0264,
        0.01: 1.1170,
        0.1: 1.4435,
        0.5: 1.8837,
    }.items()
)

_DROPS = tuple(
    Case(
        bubble_drop_pa,
        {
            "speed_m_s": speed,
            "bore_m": 0.0032,
            "viscosity_pa_s": 0.018,
            "surface_tension_n_m": 0.033,
        },
        drop,
        Kind.DERIVED,
        "bretherton-1961",
        "both caps, 4.52 (3 Ca)**(2/3) sigma / R by hand",
        rel=1e-2,
    )
    for speed, drop in {0.01: 6.0, 0.1: 27.9, 0.3: 58.0}.items()
)

# fluid, bore in mm: Viana, Wallis in mm/s
_CLIMBS = tuple(
    Case(
        function,
        {"bore_m": bore * 1e-3, **fluid},
        speed * 1e-3,
        Kind.DERIVED,
        source,
        "as coded in an open program, worked out apart from this code",
        abs=0.6e-4,
    )
    for fluid, bore, viana, wallis in (
        (WATER, 25.4, 169.2, 172.1),
        (WATER, 10.0, 65.0, 68.6),
        (BRAKE, 4.0, 2.4, 4.3),
        (BRAKE, 5.0, 12.0, 15.6),
        (BRAKE, 6.0, 32.5, 31.9),
        (BRAKE, 8.0, 70.2, 69.3),
        (BRAKE, 10.0, 93.0, 98.6),
        ({**BRAKE, "viscosity_pa_s": 0.05}, 8.0, 48.4, 43.4),
        ({**BRAKE, "viscosity_pa_s": 0.3}, 8.0, 10.4, 9.5),
    )
    for function, speed, source in (
        (viana_climb_m_s, viana, "viana-2003"),
        (wallis_climb_m_s, wallis, "wallis-1969"),
    )
)


def reynolds_in_olive_oil(eotvos: float, morton: float, between: float) -> Numeric:
    """Reynolds number of a bubble's climb, by its bore: any fluid of these two numbers."""
    density, tension = 911.0, 0.0328
    bore = np.sqrt(eotvos * tension / (density * G))
    viscosity = (morton * density * tension**3 / G) ** 0.25
    speed = climb_m_s(bore, density, viscosity, tension, between)
    return np.asarray(density * speed * bore / viscosity)


# measured: Re 27; the band is that of the measurement and of both correlations
_OLIVE_OIL = tuple(
    Case(
        reynolds_in_olive_oil,
        {"eotvos": 100.0, "morton": 0.015, "between": between},
        27.0,
        Kind.PUBLISHED,
        "bugg-2002",
        "measured terminal Reynolds number in olive oil, Eo 100, Mo 0.015",
        abs=2.0,
    )
    for between in (0.0, 0.5, 1.0)
)

_HELD = tuple(
    Case(
        climb_m_s,
        {"bore_m": bore, **BRAKE},
        0.0,
        Kind.PUBLISHED,
        "bretherton-1961",
        "no climb below the limit",
        abs=1e-15,
    )
    for bore in (0.0025, 0.0032)
)

_SLOPES = tuple(
    Case(
        slanted_climb_m_s,
        {"climb_m_s": 0.35, "level_m_s": 0.54, "rise_share": float(np.sin(np.radians(angle)))},
        drift,
        Kind.DERIVED,
        "bendiksen-1984",
        f"drift coefficient at {angle} degrees by hand",
        abs=6e-4,
    )
    for angle, drift in {0: 0.540, 15: 0.612, 30: 0.643, 45: 0.629, 60: 0.573, 75: 0.478}.items()
)


def level_eotvos(eotvos: float) -> Numeric:
    """Froude number in a level passage at an Eötvös number."""
    bore = np.sqrt(eotvos * 0.033 / (1050.0 * G))
    return np.asarray(level_drift_m_s(bore, 1050.0, 0.033) / np.sqrt(G * bore))


_LEVEL = (
    Case(
        level_drift_m_s,
        {"bore_m": 0.008, "density_kg_m3": 1050.0, "surface_tension_n_m": 0.033},
        0.0588,
        Kind.DERIVED,
        "weber-1981",
        "0.54 - 1.76 Eo**-0.56 by hand",
        rel=5e-3,
    ),
    Case(
        level_eotvos, {"eotvos": 8.2}, 0.0, Kind.DERIVED, "weber-1981", "below Eo 8.25", abs=1e-12
    ),
    Case(
        level_eotvos,
        {"eotvos": 8.4},
        0.54 - 1.76 * 8.4**-0.56,
        Kind.DERIVED,
        "weber-1981",
        "above Eo 8.25",
        rel=1e-9,
    ),
)

_SWEPT = (
    Case(
        sweep_down_m_s,
        {"climb_m_s": 0.0702},
        0.078,
        Kind.DERIVED,
        "from-memory",
        "an 8 mm passage: 70 mm/s over 0.9",
        rel=1e-3,
    ),
)


def hours_held(radius_m: float, times_the_air: float, diffusion_m2_s: float) -> Numeric:
    """Hours that a bubble, round in the open air, lasts when so much pressure is held on it."""
    radius = radius_m / times_the_air ** (1 / 3)
    return dissolving_time_s(radius, diffusion_m2_s, 0.05, 1.0 / times_the_air) / 3600.0


def _shrinking(radius: float, diffusion: float, saturation: float) -> Callable[[], float]:
    """The shrinking of the radius followed in time until one thousandth is left (independent)."""

    def rate(_: float, r: list[float]) -> list[float]:
        return [-diffusion * 0.05 * (1.0 - saturation) / r[0]]

    def gone(_: float, r: list[float]) -> float:
        return r[0] - 1e-3 * radius

    gone.terminal = True  # type: ignore[attr-defined]
    return lambda: float(
        solve_ivp(rate, (0.0, 1e7), [radius], events=gone, rtol=1e-9, atol=1e-12).t_events[0][0]
    )


_DISSOLVING = (
    *(
        Case(
            hours_held,
            {"radius_m": 1e-3, "times_the_air": times, "diffusion_m2_s": diffusion},
            hours,
            Kind.DERIVED,
            "epstein-plesset-1950",
            "1 mm in the open air, saturated fluid, by hand",
            rel=2.5e-2,
        )
        for diffusion, row in {
            1e-10: (11.9, 6.7, 4.0),
            3e-10: (4.0, 2.2, 1.3),
            1e-9: (1.2, 0.66, 0.40),
        }.items()
        for times, hours in zip((5.0, 10.0, 20.0), row, strict=True)
    ),
    Case(
        dissolving_time_s,
        {"radius_m": 5e-4, "diffusion_m2_s": 1e-10, "solubility": 0.05, "saturation": 0.1},
        _shrinking(5e-4, 1e-10, 0.1),
        Kind.INDEPENDENT,
        "lib-scipy",
        "dR/dt followed by solve_ivp",
        rel=1e-5,
    ),
)

CASES = (
    *_BONDS,
    *_LIMITS,
    *_CREEPING,
    *_FILMS,
    *_CARRIED,
    *_DROPS,
    *_CLIMBS,
    *_OLIVE_OIL,
    *_HELD,
    *_SLOPES,
    *_LEVEL,
    *_SWEPT,
    *_DISSOLVING,
    Case(
        creeping_climb_m_s,
        {"bore_m": 0.0036, **BRAKE},
        lambda: _creeping_root(1050.0 * G * 0.0018**2 / 0.033)() * 0.033 / 0.018,
        Kind.INDEPENDENT,
        "lib-scipy",
        "brentq on the logarithm of Ca",
        rel=1e-8,
    ),
    Case(
        climb_m_s,
        {"bore_m": 0.006, **BRAKE, "between": 0.5},
        0.0322,
        Kind.DERIVED,
        "derived",
        "mean of both correlations, 32.5 and 31.9 mm/s",
        rel=2e-3,
    ),
)
