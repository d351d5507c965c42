# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From a described circuit to pockets of fluid, in arrays of draws."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import (
    BikeClass,
    Circuit,
    Family,
    Layout,
    Line,
    Material,
    Part,
    PartKind,
    Screw,
)
from firmlever.physics import wear
from firmlever.solve.inputs import Inputs
from firmlever.solve.transport import Mixing, Pocket

Array = NDArray[np.float64]

# between the ends of a line in its name
ARROW = " > "
# what a chamber keeps aside of the flow is never all of it (judgement)
_MOST_UNSWEPT = 0.9
# pistons home still leave this share of what stands behind them (judgement)
_LEAST_HOME = 0.25
# MIN lies below MAX by at least this share (judgement)
_MOST_MIN = 0.9
# classes whose front calipers usually have pistons on both sides (judgement)
_OPPOSED_CLASSES = (BikeClass.NAKED, BikeClass.SPORT, BikeClass.TOURER, BikeClass.CRUISER)
_PASSING = (
    PartKind.MASTER,
    PartKind.SECONDARY_MASTER,
    PartKind.MODULATOR,
    PartKind.CALIPER,
    PartKind.SLAVE,
    PartKind.SPLITTER,
    PartKind.VALVE,
    PartKind.ANTI_DIVE,
)


@dataclass(frozen=True, slots=True)
class Pot:
    """The reservoir: content full, at the guard, and old fluid left after drawing down."""

    part: Part
    full_m3: Array
    low_m3: Array
    left_old_m3: Array

    def rows(self, chosen: slice) -> "Pot":
        """Return the same reservoir for some of the draws."""
        return Pot(self.part, self.full_m3[chosen], self.low_m3[chosen], self.left_old_m3[chosen])


@dataclass(frozen=True, slots=True)
class Room:
    """A chamber as it is flushed: its volume, what the flow does not sweep, its pistons.

    ``behind_m3`` is what pushing the pistons home would expel, ``gone_home_m3`` what
    it has expelled already.
    """

    volume_m3: Array
    unswept_m3: Array
    behind_m3: Array
    gone_home_m3: Array


@dataclass(frozen=True, slots=True)
class Run:
    """Lines joined end to end without mixing."""

    name: str
    volume_m3: Array
    length_m: Array


@dataclass(frozen=True, slots=True)
class Place:
    """A pocket and the part or run it belongs to; a chamber has no length."""

    owner: str
    pocket: Pocket
    length_m: Array | None = None

    @property
    def is_line(self) -> bool:
        """Whether it is a run of lines and not a chamber."""
        return self.length_m is not None


@dataclass(frozen=True, slots=True)
class Network:
    """A circuit as pockets in the order of flow.

    ``still_m3`` is fluid that no push moves, by owner. ``outlets`` gives for each
    screw the pockets from the reservoir to it.
    """

    pot: Pot
    places: tuple[Place, ...]
    still_m3: Mapping[str, Array]
    rooms: Mapping[str, Room]
    outlets: Mapping[str, tuple[int, ...]]

    def pockets(self, diffusion_m2_s: Array, flow_m3_s: Array) -> tuple[Pocket, ...]:
        """Return the pockets with the diffusion number that this flow gives each tube.

        Where streamlines are followed through a joint that branches, diffusion
        between them is left out.
        """
        streamed: set[int] = set()
        for index, place in enumerate(self.places):
            if place.pocket.follows is not None:
                streamed |= {index, place.pocket.follows}
        return tuple(
            place.pocket
            if place.length_m is None or index in streamed
            # diffusivity times residence over radius squared: the bore cancels
            else replace(place.pocket, kappa=math.pi * diffusion_m2_s * place.length_m / flow_m3_s)
            for index, place in enumerate(self.places)
        )


def build(circuit: Circuit, inputs: Inputs, home: frozenset[str] = frozenset()) -> Network:
    """Return a circuit as pockets; calipers named in ``home`` have their pistons home."""
    return _Builder(circuit, inputs, home).network()


@dataclass(slots=True)
class _Builder:
    circuit: Circuit
    inputs: Inputs
    home: frozenset[str]
    places: list[Place] = field(default_factory=list)
    still: dict[str, Array] = field(default_factory=dict)
    rooms: dict[str, Room] = field(default_factory=dict)
    outlets: dict[str, tuple[int, ...]] = field(default_factory=dict)

    def network(self) -> Network:
        pot_part = self.circuit.of_kind(PartKind.RESERVOIR)[0]
        pot = _pot(pot_part, self.inputs)
        self._beyond(pot_part, ())
        return Network(pot, tuple(self.places), self.still, self.rooms, self.outlets)

    def _beyond(self, part: Part, path: tuple[int, ...]) -> None:
        for line in self.circuit.lines:
            if line.start == part.id:
                self._follow(line, path)

    def _follow(self, line: Line, path: tuple[int, ...]) -> None:
        lines, end = self._run_of(line)
        run = _run(self.circuit, lines, self.inputs)
        if not self._reaches_screw(end):
            self._leave_still(run, end)
            return
        follows = path[-1] if path and self._is_joint_end(path[-1]) else None
        pocket = Pocket(Mixing.TUBE, run.volume_m3, np.zeros_like(run.volume_m3), follows)
        self.places.append(Place(run.name, pocket, run.length_m))
        self._enter(end, (*path, len(self.places) - 1))

    def _run_of(self, line: Line) -> tuple[tuple[Line, ...], Part]:
        lines = [line]
        end = self.circuit.part(line.end)
        while end.kind is PartKind.JOINT and not end.screws:
            onward = [other for other in self.circuit.lines if other.start == end.id]
            if len(onward) != 1:
                break
            lines.append(onward[0])
            end = self.circuit.part(onward[0].end)
        return tuple(lines), end

    def _is_joint_end(self, index: int) -> bool:
        place = self.places[index]
        end = place.owner.rpartition(ARROW)[2]
        return place.is_line and self.circuit.part(end).kind is PartKind.JOINT

    def _enter(self, part: Part, path: tuple[int, ...]) -> None:
        if part.kind in _PASSING:
            path = self._chambers(part, path)
        else:
            for screw in part.screws:
                self.outlets[screw.id] = path
        self._beyond(part, path)

    def _chambers(self, part: Part, path: tuple[int, ...]) -> tuple[int, ...]:
        room = self._room(part)
        self.rooms[part.id] = room
        self.still[part.id] = room.unswept_m3
        swept = room.volume_m3 - room.unswept_m3
        screws = part.screws or (None,)
        share = swept / len(screws)
        for screw in screws:
            pocket = Pocket(Mixing.STIRRED, share, np.zeros_like(share))
            self.places.append(Place(part.id, pocket))
            path = (*path, len(self.places) - 1)
            if screw is not None:
                self.outlets[screw.id] = path
        return path

    def _room(self, part: Part) -> Room:
        room = _room(part, self.circuit, self.inputs)
        return _pistons_home(room) if part.id in self.home else room

    def _reaches_screw(self, part: Part) -> bool:
        onward = (line.end for line in self.circuit.lines if line.start == part.id)
        return bool(part.screws) or any(
            self._reaches_screw(self.circuit.part(end)) for end in onward
        )

    def _leave_still(self, run: Run, end: Part) -> None:
        self.still[run.name] = run.volume_m3
        if end.kind is not PartKind.JOINT:
            room = _room(end, self.circuit, self.inputs)
            self.still[end.id] = room.volume_m3
            self.rooms[end.id] = room
        for line in self.circuit.lines:
            if line.start == end.id:
                lines, beyond = self._run_of(line)
                self._leave_still(_run(self.circuit, lines, self.inputs), beyond)


def line_name(line: Line) -> str:
    """Return what a line is called: where it starts and where it ends."""
    return f"{line.start}{ARROW}{line.end}"


def screw_owner(screw: Screw) -> str:
    """Return what the quantities of a screw are called by."""
    return f"screw:{screw.id}"


def line_size_m(circuit: Circuit, line: Line, inputs: Inputs) -> tuple[Array, Array]:
    """Return bore and length of a line."""
    owner = line_name(line)
    bore_key, length_key = _line_keys(circuit, line)
    sizes = []
    for key, prior_key in (("bore_mm", bore_key), ("length_mm", length_key)):
        known = line.given.get(key)
        if known is None:
            sizes.append(inputs.prior(owner, "line", prior_key))
        else:
            sizes.append(inputs.given(owner, "line", key, known))
    return sizes[0], sizes[1]


def _line_keys(circuit: Circuit, line: Line) -> tuple[str, str]:
    start, end = circuit.part(line.start).kind, circuit.part(line.end).kind
    bore = "pipe_bore_mm" if line.material is Material.STEEL else "bore_mm"
    if start is PartKind.RESERVOIR:
        return "feed_bore_mm", "feed_length_mm"
    if PartKind.MODULATOR in (start, end):
        return bore, "abs_length_mm"
    if end in (PartKind.DEAD_END, PartKind.ANTI_DIVE):
        return bore, "stub_length_mm"
    if end is PartKind.SPLITTER:
        return bore, "to_splitter_length_mm"
    if start is PartKind.SPLITTER:
        return bore, "from_splitter_length_mm"
    if start is end is PartKind.CALIPER:
        return bore, "across_length_mm"
    return bore, "length_mm"


def _run(circuit: Circuit, lines: Sequence[Line], inputs: Inputs) -> Run:
    sizes = [line_size_m(circuit, line, inputs) for line in lines]
    volume = sum((math.pi / 4.0 * bore**2 * length for bore, length in sizes), np.zeros(1))
    length = sum((length for _, length in sizes), np.zeros(1))
    return Run(f"{lines[0].start}{ARROW}{lines[-1].end}", volume, length)


def _pot(part: Part, inputs: Inputs) -> Pot:
    full = inputs.either(part.id, part.kind, "max_ml", part.given)
    if "min_ml" in part.given:
        low = inputs.given(part.id, part.kind, "min_ml", part.given["min_ml"])
    else:
        low = full * inputs.prior(part.id, part.kind, "min_share")
    left = inputs.either(part.id, part.kind, "left_after_draw_ml", part.given)
    return Pot(part, full, np.minimum(low, _MOST_MIN * full), np.minimum(left, full))


def _room(part: Part, circuit: Circuit, inputs: Inputs) -> Room:
    match part.kind:
        case PartKind.CALIPER | PartKind.SLAVE:
            return _piston_room(part, circuit.family, inputs)
        case PartKind.MASTER:
            volume = _master_volume(part, inputs)
        case _:
            volume = inputs.either(part.id, part.kind, "volume_ml", part.given)
    nothing = np.zeros_like(volume)
    if part.kind in (PartKind.MODULATOR, PartKind.SECONDARY_MASTER, PartKind.ANTI_DIVE):
        unswept = inputs.either(part.id, part.kind, "unswept_ml", part.given)
        return Room(volume, np.minimum(unswept, _MOST_UNSWEPT * volume), nothing, nothing)
    return Room(volume, nothing, nothing, nothing)


def _master_volume(part: Part, inputs: Inputs) -> Array:
    if "volume_ml" in part.given:
        return inputs.given(part.id, part.kind, "volume_ml", part.given["volume_ml"])
    area, stroke = master_area_stroke(part, inputs)
    return area * stroke * inputs.prior(part.id, part.kind, "volume_factor")


def master_area_stroke(part: Part, inputs: Inputs) -> tuple[Array, Array]:
    """Return piston area (m2) and full stroke (m) of a master cylinder."""
    bore = inputs.either(part.id, part.kind, "bore_mm", part.given)
    stroke = inputs.either(part.id, part.kind, "stroke_mm", part.given)
    return np.asarray(wear.piston_area_m2(bore)), stroke


def _piston_room(part: Part, family: Family, inputs: Inputs) -> Room:
    layout = layout_of(part, inputs.bike_class, family)
    volume, home = _volumes(part, layout, inputs)
    if "unswept_ml" in part.given:
        unswept = inputs.given(part.id, part.kind, "unswept_ml", part.given["unswept_ml"])
    else:
        key = "unswept_share" if part.kind is PartKind.SLAVE else f"unswept_share_{layout}"
        unswept = volume * inputs.prior(part.id, part.kind, key)
    unswept = np.minimum(unswept, _MOST_UNSWEPT * volume)
    return Room(volume, unswept, volume - home, np.zeros_like(volume))


def layout_of(part: Part, bike_class: BikeClass, family: Family) -> Layout:
    """Return the layout of a caliper, or the usual one of its class when left out."""
    if part.layout is not None:
        return part.layout
    opposed = family is Family.FRONT and bike_class in _OPPOSED_CLASSES
    return Layout.OPPOSED if opposed else Layout.FLOATING


def piston_area_m2(part: Part, layout: Layout, inputs: Inputs) -> Array:
    """Return the area of all pistons of a caliper or slave cylinder that this circuit moves."""
    if part.pistons_mm:
        area = sum(math.pi / 4.0 * (bore * 1e-3) ** 2 for bore in part.pistons_mm)
        return np.full(inputs.count, area)
    if part.kind is PartKind.SLAVE:
        return inputs.prior(part.id, part.kind, "piston_area_mm2")
    return inputs.prior(part.id, part.kind, f"piston_area_{layout}_mm2")


def _behind_pistons(part: Part, layout: Layout, inputs: Inputs) -> Array:
    area = piston_area_m2(part, layout, inputs)
    if part.kind is PartKind.SLAVE:
        return area * inputs.prior(part.id, part.kind, "piston_out_mm")
    new = inputs.either(part.id, part.kind, "pad_new_mm", part.given)
    worn = np.maximum(new - inputs.either(part.id, part.kind, "pad_mm", part.given), 0.0)
    return area * worn * (2.0 if layout is Layout.FLOATING else 1.0)


def _volumes(part: Part, layout: Layout, inputs: Inputs) -> tuple[Array, Array]:
    """Return the content with the pistons as they stand, and with them home."""
    stated = {
        key: inputs.given(part.id, part.kind, key, part.given[key])
        for key in ("volume_ml", "volume_home_ml")
        if key in part.given
    }
    match stated:
        case {"volume_ml": volume, "volume_home_ml": home}:
            return volume, np.clip(home, _LEAST_HOME * volume, volume)
        case {"volume_ml": volume}:
            home = volume - _behind_pistons(part, layout, inputs)
            return volume, np.clip(home, _LEAST_HOME * volume, volume)
        case {"volume_home_ml": home}:
            return home + _behind_pistons(part, layout, inputs), home
        case _:
            per_area = inputs.prior(part.id, part.kind, "home_ml_per_cm2")
            home = piston_area_m2(part, layout, inputs) * per_area
            return home + _behind_pistons(part, layout, inputs), home


def _pistons_home(room: Room) -> Room:
    home = room.volume_m3 - room.behind_m3
    unswept = room.unswept_m3 * home / room.volume_m3
    return Room(home, unswept, np.zeros_like(home), room.behind_m3)
