# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How many random cases a property is tried on."""

from hypothesis import settings

USUAL = 50
DEEP = 2000


def either(usual: int, deep: int) -> int:
    """Return the first count in an ordinary run, the second in a deep one."""
    return deep if settings.get_current_profile_name() == "deep" else usual


def examples(usual: int) -> int:
    """Return so many in an ordinary run, as many times more in a deep one as it has more."""
    return either(usual, usual * DEEP // USUAL)
