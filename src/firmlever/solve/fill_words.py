# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What is done, seen and suspected at each part of a fill: common practice, no source."""

from dataclasses import dataclass

from firmlever.domain.circuit import Part, PartKind
from firmlever.domain.tables import Method, Technique
from firmlever.solve.job import Turn


@dataclass(frozen=True, slots=True)
class Wording:
    """What to do, what should be seen, and what to suspect where it is not."""

    words: str
    see: str
    stop: str


PRIME: tuple[str, ...] = (
    "Clamp the cylinder level in soft jaws, outlet up, and fill the reservoir.",
    "Lead a tube from the outlet back under the reservoir's fluid, or hold a cap on the outlet.",
    "Push the piston slowly and a short way with a blunt rod, and let it come back slowly.",
    "Go on until no bubbles come; cap or hold the outlet shut each time the piston comes back.",
    "If it takes no fluid, press some in at the outlet with a syringe until the reservoir rises.",
    "Cap the outlet and fit the cylinder; new washers at its joint, the manual's torque.",
)

POT_STEP = Wording(
    "Fill the reservoir to the plan's line and lay its cover on; keep it above MIN from now on.",
    "Fluid stands still at the line, and a few bubbles rise from the ports.",
    "If the level falls while nothing is worked, stop: a joint below is open or leaks.",
)

_BLOCKED_PORT = (
    "suspect a blocked compensating port, a wrongly built cylinder (cup the wrong way round, "
    "spring or seal left out), or a wrong lever or pushrod that keeps the piston from coming back"
)
_BLOCKED_LINE = "suspect a blocked hose or pipe, or a joint upstream that draws air"

_MASTER_SEE = (
    "Bubbles rise in the reservoir with short strokes, and a small spurt shows that the port is "
    "open; then fluid without bubbles at the outlet, and the control meets resistance."
)
_CRACK = (
    "press the control lightly and hold it, crack the joint with a rag round it, close it again, "
    "and only then let the control come back slowly"
)


def wording_of(part: Part, turn: Turn | None, technique: Technique) -> Wording:
    """Return the words of one step."""
    if part.kind is PartKind.MASTER:
        return _master(part, turn)
    if turn is None:
        return _joint(part)
    words = _screw(part, turn, technique)
    asides = [aside for aside in (turn.posture, turn.note) if aside]
    said = [words.words, *(f"{aside[0].upper()}{aside[1:]}." for aside in asides)]
    return Wording(" ".join(said), words.see, words.stop)


def _master(part: Part, turn: Turn | None) -> Wording:
    where = (
        f"then press lightly and hold, and open its screw “{turn.screw.id}”"
        if turn is not None
        else "then press lightly and hold, and crack the joint at its outlet with a rag round it"
    )
    return Wording(
        f"Prime “{part.id}”: short slow strokes until bubbles stop, {where}, and close it before "
        "the control comes back.",
        _MASTER_SEE,
        _BLOCKED_PORT,
    )


def _joint(part: Part) -> Wording:
    match part.kind:
        case PartKind.MODULATOR:
            return Wording(
                f"At the ABS unit “{part.id}”: {_CRACK}; first the joint into it, then those "
                "out of it.",
                "Fluid without bubbles at each joint. Air behind closed valves does not show.",
                f"{_BLOCKED_LINE}; an ABS unit that passes nothing needs the maker's tool",
            )
        case PartKind.DEAD_END:
            return Wording(
                f"At “{part.id}”, which leads nowhere: {_CRACK}; or turn it so that it hangs "
                "below its branch.",
                "Fluid without bubbles at its thread.",
                f"{_BLOCKED_LINE}; what cannot be cracked or turned keeps its air",
            )
        case _:
            return Wording(
                f"At “{part.id}”: {_CRACK}.",
                "Air spits, then fluid without bubbles, and the control meets resistance sooner.",
                _BLOCKED_LINE,
            )


def _screw(part: Part, turn: Turn, technique: Technique) -> Wording:
    where = f"At the screw “{turn.screw.id}” of “{part.id}”"
    if technique.method is Method.REVERSE:
        return Wording(
            f"{where}: draw the reservoir down first, push fluid in slowly from a syringe without "
            "air, and draw the reservoir off again in time.",
            "Bubbles, then fluid, rise in the reservoir.",
            f"{_BLOCKED_LINE}, or a blocked compensating port above it",
        )
    return Wording(
        f"{where}: work it by {technique.method} ({technique.name}) until no bubbles come.",
        "Air spits in the tube, then fluid with bubbles, then fluid without.",
        f"{_BLOCKED_LINE}; check that this part belongs to this control",
    )
