# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Washout of lines and chambers, and the spread of a front.

Ages from a random walk (200 000 paths) are good to 0.003; one of its numbers, new at the
outlet for kappa 3 after one volume, is left out: halving the time step of such a walk
moves it from 0.524 to 0.517 and the mean age from 0.997 to 0.999, towards 0.514 and 1.
"""

import math

import numpy as np
from numpy.typing import NDArray

from firmlever.physics.dispersion import (
    flux_inlet_new,
    laminar_regime,
    ogata_banks_new,
    radial_diffusion_number,
    taylor_aris_dispersion_m2_s,
)
from firmlever.physics.laminar_diffusion import laminar_diffusive_left, laminar_diffusive_new
from firmlever.physics.washout import (
    laminar_left,
    laminar_new,
    stirred_left,
    tanks_in_series_left,
    tanks_in_series_new,
)
from reference.cases import Case, Kind


def array(*values: float) -> NDArray[np.float64]:
    """Values side by side."""
    return np.array(values)


THETA = array(0.5, 0.6, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 5, 10, 25)
WALK_THETA = array(0.6, 0.75, 1, 1.25, 1.5, 2, 3)
WALK_NEW = {
    0.003: (0.303, 0.552, 0.743, 0.831, 0.879, 0.924, 0.958),
    0.01: (0.296, 0.543, 0.730, 0.812, 0.856, 0.904, 0.963),
    0.1: (0.219, 0.434, 0.609, 0.736, 0.838, 0.957, 1.0),
    1.0: (0.006, 0.099, 0.526, 0.889, 0.990, 1.0, 1.0),
}
WALK_LEFT = {
    0.003: (0.249, 0.114, 0.057),
    0.01: (0.245, 0.090, 0.026),
    0.1: (0.192, 0.011, 0.0),
    1.0: (0.079, 0.0, 0.0),
    3.0: (0.046, 0.0, 0.0),
}
WALK = "random walk, 200 000 paths, good to 0.003"
TANKS_THETA = array(0.5, 0.75, 1, 1.25, 1.5, 2, 3)
TANKS_NEW = {
    1.0: (0.39347, 0.52763, 0.63212, 0.71350, 0.77687, 0.86466, 0.95021),
    2.0: (0.26424, 0.44217, 0.59399, 0.71270, 0.80085, 0.90842, 0.98265),
    3.0: (0.19115, 0.39066, 0.57681, 0.72293, 0.82642, 0.93803, 0.99377),
    5.0: (0.10882, 0.32245, 0.55951, 0.74701, 0.86794, 0.97075, 0.99914),
    10.0: (0.03183, 0.22359, 0.54207, 0.79857, 0.93015, 0.99500, 0.99999),
    20.0: (0.00345, 0.12478, 0.52974, 0.86643, 0.97813, 0.99982, 1.0),
    50.0: (0.00001, 0.02918, 0.51881, 0.95401, 0.99910, 1.0, 1.0),
}
TANKS_LEFT = {
    1.0: (0.36788, 0.13534, 0.04979),
    2.0: (0.27067, 0.05495, 0.00992),
    3.0: (0.22404, 0.02727, 0.00253),
    5.0: (0.17547, 0.00858, 0.00022),
    10.0: (0.12511, 0.00082, 0.0),
    20.0: (0.08884, 0.00002, 0.0),
    50.0: (0.05633, 0.0, 0.0),
}
FRONT_T_S = array(0.5, 0.75, 1, 1.25, 1.5, 2)
OGATA_BANKS = {
    10.0: (0.080067, 0.327898, 0.585289, 0.766301, 0.874525, 0.966220),
    50.0: (0.000275, 0.088258, 0.539507, 0.889242, 0.984208, 0.999869),
    100.0: (0.0, 0.024073, 0.528070, 0.951070, 0.998480, 1.0),
}
FLUX_INLET = {
    10.0: (0.048070, 0.244798, 0.493058, 0.693079, 0.825171, 0.948515),
    50.0: (0.000179, 0.072265, 0.499247, 0.870119, 0.980245, 0.999819),
}


def independent_tanks_new(theta: NDArray[np.float64], tanks: int) -> NDArray[np.float64]:
    """One minus the sum of Poisson terms: the tanks solved one after another by hand."""
    mean = tanks * theta
    return 1.0 - np.exp(-mean) * sum(mean**count / math.factorial(count) for count in range(tanks))


def front(peclet: float) -> dict[str, object]:
    """A front at 1 m after moving at 1 m/s."""
    return {
        "distance_m": 1.0,
        "time_s": FRONT_T_S,
        "mean_speed_m_s": 1.0,
        "dispersion_m2_s": 1.0 / peclet,
    }


CASES = (
    Case(
        laminar_new,
        {"theta": 1.0},
        0.75,
        Kind.DERIVED,
        "levenspiel-1999",
        "p. 344, the formula evaluated",
        abs=1e-15,
    ),
    Case(
        laminar_new,
        {"theta": THETA},
        (0, 0.305556, 0.555556, 0.75, 0.84, 0.888889, 0.9375, 0.96, 0.972222, 0.99, 0.9975, 0.9996),
        Kind.DERIVED,
        "levenspiel-1999",
        "p. 344, the formula evaluated",
        abs=1e-6,
    ),
    Case(
        laminar_left,
        {"theta": 1.0},
        0.25,
        Kind.DERIVED,
        "levenspiel-1999",
        "p. 344, integrated",
        abs=1e-15,
    ),
    Case(
        laminar_left,
        {"theta": THETA},
        (0.5, 0.416667, 0.333333, 0.25, 0.2, 0.166667, 0.125, 0.1, 0.083333, 0.05, 0.025, 0.01),
        Kind.DERIVED,
        "levenspiel-1999",
        "p. 344, integrated",
        abs=1e-6,
    ),
    Case(
        stirred_left,
        {"theta": 1.0},
        0.36788,
        Kind.DERIVED,
        "levenspiel-1999",
        "mixed flow, the formula evaluated",
        abs=5e-6,
    ),
    Case(
        stirred_left,
        {"theta": array(1, 2.302585, 4, 4.60517, 6.907755)},
        (0.36788, 0.1, 0.01832, 0.01, 0.001),
        Kind.DERIVED,
        "levenspiel-1999",
        "mixed flow, the formula evaluated",
        abs=5e-6,
    ),
    Case(
        tanks_in_series_new,
        {"theta": 1.0, "tanks": 3.0},
        0.57681,
        Kind.DERIVED,
        "levenspiel-1999",
        "tanks in series, the formula evaluated",
        abs=5e-6,
    ),
    *(
        Case(
            tanks_in_series_new,
            {"theta": TANKS_THETA, "tanks": tanks},
            expected,
            Kind.DERIVED,
            "levenspiel-1999",
            "tanks in series, the formula evaluated",
            abs=6e-6,
        )
        for tanks, expected in TANKS_NEW.items()
    ),
    *(
        Case(
            tanks_in_series_new,
            {"theta": TANKS_THETA, "tanks": float(tanks)},
            independent_tanks_new(TANKS_THETA, tanks),
            Kind.INDEPENDENT,
            "derived",
            "Poisson sum of the tanks' ordinary equations",
            abs=1e-12,
        )
        for tanks in (1, 3, 10)
    ),
    Case(
        tanks_in_series_left,
        {"theta": 1.0, "tanks": 3.0},
        0.22404,
        Kind.DERIVED,
        "levenspiel-1999",
        "tanks in series, integrated",
        abs=5e-6,
    ),
    *(
        Case(
            tanks_in_series_left,
            {"theta": array(1, 2, 3), "tanks": tanks},
            expected,
            Kind.DERIVED,
            "levenspiel-1999",
            "tanks in series, integrated",
            abs=6e-6,
        )
        for tanks, expected in TANKS_LEFT.items()
    ),
    Case(
        laminar_diffusive_new,
        {"theta": 1.0, "kappa": 0.1},
        0.609,
        Kind.INDEPENDENT,
        "derived",
        WALK,
        abs=3e-3,
    ),
    *(
        Case(
            laminar_diffusive_new,
            {"theta": WALK_THETA, "kappa": kappa},
            expected,
            Kind.INDEPENDENT,
            "derived",
            WALK,
            abs=3e-3,
        )
        for kappa, expected in WALK_NEW.items()
    ),
    Case(
        laminar_diffusive_new,
        {"theta": array(0.6, 0.75, 1.25, 1.5, 2), "kappa": 3.0},
        (0.0, 0.010, 0.980, 1.0, 1.0),
        Kind.INDEPENDENT,
        "derived",
        WALK,
        abs=3e-3,
    ),
    Case(
        laminar_diffusive_left,
        {"theta": 1.0, "kappa": 0.1},
        0.192,
        Kind.INDEPENDENT,
        "derived",
        WALK,
        abs=3e-3,
    ),
    *(
        Case(
            laminar_diffusive_left,
            {"theta": array(1, 2, 3), "kappa": kappa},
            expected,
            Kind.INDEPENDENT,
            "derived",
            WALK,
            abs=3e-3,
        )
        for kappa, expected in WALK_LEFT.items()
    ),
    Case(
        laminar_diffusive_left,
        {"theta": THETA, "kappa": 0.0},
        laminar_left(THETA),
        Kind.DERIVED,
        "levenspiel-1999",
        "no diffusion, the law of p. 344",
        abs=1e-12,
    ),
    Case(
        radial_diffusion_number,
        {"diffusivity_m2_s": 1e-10, "residence_s": 9.65, "bore_radius_m": 1.6e-3},
        3.7695e-4,
        Kind.DERIVED,
        "taylor-1953",
        "definition, worked by hand",
        rel=1e-4,
    ),
    Case(
        radial_diffusion_number,
        {"diffusivity_m2_s": 1e-10, "residence_s": 86400.0, "bore_radius_m": 1.6e-3},
        3.375,
        Kind.DERIVED,
        "taylor-1953",
        "a day at rest in a 3.2 mm bore, worked by hand",
        rel=1e-12,
    ),
    Case(
        laminar_regime,
        {"kappa": array(0.0, 2.9e-4, 3.1e-4, 0.9, 1.1)},
        (0, 0, 1, 1, 2),
        Kind.DERIVED,
        "derived",
        "limits of the three laws",
        abs=1e-12,
        elementwise=False,
    ),
    Case(
        taylor_aris_dispersion_m2_s,
        {"diffusivity_m2_s": 1.87e-9, "mean_speed_m_s": 0.05e-3, "bore_radius_m": 0.5e-3},
        8.8330e-9,
        Kind.INDEPENDENT,
        "open-dispersion-exercise",
        "inputs from there, result by the form in lib-openpnm",
        rel=1e-4,
    ),
    Case(
        ogata_banks_new,
        {"distance_m": 1.0, "time_s": 1.0, "mean_speed_m_s": 1.0, "dispersion_m2_s": 0.1},
        0.585289,
        Kind.DERIVED,
        "ogata-1961",
        "the solution, evaluated",
        abs=1e-6,
    ),
    *(
        Case(
            ogata_banks_new,
            front(peclet),
            expected,
            Kind.DERIVED,
            "ogata-1961",
            "the solution, evaluated",
            abs=1e-6,
        )
        for peclet, expected in OGATA_BANKS.items()
    ),
    Case(
        flux_inlet_new,
        {"distance_m": 1.0, "time_s": 1.0, "mean_speed_m_s": 1.0, "dispersion_m2_s": 0.1},
        0.493058,
        Kind.FROM_MEMORY,
        "vangenuchten-1982",
        "solution for a third-type inlet",
        abs=1e-6,
    ),
    *(
        Case(
            flux_inlet_new,
            front(peclet),
            expected,
            Kind.FROM_MEMORY,
            "vangenuchten-1982",
            "solution for a third-type inlet",
            abs=1e-6,
        )
        for peclet, expected in FLUX_INLET.items()
    ),
)
