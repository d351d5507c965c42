# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How fast each method moves fluid through one circuit."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import Circuit, Part, PartKind, Screw
from firmlever.domain.graph import feeding_line, route
from firmlever.domain.tables import FluidGrade, Method, Technique
from firmlever.errors import OutOfRangeError
from firmlever.physics.drive import (
    SEA_LEVEL_PA,
    gravity_drive_pa,
    pressure_drive_pa,
    reverse_drive_pa,
    vacuum_drive_pa,
)
from firmlever.physics.flow import (
    ENTRY_AND_EXIT_LOSS,
    SHORT_DRILLING_LOSS,
    Loss,
    beyond_laminar,
    flow_past_lip_m3_s,
    in_series,
    passage_loss,
    reynolds_number,
)
from firmlever.physics.fluid import (
    density_kg_m3,
    dynamic_viscosity_pa_s,
    kinematic_viscosity_m2_s,
    walther_coefficients,
)
from firmlever.solve.inputs import Inputs
from firmlever.solve.network import line_size_m, master_area_stroke, screw_owner
from firmlever.units import to_si

Array = NDArray[np.float64]

# lengths of short passages, from memory: port in the body, drilling in a screw, valve seat
_PORT_LENGTH_M = 1.5e-3
_DRILLING_LENGTH_M = 8e-3
_ORIFICE_LENGTH_M = 2.5e-3
# the catch bottle stands at least so far below the reservoir (judgement)
_LEAST_HEAD_M = 0.15
# a lever always sweeps some of its stroke, however the draws combine (judgement)
_LEAST_SWEPT = 0.1


@dataclass(frozen=True, slots=True)
class Fluid:
    """The fluid as it flows in the workshop."""

    density_kg_m3: Array
    viscosity_m2_s: Array

    @property
    def viscosity_pa_s(self) -> Array:
        """Dynamic viscosity."""
        return np.asarray(dynamic_viscosity_pa_s(self.viscosity_m2_s, self.density_kg_m3))


@dataclass(frozen=True, slots=True)
class Pace:
    """How a technique moves fluid to one screw.

    ``stroke_m3`` and ``stroke_s`` are None where nothing is stroked. ``turbulent`` is
    the share of draws in which a bore is beyond the laminar law.
    """

    flow_m3_s: Array
    stroke_m3: Array | None
    stroke_s: Array | None
    turbulent: float


def fluid_at_work(grade: FluidGrade, inputs: Inputs, workshop_degc: float | None) -> Fluid:
    """Return density and viscosity of a grade at workshop temperature."""
    if workshop_degc is None:
        temperature_k = inputs.prior("work", "work", "workshop_degc")
    else:
        temperature_k = np.full(inputs.count, to_si(workshop_degc, "degC"))
    line = walther_coefficients(
        to_si(20.0, "degC"),
        to_si(grade.typical_cold_viscosity_mm2_s, "mm2/s"),
        to_si(100.0, "degC"),
        to_si(grade.typical_hot_viscosity_mm2_s, "mm2/s"),
    )
    density = density_kg_m3(temperature_k, grade.density_kg_m3, grade.expansion_1_k)
    viscosity = kinematic_viscosity_m2_s(temperature_k, *line)
    return Fluid(np.asarray(density), np.asarray(viscosity))


def pace(
    circuit: Circuit, part: Part, screw: Screw, technique: Technique, fluid: Fluid, inputs: Inputs
) -> Pace:
    """Return how fast a technique moves fluid to a screw."""
    if technique.method is Method.LEVER:
        return _by_lever(circuit, technique, inputs)
    return _by_pressure(circuit, part, screw, technique, fluid, inputs)


def swept_m3(circuit: Circuit, inputs: Inputs) -> Array:
    """Return what the master cylinder's piston sweeps in one stroke, past its port (m3)."""
    master = circuit.of_kind(PartKind.MASTER)[0]
    area, stroke = master_area_stroke(master, inputs)
    used = inputs.either(master.id, master.kind, "stroke_used", master.given)
    lost = inputs.either(master.id, master.kind, "port_travel_mm", master.given)
    swept: Array = area * np.maximum(stroke * used - lost, _LEAST_SWEPT * stroke)
    return swept


def _by_lever(circuit: Circuit, technique: Technique, inputs: Inputs) -> Pace:
    swept = swept_m3(circuit, inputs)
    delivered = inputs.working("delivered", _stated(technique.delivered), "", technique)
    seconds = inputs.working("seconds", _stated(technique.seconds), "s", technique)
    stroke_m3 = swept * delivered
    return Pace(stroke_m3 / seconds, stroke_m3, seconds, 0.0)


def _by_pressure(
    circuit: Circuit, part: Part, screw: Screw, technique: Technique, fluid: Fluid, inputs: Inputs
) -> Pace:
    bores = _bores(circuit, part, screw, inputs)
    viscosity, density = fluid.viscosity_pa_s, fluid.density_kg_m3
    path = in_series(
        *(
            passage_loss(viscosity, density, bore.length_m, bore.bore_m, bore.end_loss)
            for bore in bores
        )
    )
    master = circuit.of_kind(PartKind.MASTER)[0]
    port_bore = inputs.either(master.id, master.kind, "port_bore_mm", master.given)
    port = passage_loss(viscosity, density, _PORT_LENGTH_M, port_bore, SHORT_DRILLING_LOSS)
    drive = _drive_pa(circuit, part, screw, technique, density, inputs)
    flow = _flow(drive, path, port, technique, inputs)
    beyond = np.zeros(inputs.count, dtype=bool)
    for bore in bores:
        reynolds = reynolds_number(flow, bore.bore_m, fluid.viscosity_m2_s)
        beyond |= np.asarray(beyond_laminar(reynolds), dtype=bool)
    return Pace(flow, None, None, float(np.mean(beyond)))


def _flow(drive: Array, path: Loss, port: Loss, technique: Technique, inputs: Inputs) -> Array:
    if technique.method is Method.REVERSE:
        # upwards the lip lies shut against the bore and all must pass the port
        return np.asarray(flow_past_lip_m3_s(drive, path, port, np.inf))
    lip = inputs.prior("work", "work", "lip_kpa")
    return np.asarray(flow_past_lip_m3_s(drive, path, port, lip))


@dataclass(frozen=True, slots=True)
class _Bore:
    length_m: Array
    bore_m: Array
    end_loss: float


def _short(bore_m: Array, length_m: float) -> _Bore:
    return _Bore(np.full_like(bore_m, length_m), bore_m, SHORT_DRILLING_LOSS)


def _bores(circuit: Circuit, part: Part, screw: Screw, inputs: Inputs) -> tuple[_Bore, ...]:
    """Everything between the reservoir and the end of the tube."""
    line_into = feeding_line(circuit)
    bores: list[_Bore] = []
    for passed in route(circuit, part.id):
        if passed.id in line_into:
            bore, length = line_size_m(circuit, line_into[passed.id], inputs)
            bores.append(_Bore(length, bore, ENTRY_AND_EXIT_LOSS))
        if passed.kind is PartKind.MODULATOR:
            orifice = inputs.either(passed.id, passed.kind, "orifice_mm", passed.given)
            bores.append(_short(orifice, _ORIFICE_LENGTH_M))
    drilling = inputs.either(screw_owner(screw), "screw", "drilling_mm", screw.given)
    bores.append(_short(drilling, _DRILLING_LENGTH_M))
    tube_length = inputs.prior("work", "work", "tube_length_mm")
    tube_bore = inputs.prior("work", "work", "tube_bore_mm")
    return (*bores, _Bore(tube_length, tube_bore, ENTRY_AND_EXIT_LOSS))


def _drive_pa(
    circuit: Circuit,
    part: Part,
    screw: Screw,
    technique: Technique,
    density: Array,
    inputs: Inputs,
) -> Array:
    pot = circuit.of_kind(PartKind.RESERVOIR)[0]
    top = inputs.either(pot.id, pot.kind, "height_mm", pot.given)
    end = np.minimum(inputs.prior("work", "work", "tube_end_height_mm"), top - _LEAST_HEAD_M)
    if technique.method is Method.GRAVITY:
        return np.asarray(gravity_drive_pa(density, top, end))
    stated = inputs.working("drive", _stated(technique.drive_kpa), "kPa", technique)
    if technique.method is Method.VACUUM:
        return np.asarray(vacuum_drive_pa(stated, SEA_LEVEL_PA, density, top, end))
    if technique.method is Method.PRESSURE:
        return np.asarray(pressure_drive_pa(stated, density, top, end))
    height = _screw_height_m(part, screw, inputs)
    return np.asarray(reverse_drive_pa(stated, density, top, height))


def _screw_height_m(part: Part, screw: Screw, inputs: Inputs) -> Array:
    owner = screw_owner(screw)
    if "height_mm" in screw.given:
        return inputs.given(owner, "screw", "height_mm", screw.given["height_mm"])
    inlet = inputs.either(part.id, part.kind, "height_mm", part.given)
    return inlet + inputs.prior(owner, "screw", "rise_mm")


def _stated(ends: tuple[float, float] | None) -> tuple[float, float]:
    if ends is None:
        raise OutOfRangeError("a number of the technique", "stated in the table of techniques")
    return ends
