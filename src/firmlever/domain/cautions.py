# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The usual cautions of the work, as data.

Common practice, no source, in our own words. They stand beside the machine's manual,
local rules and licensed practice and replace none of them.
"""

from dataclasses import dataclass
from enum import StrEnum

from firmlever.domain.tables import FluidBase, Method


class Applies(StrEnum):
    """When a caution belongs to a job."""

    ALWAYS = "always"
    LEVER = "lever"
    VACUUM = "vacuum"
    GRAVITY = "gravity"
    PRESSURE = "pressure"
    REVERSE = "reverse"
    MODULATOR = "ABS unit in the circuit"
    PISTONS_HOME = "pistons pushed home"
    SILICONE = "silicone fluid"
    MINERAL = "mineral oil"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: a name for it, when it applies, and the words."""

    id: str
    applies: Applies
    words: str


FIRST_AUTHORITY = (
    "The machine's manual, local rules and licensed practice come first. Where they differ "
    "from this plan, follow them."
)

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "paint",
        Applies.ALWAYS,
        "Paint, plastics and lenses: most brake fluid attacks them. Cover them with plastic "
        "sheet, as rags soak through. Keep soapy and plain water ready and rinse at once; "
        "wiping alone comes too late.",
    ),
    Caution(
        "eyes",
        Applies.ALWAYS,
        "Eyes and skin: wear glasses and gloves. Fluid in an eye means rinsing for 15 minutes "
        "and then a doctor.",
    ),
    Caution(
        "containers",
        Applies.ALWAYS,
        "Containers: marked ones only, never a drinks bottle. A mouthful can poison.",
    ),
    Caution(
        "squirt",
        Applies.ALWAYS,
        "Pressure: a screw or union opened under pressure squirts. Ring spanner on first, then "
        "the tube with a clip, a rag round it. With a line open nobody touches the lever or "
        "pedal.",
    ),
    Caution(
        "hot",
        Applies.ALWAYS,
        "Hot parts: let discs, calipers and exhaust cool before you reach in.",
    ),
    Caution(
        "support",
        Applies.ALWAYS,
        "Support: the machine stands firm, the bars are turned so that the reservoir is level, "
        "and no caliper hangs on its hose.",
    ),
    Caution(
        "pads",
        Applies.ALWAYS,
        "Pads and discs: keep fluid and grease off. Pads that got wet are thrown away, not "
        "cleaned, and never burnt off. No air line or dry brush on brake dust.",
    ),
    Caution(
        "level",
        Applies.ALWAYS,
        "Level: never let the reservoir fall to the port. If it does, air may be in and the job "
        "becomes a bleed. Lay the cover on while the lever moves.",
    ),
    Caution(
        "screws",
        Applies.ALWAYS,
        "Before you open anything: try every bleed nipple with a six-point ring spanner. One "
        "that does not turn is dealt with before the reservoir is touched. Tightening torques "
        "come from the machine's manual; too tight spoils the seat.",
    ),
    Caution(
        "strokes",
        Applies.LEVER,
        "Lever: pull slowly, shut the nipple before you let go, release slowly. A lever that "
        "snaps back throws fluid out of the reservoir and draws air in.",
    ),
    Caution(
        "suction",
        Applies.VACUUM,
        "Suction: bubbles that go on with the nipple shut come past the threads or the tube, "
        "not from inside. Judge the end by the lever, not by the tube, and finish with strokes.",
    ),
    Caution(
        "unwatched",
        Applies.GRAVITY,
        "Gravity: it looks as if nothing happens and it runs dry all the same. Do not leave it "
        "without a look at the reservoir.",
    ),
    Caution(
        "pressurised",
        Applies.PRESSURE,
        "Pressure feed: stay below what the reservoir and its cover stand, try the seal with air "
        "at low pressure first, and let the pressure off before you loosen the cover.",
    ),
    Caution(
        "backwards",
        Applies.REVERSE,
        "Filling from below: the reservoir rises and spills. Draw it down first and keep "
        "drawing off. Old dirt must not be pushed up into the master cylinder.",
    ),
    Caution(
        "abs",
        Applies.MODULATOR,
        "ABS unit: keep air and dirt out. If it was ever run empty it may need the maker's "
        "equipment to get the air out. Thread tape on a nipple can shed into its valves.",
    ),
    Caution(
        "pistons",
        Applies.PISTONS_HOME,
        "Pistons: clean them before they go home, push them with the nipple open and shut it "
        "before you let go. Keep a spacer between the pads, fingers out, and nobody at the lever.",
    ),
    Caution(
        "silicone",
        Applies.SILICONE,
        "Silicone fluid: it froths when it is stirred or pumped fast and does not mix with glycol "
        "fluid or water. Let it stand, pour it gently, pump slowly.",
    ),
    Caution(
        "mineral",
        Applies.MINERAL,
        "Mineral oil: seals made for it are ruined by brake fluid and the other way round. Use "
        "separate, marked tools.",
    ),
    Caution(
        "topping up",
        Applies.ALWAYS,
        "Fill to the plan's line and leave room to expand. Topping up never cures a leak.",
    ),
    Caution(
        "waste",
        Applies.ALWAYS,
        "Old fluid: keep it apart from oil and coolant, take it to a waste site, never down a "
        "drain, and never use it again.",
    ),
    Caution(
        "first stop",
        Applies.ALWAYS,
        "Before the machine moves: pump until firm, hold hard for a minute and look for creep "
        "and wet joints, check that the wheel turns free. Make the first stop at walking pace, "
        "and check again hot and the next morning.",
    ),
)

_AT_THE_LEVER = ("squirt", "support", "level", "first stop")

_OF_METHOD = {method: Applies(method.value) for method in Method}
_OF_BASE = {FluidBase.SILICONE: Applies.SILICONE, FluidBase.MINERAL: Applies.MINERAL}

_AT_THE_POT = ("paint", "eyes", "support", "pads", "level", "topping up", "first stop")


def cautions_at_the_pot() -> tuple[str, ...]:
    """The cautions of opening a reservoir and looking at pads; who comes first is said last."""
    words = tuple(caution.words for caution in CAUTIONS if caution.id in _AT_THE_POT)
    return (*words, FIRST_AUTHORITY)


def cautions_for(
    method: Method,
    has_modulator: bool,
    pistons_home: bool,
    base: FluidBase = FluidBase.GLYCOL,
    from_below: bool = False,
) -> tuple[str, ...]:
    """The cautions of one job, in the order of the work; who comes first is said last.

    ``from_below`` says that filling from below is offered, whatever the method.

    >>> cautions_for(Method.LEVER, has_modulator=False, pistons_home=False)[-1][:19]
    "The machine's manua"
    """
    applies = {Applies.ALWAYS, _OF_METHOD[method]}
    if has_modulator:
        applies.add(Applies.MODULATOR)
    if from_below:
        applies.add(Applies.REVERSE)
    if pistons_home:
        applies.add(Applies.PISTONS_HOME)
    if base in _OF_BASE:
        applies.add(_OF_BASE[base])
    words = tuple(caution.words for caution in CAUTIONS if caution.applies in applies)
    return (*words, FIRST_AUTHORITY)


def cautions_at_the_lever() -> tuple[str, ...]:
    """The cautions of pulling a lever hard at a standstill; who comes first is said last."""
    words = tuple(caution.words for caution in CAUTIONS if caution.id in _AT_THE_LEVER)
    return (*words, FIRST_AUTHORITY)
