# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Make the table of the laminar line with radial diffusion.

    python tools/make_laminar_table.py > src/firmlever/physics/laminar_diffusion_table.py

The problem, with x = r**2 / a**2 and time in units of the mean residence:
``dc/dt + 2 (1 - x) dc/dz = 4 kappa d/dx (x dc/dx)``, no flux at the axis and the
wall, no diffusion along the line, clean inlet. In Laplace space this is a set
of ordinary equations along z, here in Legendre polynomials of x; its solution
is a matrix exponential, and the outlet's flow-weighted mean is one quadratic
form in it. The share of old fluid at the outlet is got back by a damped Fourier
sum. Something known and alike is taken off first, so that the sum converges
quickly: the law without diffusion with its corner rounded, or for quick
diffusion tanks in series.
"""

import sys
from textwrap import fill

import numpy as np
import numpy.typing as npt
from scipy.linalg import cholesky, expm, solve_triangular
from scipy.special import eval_legendre, exp1, gammaincc, roots_legendre

Array = npt.NDArray[np.float64]
Complex = npt.NDArray[np.complex128]

CELLS = 192
UNITS = 100_000
KAPPAS = tuple(10 ** (step / 8) for step in range(-32, 9))
DAMPED_PERIODS = 10.0
QUICK_DIFFUSION = 0.05
TANKS = 6.0


def speeds_and_diffusion(order: int) -> tuple[Array, Array]:
    """Velocity and diffusion as matrices over the first Legendre polynomials of x."""
    x, weight = roots_legendre(order + 2)
    degree = np.arange(order)[:, None]
    scale = np.sqrt(2.0 * degree + 1.0)
    value = scale * eval_legendre(degree, x)
    lower = eval_legendre(np.maximum(degree - 1, 0), x)
    slope = scale * 2.0 * degree * (x * eval_legendre(degree, x) - lower) / (x**2 - 1.0)
    x, weight = 0.5 * (x + 1.0), 0.5 * weight
    return (value * (weight * 2.0 * (1.0 - x))) @ value.T, -(slope * (weight * 4.0 * x)) @ slope.T


def outlet_transform(kappa: float, s: Complex, order: int) -> Complex:
    """The Laplace transform of the distribution of residence times."""
    speed, diffusion = speeds_and_diffusion(order)
    root = cholesky(speed, lower=True)
    inverse = solve_triangular(root, np.eye(order), lower=True)
    spread, delay = kappa * inverse @ diffusion @ inverse.T, inverse @ inverse.T
    inlet = root[0]
    return np.array([inlet @ (expm(spread - rate * delay) @ inlet) for rate in s])


def nearly_no_diffusion(kappa: float, s: Complex) -> Complex:
    """The transform of the ages without diffusion, its corner rounded by diffusion.

    Without diffusion the ages are 1 / (2 theta**3) from one half on. Diffusion at
    the axis, where the profile is flat, turns the step of height 4 at one half into
    4 (1 + 2 sum (-1)**n exp(-n**2 pi**2 tau / kappa)), tau from the step on.
    """
    z = 0.5 * s
    second = np.exp(-z) - z * exp1(z)
    spread = np.sqrt(kappa * s)
    rounding = 4.0 * (spread / np.sinh(spread) - 1.0) / s
    image: Complex = np.exp(-z) * (1.0 + rounding) - z * second
    return image


def nearly_no_diffusion_old(kappa: float, theta: Array) -> Array:
    """The share of old fluid at the outlet that belongs to that transform."""
    n = np.arange(1.0, 2000.0)
    tau = np.maximum(theta - 0.5, 0.0)[:, None]
    terms = (-1.0) ** n / n**2 * np.expm1(-((n * np.pi) ** 2) * tau / kappa)
    old: Array = 0.25 / np.maximum(theta, 0.5) ** 2 + 8.0 * kappa / np.pi**2 * terms.sum(axis=1)
    return old


def settings(kappa: float) -> tuple[int, float, float]:
    """How many polynomials, which period and which highest frequency are enough."""
    if kappa < 1e-3:
        return 112, 40.0, 150.0
    if kappa < 3e-3:
        return 80, 30.0, 300.0
    if kappa < QUICK_DIFFUSION:
        return 64, 20.0, 500.0
    if kappa < 0.3:
        return 40, 12.0, 800.0
    return 20, 8.0, 300.0


def old_at_outlet(kappa: float, theta: Array) -> Array:
    """The share of old fluid at the outlet after ``theta`` volumes."""
    order, period, highest = settings(kappa)
    step = 2.0 * np.pi / period
    s = (DAMPED_PERIODS / period + 1j * step * np.arange(int(highest / step) + 1)).astype(complex)
    if kappa < QUICK_DIFFUSION:
        known = nearly_no_diffusion_old(kappa, theta)
        known_image = nearly_no_diffusion(kappa, s)
    else:
        known = gammaincc(TANKS, TANKS * theta)
        known_image = ((1.0 + s / TANKS) ** -TANKS).astype(complex)
    image = (known_image - outlet_transform(kappa, s, order)) / s
    image[0] *= 0.5
    wave = np.exp(np.multiply.outer(np.minimum(theta, period), s))
    old = known + step / np.pi * (wave @ image).real
    return np.where(theta < 0.6 * period, old, 0.0)


def cell_shares(kappa: float) -> list[int]:
    """How much of the fluid leaves in each cell, in whole units that add up."""
    speed = 1.0 - np.arange(CELLS) / CELLS
    old = np.minimum.accumulate(np.clip(old_at_outlet(kappa, 0.5 / speed), 0.0, 1.0))
    old[0] = 1.0
    return [int(share) for share in -np.diff(np.rint(UNITS * old), append=0.0)]


HEADER = '''# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Ages of the fluid leaving a laminar line, for diffusion across the bore.

Written by ``tools/make_laminar_table.py``; do not edit. Derived: the direct
solution of convection and radial diffusion, good to about 2e-5. ``SHARES[row]``
says which share of the fluid, in 1/UNITS, leaves at an age within each cell, for
``KAPPAS[row]``. With ``theta`` the age over the mean age, the cells are CELLS equal
steps of ``1 / (2 theta)`` from one down to zero.
"""

'''


def module_text(rows: list[list[int]]) -> str:
    """The table as a Python module."""
    kappas = ", ".join(f"{kappa:.6g}" for kappa in KAPPAS)
    parts = [HEADER, f"CELLS = {CELLS}\nUNITS = {UNITS}\n", "# fmt: off\n"]
    parts.append("KAPPAS = (\n" + fill(kappas, 96, initial_indent="    ", subsequent_indent="    "))
    parts.append(",\n)\nSHARES = (\n")
    for row in rows:
        numbers = fill(", ".join(map(str, row)), 90).replace("\n", "\n     ")
        parts.append(f"    ({numbers}),\n")
    parts.append(")\n")
    return "".join(parts)


if __name__ == "__main__":
    sys.stdout.write(module_text([cell_shares(kappa) for kappa in KAPPAS]))
