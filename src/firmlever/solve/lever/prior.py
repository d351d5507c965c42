# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is known of a lever before anybody pulls it, from the circuit and its class."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, Layout, Material, PartKind
from firmlever.physics.stiffness import HOSE_REFERENCE_PA
from firmlever.solve.inputs import Inputs
from firmlever.solve.lever.linear import Term
from firmlever.solve.network import (
    build,
    layout_of,
    line_name,
    line_size_m,
    master_area_stroke,
    piston_area_m2,
)

Array = NDArray[np.float64]

AIR_SPREAD_M3 = 1.0e-6
"""Air is taken as half-normal with this spread: mostly little, at most a few ml (judgement)."""

_SWELLING = {
    Material.RUBBER: "rubber_mm3_m_mpa",
    Material.BRAIDED: "braided_mm3_m_mpa",
    Material.STEEL: "steel_mm3_m_mpa",
}
_KIND = "lever test"


@dataclass(frozen=True, slots=True)
class Shape:
    """A number that bends the curve; ``value`` turns a standard normal number into it."""

    name: str
    value: Callable[[Array], Array]


@dataclass(frozen=True, slots=True)
class LeverPrior:
    """All that is taken to be known, in SI units.

    ``shapes`` are gain (finger travel for each volume), efficiency, take-up scale,
    polytropic exponent and the force before pressure begins; ``terms`` are rest travel,
    clearance, air, hoses, pads, flex and fluid. ``ambient_pa`` is the pressure around;
    ``gain_1_m2`` and ``fluid_m3`` are the usual travel for each volume, and the fluid under
    pressure.
    """

    shapes: tuple[Shape, ...]
    terms: tuple[Term, ...]
    ambient_pa: float
    gain_1_m2: float
    fluid_m3: float


def lever_prior(circuit: Circuit, inputs: Inputs, ambient_pa: float) -> LeverPrior:
    """Return what is known of the lever of a circuit."""
    master = circuit.of_kind(PartKind.MASTER)[0]
    area, _ = master_area_stroke(master, inputs)
    leverage = inputs.either(master.id, master.kind, "leverage", master.given)
    port = inputs.either(master.id, master.kind, "port_travel_mm", master.given)
    rest = leverage * port + inputs.prior(master.id, _KIND, "free_play_mm")
    moved, give = _pistons(circuit, inputs)
    gap = inputs.prior("pistons", _KIND, "retraction_mm")
    gap = gap + inputs.prior("pistons", _KIND, "knock_back_mm")
    modulus = inputs.prior("fluid", _KIND, "bulk_modulus_gpa")
    flex = inputs.prior(master.id, _KIND, "flex_mm_100n")
    fluid = _fluid_m3(circuit, inputs)
    gain = np.log(leverage / area)
    return LeverPrior(
        shapes=(
            _log_normal("gain", gain),
            _normal("efficiency", inputs.prior(master.id, _KIND, "efficiency")),
            _log_normal("take_up_pa", np.log(inputs.prior("pistons", _KIND, "take_up_kpa"))),
            Shape("polytropic", _between(1.0, 1.3)),
            _log_normal("before_n", np.log(inputs.prior(master.id, _KIND, "before_n"))),
        ),
        terms=(
            _term("rest", rest),
            _term("clearance", gap * moved),
            Term("air", 0.0, AIR_SPREAD_M3),
            _term("hoses", _hoses(circuit, inputs)),
            _term("pads", give),
            _term("flex", flex),
            _term("fluid", fluid / modulus),
        ),
        ambient_pa=ambient_pa,
        gain_1_m2=float(np.exp(np.mean(gain))),
        fluid_m3=float(np.mean(fluid)),
    )


def _pistons(circuit: Circuit, inputs: Inputs) -> tuple[Array, Array]:
    """Return the area of all pistons, and the volume their pads and bodies give at 5 MPa."""
    moved, give = np.zeros(inputs.count), np.zeros(inputs.count)
    pads = inputs.prior("pads", _KIND, "pads_mm")
    spread = inputs.prior("caliper", _KIND, "spread_mm")
    for part in circuit.parts:
        if part.kind not in (PartKind.CALIPER, PartKind.SLAVE):
            continue
        layout = layout_of(part, inputs.bike_class, circuit.family)
        area = piston_area_m2(part, layout, inputs)
        moved = moved + area
        give = give + area * (spread + pads * (2.0 if layout is Layout.FLOATING else 1.0))
    return moved, give


def _hoses(circuit: Circuit, inputs: Inputs) -> Array:
    """Return what all pressure lines swell by at the pressure they are rated at."""
    swollen = np.zeros(inputs.count)
    for line in circuit.lines:
        if circuit.part(line.start).kind is PartKind.RESERVOIR:
            continue
        _, length = line_size_m(circuit, line, inputs)
        key = _SWELLING[line.material or Material.RUBBER]
        rated = inputs.prior("hoses", _KIND, key)
        swollen = swollen + length * rated * HOSE_REFERENCE_PA
    return swollen


def _fluid_m3(circuit: Circuit, inputs: Inputs) -> Array:
    """Return the fluid under pressure, from the master's chamber on."""
    network = build(circuit, inputs)
    chambers = sum((room.volume_m3 for room in network.rooms.values()), np.zeros(inputs.count))
    feed = {
        line_name(line)
        for line in circuit.lines
        if circuit.part(line.start).kind is PartKind.RESERVOIR
    }
    lines = (
        place.pocket.volume for place in network.places if place.is_line and place.owner not in feed
    )
    return sum(lines, chambers)


def _term(name: str, draws: Array) -> Term:
    return Term(name, float(np.mean(draws)), float(np.std(draws)))


def _normal(name: str, draws: Array) -> Shape:
    mean, spread = float(np.mean(draws)), float(np.std(draws))
    return Shape(name, lambda z: mean + spread * z)


def _log_normal(name: str, logs: Array) -> Shape:
    mean, spread = float(np.mean(logs)), float(np.std(logs))
    return Shape(name, lambda z: np.exp(mean + spread * z))


def _between(low: float, high: float) -> Callable[[Array], Array]:
    def value(z: Array) -> Array:
        from scipy.special import ndtr

        drawn: Array = low + (high - low) * ndtr(z)
        return drawn

    return value
