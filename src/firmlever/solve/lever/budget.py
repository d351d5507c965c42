# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where the travel of a lever goes at one force, part by part."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.lever import TravelShare
from firmlever.physics.stiffness import (
    HOSE_REFERENCE_PA,
    air_taken_up_m3,
    clearance_taken_up_m3,
    fluid_shrinkage_m3,
    hose_swelling_m3,
    pads_and_caliper_give_m3,
)
from firmlever.solve.lever.posterior import Posterior
from firmlever.units import from_si

Array = NDArray[np.float64]

WORDS: Mapping[str, str] = {
    "rest": "free play and the way to the port",
    "clearance": "clearance before the pads bite",
    "air": "air",
    "hoses": "hoses swelling",
    "pads": "pads and calipers giving way",
    "fluid": "the fluid itself",
    "flex": "the lever bending",
}


def travel_parts_m(known: Posterior, force_n: float, ambient_pa: float) -> dict[str, Array]:
    """Return each part of the travel of an unpumped lever, in draws."""
    value = known.values
    gain = value["gain"]
    pressure = np.maximum(value["efficiency"] * gain * (force_n - value["before_n"]), 0.0)
    air, shut = value["air"], value["clearance"]
    hoses = hose_swelling_m3(1.0, pressure, 1.0) / HOSE_REFERENCE_PA
    return {
        "rest": value["rest"],
        "clearance": gain * clearance_taken_up_m3(shut, pressure, value["take_up_pa"]),
        "air": gain * air_taken_up_m3(air, pressure, ambient_pa, value["polytropic"]),
        "hoses": gain * value["hoses"] * hoses,
        "pads": gain * value["pads"] * pads_and_caliper_give_m3(1.0, 1.0, pressure),
        "fluid": gain * value["fluid"] * fluid_shrinkage_m3(1.0, pressure, 1.0),
        "flex": value["flex"] * force_n,
    }


def travel_budget(known: Posterior, force_n: float, ambient_pa: float) -> tuple[TravelShare, ...]:
    """Return the parts as bands, from the lever to the wheel."""
    parts = travel_parts_m(known, force_n, ambient_pa)
    return tuple(
        TravelShare(name, WORDS[name], known.band(from_si(draws, "mm")))
        for name, draws in parts.items()
    )
