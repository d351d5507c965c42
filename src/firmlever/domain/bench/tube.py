# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whose bubbles are in the tube: three questions, and what their answers leave open.

With the screw shut the circuit is cut off, so what still bubbles under suction came past
threads or tube joint. Flow by gravity sucks nowhere: what bubbles then came with the
fluid. Froth from pumping is gone after a rest, a leak or a pocket is not.
"""

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


def verdict(
    shut_bubbles_go_on: bool | None, gravity_bubbles: bool | None, after_rest_bubbles: bool | None
) -> VerdictCode:
    """Return what the bubbles are by the three tests; None is a test not made.

    The tests: screw shut with suction on; flow by gravity without suction; the same
    again after the rest that froth needs (`firmlever.solve.tube`).
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
