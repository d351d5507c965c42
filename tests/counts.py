# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How many random cases a property is tried on."""

from hypothesis import settings

USUAL = 50
DEEP = 2000


def examples(usual: int) -> int:
    """Return so many in an ordinary run, as many times more in a deep one as it has more."""
    deep = settings.get_current_profile_name() == "deep"
    return usual * DEEP // USUAL if deep else usual
