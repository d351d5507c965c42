# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From what a person sees of a machine to the text of its circuit file.

What nobody has looked at falls to what is usual for the class of machine.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from firmlever.domain.circuit import BikeClass, Control, Layout
from firmlever.domain.machine import FORKS, Outline
from firmlever.errors import ImpossibleOptionError, UnknownNameError
from firmlever.store.circuit_file import outline_text as written
from firmlever.store.circuit_file.outline_text import ABS, Hose
from firmlever.store.circuit_file.rules import UNKNOWN_FLUID, text_faults

SPLITTER, DOUBLE_BANJO, CALIPER_TO_CALIPER = FORKS
USUAL_FLUID = "DOT 4"


@dataclass(frozen=True, slots=True)
class Looks:
    """How a class of machine usually is made (judgement).

    A hump is a turning point of the line from a master cylinder, [mm along it, height in
    mm], or None where the line only falls. ``remote_pot`` and ``remote_rear_pot`` tell a
    pot on a feed hose from one that sits on its master cylinder.
    """

    front_discs: int = 1
    front_layout: Layout = Layout.FLOATING
    fork: str = SPLITTER
    abs_unit: bool = False
    rear_disc: bool = True
    rear_layout: Layout = Layout.FLOATING
    rear_control: Control = Control.PEDAL
    clutch: bool = False
    remote_pot: bool = False
    master_screw: bool = False
    remote_rear_pot: bool = True
    hump: tuple[int, int] | None = None
    rear_hump: tuple[int, int] | None = None
    clutch_hump: tuple[int, int] = (150, 1100)


_TWIN = Looks(front_discs=2, front_layout=Layout.OPPOSED, abs_unit=True, hump=(120, 1090))
USUAL: dict[BikeClass, Looks] = {
    BikeClass.SMALL: Looks(rear_disc=False, hump=(120, 1070)),
    BikeClass.COMMUTER: Looks(hump=(120, 1080)),
    BikeClass.SCOOTER: Looks(
        rear_control=Control.LEVER, remote_rear_pot=False, rear_hump=(150, 1070)
    ),
    BikeClass.NAKED: _TWIN,
    BikeClass.SPORT: replace(
        _TWIN,
        fork=DOUBLE_BANJO,
        rear_layout=Layout.OPPOSED,
        remote_pot=True,
        master_screw=True,
        hump=(100, 970),
    ),
    BikeClass.TOURER: replace(
        _TWIN, clutch=True, remote_pot=True, master_screw=True, hump=(150, 1100)
    ),
    BikeClass.ADVENTURE: replace(
        _TWIN,
        front_layout=Layout.FLOATING,
        clutch=True,
        hump=(150, 1200),
        clutch_hump=(150, 1200),
    ),
    BikeClass.CRUISER: Looks(front_discs=2, rear_layout=Layout.OPPOSED, hump=(200, 1090)),
    BikeClass.OFF_ROAD: Looks(
        clutch=True, remote_rear_pot=False, hump=(120, 1210), clutch_hump=(120, 1200)
    ),
}


def outline_text(outline: Outline, grades: Sequence[str]) -> str:
    """Return the text of a machine known only by its looks.

    Raises
    ------
    UnknownNameError
        When there is no such fork or grade of fluid.
    ImpossibleOptionError
        When the name cannot be a name, or the looks fit no machine.
    """
    _check(outline, grades)
    looks = _settled(outline)
    fluid = outline.fluid or USUAL_FLUID
    circuits = [
        *_front(looks, outline.bike_class, fluid),
        *_rear(looks, outline.bike_class, fluid),
        *_clutch(looks, fluid),
    ]
    if not circuits:
        raise ImpossibleOptionError(
            "the machine",
            "without a disc and without a hydraulic clutch",
            "nothing in it holds fluid that could be changed",
        )
    drums = [
        name
        for name, is_drum in (
            ("front drum", not looks.front_discs),
            ("rear drum", not looks.rear_disc),
        )
        if is_drum
    ]
    return written.head(outline.name, outline.bike_class, drums) + "".join(circuits)


def _check(outline: Outline, grades: Sequence[str]) -> None:
    for found, allowed in text_faults(outline.name, is_name=False):
        raise ImpossibleOptionError("the name", f"used: {found}", allowed)
    if outline.front_discs not in (None, 0, 1, 2):
        raise ImpossibleOptionError("front_discs", f"{outline.front_discs}", "0, 1 or 2")
    if outline.fork is not None and outline.fork not in FORKS:
        raise UnknownNameError("fork", outline.fork, FORKS)
    if outline.fluid is not None and outline.fluid not in grades:
        raise UnknownNameError("fluid", outline.fluid, (*grades, UNKNOWN_FLUID))


def _settled(outline: Outline) -> Looks:
    """Put what was seen in the place of what is usual."""
    usual = USUAL[outline.bike_class]
    seen: dict[str, Any] = {
        "front_discs": outline.front_discs,
        "front_layout": outline.front_layout,
        "fork": outline.fork,
        "abs_unit": outline.abs_unit,
        "rear_disc": outline.rear_disc,
        "clutch": outline.hydraulic_clutch,
    }
    looks = replace(usual, **{key: value for key, value in seen.items() if value is not None})
    if outline.fork is not None and looks.front_discs != 2:
        raise ImpossibleOptionError(
            "fork", f"“{outline.fork}” here", "only a line to two front calipers divides"
        )
    return looks


def _front(looks: Looks, bike_class: BikeClass, fluid: str) -> Iterator[str]:
    if not looks.front_discs:
        return
    lever = ", on the right lever" if bike_class is BikeClass.SCOOTER else ""
    yield written.circuit(f"The front brake{lever}.", "front", Control.LEVER, fluid)
    yield written.pot()
    yield written.master("master", Control.LEVER, with_screw=looks.master_screw)
    if looks.abs_unit:
        yield written.modulator()
    twin = looks.front_discs == 2
    if twin and looks.fork == SPLITTER:
        yield written.splitter()
    names = ("left caliper", "right caliper") if twin else ("front caliper",)
    for name in names:
        yield written.caliper(name, looks.front_layout, "front")
    yield written.feed("master", is_hose=looks.remote_pot)
    for hose in _front_hoses(looks):
        yield written.hose(hose)


def _front_hoses(looks: Looks) -> list[Hose]:
    source = ABS if looks.abs_unit else "master"
    hoses = [Hose("master", ABS)] if looks.abs_unit else []
    if looks.front_discs == 1:
        hoses += [Hose(source, "front caliper")]
    elif looks.fork == SPLITTER:
        hoses += [
            Hose(source, "splitter", is_pipe=looks.abs_unit),
            Hose("splitter", "left caliper"),
            Hose("splitter", "right caliper"),
        ]
    elif looks.fork == DOUBLE_BANJO:
        hoses += [
            Hose(source, "right caliper", note="two lines on one double banjo, no splitter"),
            Hose(source, "left caliper"),
        ]
    else:
        hoses += [
            Hose(source, "right caliper"),
            Hose("right caliper", "left caliper", note="over the wheel to the other caliper"),
        ]
    return [replace(hoses[0], hump=looks.hump), *hoses[1:]]


def _rear(looks: Looks, bike_class: BikeClass, fluid: str) -> Iterator[str]:
    if not looks.rear_disc:
        return
    lever = (
        ", on the left lever; its hose runs the length of the machine"
        if bike_class is BikeClass.SCOOTER
        else ""
    )
    yield written.circuit(f"The rear brake{lever}.", "rear", looks.rear_control, fluid)
    yield written.pot()
    yield written.master("master", looks.rear_control, with_screw=False)
    if looks.abs_unit:
        yield written.modulator()
    yield written.caliper("rear caliper", looks.rear_layout, "rear")
    yield written.feed("master", is_hose=looks.remote_rear_pot)
    if looks.abs_unit:
        yield written.hose(Hose("master", ABS, hump=looks.rear_hump))
        yield written.hose(Hose(ABS, "rear caliper"))
    else:
        yield written.hose(Hose("master", "rear caliper", hump=looks.rear_hump))


def _clutch(looks: Looks, fluid: str) -> Iterator[str]:
    if not looks.clutch:
        return
    yield written.circuit(written.CLUTCH_TITLE, "clutch", Control.CLUTCH_LEVER, fluid)
    yield written.pot()
    yield written.master("clutch master", Control.CLUTCH_LEVER, with_screw=False)
    yield written.slave()
    yield written.feed("clutch master", is_hose=False)
    yield written.hose(Hose("clutch master", "slave", hump=looks.clutch_hump))
