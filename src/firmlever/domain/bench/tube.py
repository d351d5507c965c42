# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the guided test of the tube comes to."""

THREADS = "past threads or tube joint"
THREADS_AND_CIRCUIT = "past threads and from the circuit"
CIRCUIT = "from the circuit"
CIRCUIT_OR_FROTH = "from the circuit or froth"
FROTH = "froth from pumping"
SUCTION = "drawn by suction"
CANNOT_TELL = "cannot tell"

# bubbles that these explain say nothing about the circuit
FROM_OUTSIDE = frozenset({THREADS, SUCTION})


def verdict(
    shut_bubbles_go_on: bool | None, gravity_bubbles: bool | None, after_rest_bubbles: bool | None
) -> str:
    """Return where the bubbles come from, as far as three yes-or-no tests can tell.

    The tests: do bubbles go on with the screw shut and suction on; are there bubbles by
    gravity alone; are there any after a rest. None was not tried. Suction that draws gas
    out of the fluid and suction past open threads cannot be told apart.

    >>> verdict(True, False, None)
    'past threads or tube joint'
    """
    if gravity_bubbles:
        if after_rest_bubbles is False:
            return THREADS if shut_bubbles_go_on else FROTH
        if shut_bubbles_go_on:
            return THREADS_AND_CIRCUIT
        return CIRCUIT if after_rest_bubbles else CIRCUIT_OR_FROTH
    if shut_bubbles_go_on:
        return THREADS
    if gravity_bubbles is False and shut_bubbles_go_on is False:
        return SUCTION
    return CANNOT_TELL
