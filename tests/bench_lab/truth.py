# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""One machine as it really is: drawn once from what is stated, and never shown to the bench.

The draw and the geometry are the package's own reading of a circuit file; how fluid
moves through it is not: that is ``flow``, the literal flush.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench_lab.delays import BUNDLE_FLOW, bundle_delays
from bench_lab.flow import NEW, Bundles, Flow, Pot, Stirred, Tube
from firmlever.solve.job import Job, Turn, usual_turns
from firmlever.solve.simulate import Flow as Layout
from firmlever.solve.simulate import lay_out
from firmlever.solve.transport import Mixing

Array = NDArray[np.float64]

LINES = "lines"
_ML = 1e-6
_PARCELS_A_CIRCUIT = 400
_STREAKS = Bundles.convective()


@dataclass
class Truth:
    """What is really there.

    ``unit_ml`` is one stroke or one second of an even-handed person at each screw;
    ``tilt_share`` is the share of a filling that the side stand takes.
    """

    turns: tuple[Turn, ...]
    origins: tuple[str, ...]
    flow: Flow
    full_ml: float
    low_ml: float
    left_ml: float
    unit_ml: tuple[float, ...]
    tilt_share: float

    def origin(self, name: str) -> Array:
        """Return fluid of one origin alone."""
        return np.array([float(one == name) for one in self.origins])

    def pot(self, content_ml: float, dry_ml: float) -> Pot:
        """Return the reservoir drawn down and wiped, before the first filling."""
        return Pot(self.full_ml, dry_ml, self.origin("pot"), content_ml)


def drawn(job: Job, rng: np.random.Generator, *, swollen: float = 1.0) -> Truth:
    """Draw the machine; ``swollen`` makes its circuit hold so many times what it should."""
    turns = usual_turns(job)
    laid = lay_out(job, rng.random((1, 160)), turns, frozenset())
    places = laid.network.places
    names = dict.fromkeys(LINES if place.is_line else place.owner for place in places)
    origins = (*names, "pot", NEW)
    swept_m3 = sum(float(place.pocket.volume[0]) for place in places)
    parcel_ml = swollen * swept_m3 / _ML / _PARCELS_A_CIRCUIT
    tilt = laid.inputs.prior("work", "work", "side_stand_loss_share")
    pot = laid.network.pot
    return Truth(
        turns,
        origins,
        Flow(
            _parts(laid, origins, parcel_ml, swollen / _ML),
            [laid.path(name) for name in laid.screws],
            parcel_ml,
        ),
        float(pot.full_m3[0]) / _ML,
        float(pot.low_m3[0]) / _ML,
        float(pot.left_old_m3[0]) / _ML,
        tuple(
            float((one.flow_m3_s if one.stroke_m3 is None else one.stroke_m3)[0]) / _ML
            for one in laid.paces
        ),
        float(tilt[0]),
    )


def _parts(
    laid: Layout, origins: Sequence[str], parcel_ml: float, ml_of_m3: float
) -> list[Tube | Stirred]:
    followed = {pocket.follows for pocket in laid.pockets}
    parts: list[Tube | Stirred] = []
    for index, (place, pocket) in enumerate(zip(laid.network.places, laid.pockets, strict=True)):
        volume_ml = float(pocket.volume[0]) * ml_of_m3
        name = LINES if place.is_line else place.owner
        own = np.array([float(origin == name) for origin in origins])
        if pocket.mixing is Mixing.STIRRED:
            parts.append(Stirred(volume_ml, own, parcel_ml))
            continue
        streaked = index in followed or pocket.follows is not None
        bundles = (
            _STREAKS if streaked else Bundles(bundle_delays(float(pocket.kappa[0])), BUNDLE_FLOW)
        )
        parts.append(Tube(volume_ml, own, bundles, parcel_ml, through=index in followed))
    return parts
