# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How long fluid stays in a tube while it also creeps sideways: followed grain by grain.

Grains enter where the flow is, walk across the bore at random and are carried along by
the parabola until they come out. A bundle is a share of the flow, the smaller the later
it is; its delay is the mean over its grains, so the bundles together hold the tube's
volume exactly.
"""

from functools import cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

BUNDLES = 48
KAPPAS = (3e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, 1e-1, 3e-1)
_GRAINS = 4 * BUNDLES**2
_STEP = 0.01
_LONGEST = 40.0


# grains up to the end of each bundle, so that the last one holds four
_ENDS = _GRAINS - 4 * np.arange(BUNDLES, -1, -1) ** 2
BUNDLE_FLOW: Array = np.diff(_ENDS) / _GRAINS


def bundle_delays(kappa: float) -> Array:
    """Return the delays in volumes of the tube, quickest first, at a diffusion number.

    Between the numbers that were followed, interpolated by its logarithm.
    """
    rows = _followed()
    place = np.interp(np.log(max(kappa, KAPPAS[0])), np.log(KAPPAS), np.arange(len(KAPPAS)))
    below = min(int(place), len(KAPPAS) - 2)
    part = place - below
    delays: Array = rows[below] * (1.0 - part) + rows[below + 1] * part
    return delays


@cache
def _followed() -> Array:
    return np.stack([_walk(kappa) for kappa in KAPPAS])


def _walk(kappa: float) -> Array:
    rng = np.random.default_rng(20260501)
    # the flow inside radius r is 2 r**2 - r**4 of the whole: even steps of flow
    flow = (np.arange(_GRAINS) + 0.5) / _GRAINS
    x, y = np.sqrt(1.0 - np.sqrt(1.0 - flow)), np.zeros(_GRAINS)
    way, late = np.zeros(_GRAINS), np.full(_GRAINS, _LONGEST)
    inside = np.arange(_GRAINS)
    hop, time = np.sqrt(2.0 * kappa * _STEP), 0.0
    while inside.size and time < _LONGEST:
        before = x**2 + y**2
        x += hop * rng.standard_normal(inside.size)
        y += hop * rng.standard_normal(inside.size)
        after = x**2 + y**2
        out = after > 1.0
        back = np.where(out, 2.0 / np.sqrt(np.maximum(after, 1e-12)) - 1.0, 1.0)
        x, y = x * back, y * back
        speed = 2.0 - before - np.minimum(after * back**2, 1.0)
        further = way + speed * _STEP
        time += _STEP
        arrived = further >= 1.0
        late[inside[arrived]] = time - (further[arrived] - 1.0) / speed[arrived]
        x, y, way, inside = x[~arrived], y[~arrived], further[~arrived], inside[~arrived]
    late = np.sort(late) / late.mean()
    bundles: Array = np.add.reduceat(late, _ENDS[:-1]) / np.diff(_ENDS)
    return bundles
