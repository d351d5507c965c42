# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whose bubbles are in the tube: three questions, and what their answers leave open.

With the screw shut the circuit is cut off, so what still bubbles under suction came past
threads or tube joint. Flow by gravity sucks nowhere: what bubbles then came with the
fluid. Froth from pumping is gone after a rest, a leak or a pocket is not.
"""

from dataclasses import dataclass
from typing import Literal

VerdictCode = Literal[
    "past threads or tube joint",
    "past threads and from the circuit",
    "from the circuit",
    "from the circuit or froth",
    "froth from pumping",
    "drawn by suction",
    "cannot tell",
]

FROM_OUTSIDE: tuple[VerdictCode, ...] = ("past threads or tube joint", "drawn by suction")
"""Bubbles that say nothing about the circuit."""


REST_S = 900.0
"""How long froth is let rise: bubbles above 0.1 mm, 0.3 m of fluid at 20 degC (derived)."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the bubbles are, what to do about them, and what the test cannot tell."""

    code: VerdictCode
    means: str
    advice: str
    open: str


_SLOW = (
    "Gravity moves fluid slowly: it shows no air that stays at a high place or in a wide passage."
)
VERDICTS: tuple[Verdict, ...] = (
    Verdict(
        "past threads or tube joint",
        "Air is drawn past the threads of the screw or at the tube's joint, outside the circuit.",
        "Press the tube on afresh, grease the mouth of the threads sparingly, open the screw less. "
        "Then judge by gravity or by the control, not by suction.",
        f"It does not show how much of the bubbling is the threads'. {_SLOW}",
    ),
    Verdict(
        "past threads and from the circuit",
        "Air is drawn past the threads or the joint, and bubbles come with the fluid as well.",
        "Mend the joint first, let the fluid rest a quarter of an hour, then go on and test again.",
        "It does not show which share is whose, nor froth from air where there was no rest.",
    ),
    Verdict(
        "from the circuit",
        "The bubbles come with the fluid, without suction and after a rest: there is air in the "
        "circuit.",
        "Go on at this screw until none comes; look for a high place, a loose joint, a low level.",
        "It does not show where the air sat, nor how much is left.",
    ),
    Verdict(
        "from the circuit or froth",
        "The bubbles come with the fluid, but only a rest parts froth from air in the circuit.",
        "Shut the screw, wait a quarter of an hour, and let the fluid run by gravity once more.",
        "Without the rest, froth and air look alike.",
    ),
    Verdict(
        "froth from pumping",
        "The bubbles were gone after a rest: fine froth from quick strokes or a splashing refill.",
        "Stroke slowly, pour gently, keep the tube's end under fluid.",
        "What rose may have gathered at a high place on the way; the control will show it.",
    ),
    Verdict(
        "drawn by suction",
        "Nothing bubbles with the screw shut or by gravity: suction draws dissolved gas out of the "
        "fluid, or air past the opened threads. Neither was in the circuit.",
        "Judge by gravity or by the control. Bubbles under suction need no leak and never end.",
        "Gas out of the fluid and air past opened threads look alike, for a shut screw's threads "
        f"are tighter than an open one's. {_SLOW}",
    ),
    Verdict(
        "cannot tell",
        "These answers fit more than one cause.",
        "Shut the screw with suction on and look; then take suction off and let it run by gravity.",
        "Without both tests there is no verdict.",
    ),
)


def verdict(
    shut_bubbles_go_on: bool | None, gravity_bubbles: bool | None, after_rest_bubbles: bool | None
) -> VerdictCode:
    """Return what the bubbles are by the three tests; None is a test not made.

    The tests: screw shut with suction on; flow by gravity without suction; the same
    again after a quarter of an hour's rest.
    """
    leaks = shut_bubbles_go_on is True
    if gravity_bubbles is True and after_rest_bubbles is False:
        return "past threads or tube joint" if leaks else "froth from pumping"
    if gravity_bubbles is True and leaks:
        return "past threads and from the circuit"
    if gravity_bubbles is True:
        return "from the circuit" if after_rest_bubbles else "from the circuit or froth"
    if leaks:
        return "past threads or tube joint"
    if gravity_bubbles is False and shut_bubbles_go_on is False:
        return "drawn by suction"
    return "cannot tell"
