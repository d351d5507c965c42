# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The heights and bores along every line of a circuit, in all draws, in one posture."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.air_map import Posture
from firmlever.domain.circuit import Circuit, Line, Part, Screw
from firmlever.physics.rising_bubbles import climb_m_s, level_drift_m_s, slanted_climb_m_s
from firmlever.solve.air.posture import raised_m
from firmlever.solve.hydraulics import Fluid
from firmlever.solve.inputs import Inputs
from firmlever.solve.network import line_name, line_size_m, screw_owner
from firmlever.units import to_si

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Course:
    """One line as a run of points from the reservoir's side on; legs lie between them.

    ``upright_m_s`` and ``level_m_s`` are how fast a bubble that fills its bore climbs upright
    and runs along the level in fluid at rest, nought where it is held.
    """

    line: Line
    bore_m: Array
    at_m: tuple[Array, ...]
    height_m: tuple[Array, ...]
    upright_m_s: Array
    level_m_s: Array

    @property
    def name(self) -> str:
        """Return what the line is called."""
        return line_name(self.line)

    def length_m(self, leg: int) -> Array:
        """Return how long a leg is, never nought."""
        return np.maximum(self.at_m[leg + 1] - self.at_m[leg], to_si(1.0, "mm"))

    def slope(self, leg: int) -> Array:
        """Return the rise of a leg over its length, the sine of its angle."""
        rise = self.height_m[leg + 1] - self.height_m[leg]
        return np.clip(rise / self.length_m(leg), -1.0, 1.0)

    def climb_m_s(self, leg: int) -> Array:
        """Return how fast a bubble that fills the bore climbs in a leg, nought where held."""
        slope = np.abs(self.slope(leg))
        return np.asarray(slanted_climb_m_s(self.upright_m_s, self.level_m_s, slope))


@dataclass(frozen=True, slots=True)
class Profile:
    """A circuit by height, the fluid in it and its surface tension."""

    circuit: Circuit
    inputs: Inputs
    posture: Posture
    fluid: Fluid
    tension_n_m: Array
    courses: Mapping[str, Course]
    height_m: Mapping[str, Array]

    def screw_height_m(self, part: Part, screw: Screw) -> Array:
        """Return the height of a screw; turned up, it is the summit of its part."""
        owner, inlet = screw_owner(screw), self.height_m[part.id]
        if "height_mm" not in screw.given:
            rise = self.inputs.prior(owner, "screw", "rise_mm")
        else:
            stated = self.inputs.given(owner, "screw", "height_mm", screw.given["height_mm"])
            rise = stated - self.inputs.either(part.id, part.kind, "height_mm", part.given)
        return inlet + (np.abs(rise) if part.id in self.posture.screw_up else rise)

    def ends_at(self, part_id: str) -> tuple[tuple[Course, Array], ...]:
        """Return the lines that meet at a part, each with the height of its next point."""
        near = []
        for course in self.courses.values():
            if course.line.start == part_id:
                near.append((course, course.height_m[1]))
            if course.line.end == part_id:
                near.append((course, course.height_m[-2]))
        return tuple(near)


def profile_of(circuit: Circuit, inputs: Inputs, posture: Posture, fluid: Fluid) -> Profile:
    """Lay the circuit out by height in a posture."""
    height, raised = {}, {}
    for part in circuit.parts:
        stands = inputs.either(part.id, part.kind, "height_mm", part.given)
        raised[part.id] = raised_m(circuit, part, stands, posture, inputs)
        height[part.id] = stands + raised[part.id]
    tolerance = inputs.prior("air", "air", "bore_ratio")
    tension = inputs.prior("air", "air", "surface_tension_mn_m")
    between = inputs.prior("air", "air", "climb_between_share")
    density, viscosity = fluid.density_kg_m3, fluid.viscosity_pa_s
    courses = {}
    for line in circuit.lines:
        stated, length = line_size_m(circuit, line, inputs)
        bore = stated * tolerance
        upright = np.asarray(climb_m_s(bore, density, viscosity, tension, between))
        level = np.asarray(level_drift_m_s(bore, density, tension))
        at, heights = _points(line, length, height, raised)
        courses[line_name(line)] = Course(line, bore, at, heights, upright, level)
    return Profile(circuit, inputs, posture, fluid, tension, courses, height)


def _points(
    line: Line, length: Array, height: Mapping[str, Array], raised: Mapping[str, Array]
) -> tuple[tuple[Array, ...], tuple[Array, ...]]:
    """Return how far along and how high; turning points follow the ends in proportion."""
    at, heights = [np.zeros_like(length)], [height[line.start]]
    for along_mm, height_mm in line.via_mm:
        along = np.minimum(to_si(along_mm, "mm"), length)
        share = along / length
        follows = (1.0 - share) * raised[line.start] + share * raised[line.end]
        at.append(along)
        heights.append(to_si(height_mm, "mm") + follows)
    return (*at, length), (*heights, height[line.end])
