# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The gates of a job and what is looked at again afterwards, as data.

Common practice, no source, in our own words. A gate is one tap; only those are asked that
this job touches: at most six before opening, seven before rolling. They stand beside the
machine's manual and replace none of it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from firmlever.domain.bench.sheet import FollowUp, Gate
from firmlever.domain.tables import Method

MOST = {"opening": 6, "rolling": 7}


@dataclass(frozen=True, slots=True)
class Touched:
    """What a job touches.

    ``calipers_moved`` where one comes off or its pistons go home, ``was_moved`` where a
    screw's work asks for a posture.
    """

    control: str
    fluid: str
    method: Method
    has_calipers: bool
    has_modulator: bool
    calipers_moved: bool
    was_moved: bool = False


@dataclass(frozen=True, slots=True)
class _Row:
    id: str
    before: Literal["opening", "rolling"]
    words: str
    why: str
    applies: Callable[[Touched], bool]


def _always(_: Touched) -> bool:
    return True


def _by_cap(job: Touched) -> bool:
    return job.method is Method.PRESSURE


_ROWS = (
    _Row(
        "screws turn",
        "opening",
        "The bleed screws and the reservoir's cover screws have each turned a little.",
        "A seized screw snaps when it is leaned on. Find out while the circuit is still shut.",
        _always,
    ),
    _Row(
        "fluid",
        "opening",
        "The bottle says {fluid}, and it was sealed or its opening date is known.",
        "The wrong fluid harms every seal; an old open bottle is wet already.",
        _always,
    ),
    _Row(
        "pads",
        "opening",
        "Pads are decided on: these stay or new ones are in. Every piston moves.",
        "New pads push fluid back up, and a stuck piston is freed while there is pressure.",
        lambda job: job.has_calipers,
    ),
    _Row(
        "cover up",
        "opening",
        "Paint is under plastic sheet; water, rag, glasses and gloves are at hand.",
        "Most brake fluid takes paint off, and it sprays.",
        _always,
    ),
    _Row(
        "stands level",
        "opening",
        "The machine stands firm, and the reservoir is level.",
        "A tilted reservoir runs dry at its port while it still looks half full.",
        lambda job: not _by_cap(job),
    ),
    _Row(
        "pressure cap",
        "opening",
        "The pressure cap seals on this reservoir, and the pressure is set low.",
        "Many motorcycle reservoirs leak well below what a car takes.",
        _by_cap,
    ),
    _Row(
        "abs notes",
        "opening",
        "The manual's notes on this ABS unit are at hand, with its order of screws.",
        "Air in the unit may only come out with the maker's tool.",
        lambda job: job.has_modulator,
    ),
    _Row(
        "firm",
        "rolling",
        "The {control} comes up firm, and does not sink while held hard for a minute.",
        "Soft is air or clearance; sinking is a leak, out or past a seal.",
        _always,
    ),
    _Row(
        "dry",
        "rolling",
        "Every screw and joint that was opened is dry under a tissue, {control} held.",
        "A screw that weeps under pressure loses the circuit on the road.",
        _always,
    ),
    _Row(
        "tight",
        "rolling",
        "Every screw is tight by the manual's figure and has its dust cap.",
        "A screw left a quarter open is easily missed once the tube is off.",
        _always,
    ),
    _Row(
        "level",
        "rolling",
        "The level stands where it belongs; diaphragm and cover are on.",
        "Too low lets air in, too full makes the brake drag when hot.",
        _always,
    ),
    _Row(
        "bolts",
        "rolling",
        "Spacers are out; caliper bolts and pad pins are tight by the manual's figure.",
        "A caliper left loose comes off.",
        lambda job: job.has_calipers and job.calipers_moved,
    ),
    _Row(
        "back in place",
        "rolling",
        "All that was moved for the work is back in place, its bolts tight by the manual.",
        "A part that hangs or is half bolted on comes off.",
        lambda job: not job.has_calipers and job.was_moved,
    ),
    _Row(
        "wheel free",
        "rolling",
        "The wheel turns freely after five hard squeezes.",
        "A port that stays shut or a piston that stays out locks the brake as it warms.",
        lambda job: job.has_calipers,
    ),
    _Row(
        "takes up",
        "rolling",
        "In gear with the {control} in, the machine can be pushed; let out, it cannot.",
        "A clutch that does not part drives off by itself.",
        lambda job: not job.has_calipers,
    ),
    _Row(
        "free play",
        "rolling",
        "The {control} moves a little before its piston does.",
        "Without free play the port never opens and pressure builds up.",
        _always,
    ),
)

FOLLOW_UPS = (
    FollowUp("hot", "Warm from riding: is it as firm as it was cold, and does nothing drag?", 0.0),
    FollowUp(
        "next morning",
        "Cold, before the first ride: is it as firm as it was, and dry all round?",
        12.0,
    ),
)


def gates_for(job: Touched) -> tuple[Gate, ...]:
    """Return the gates this job asks, those before opening first."""
    fills = {"fluid": job.fluid, "control": job.control}
    return tuple(
        Gate(row.id, row.before, row.words.format(**fills), row.why)
        for row in _ROWS
        if row.applies(job)
    )
