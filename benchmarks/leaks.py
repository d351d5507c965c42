# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How often a leak is found by looks at the level, and how often one is seen that is none."""

import sys
from collections.abc import Iterator
from pathlib import Path

from benchmarks.figure import Figure

# the invented machines are part of the tests, which are no installed package
sys.path.append(str(Path(__file__).resolve().parent.parent / "tests"))

from solve.leaking import alarm_share, kinds, verdicts

_SOUND, _LEAKING = 200, 50


def measure(sound: int = _SOUND, leaking: int = _LEAKING) -> list[Figure]:
    """Return false alarms and power by kind of machine and by the way the looks are taken."""
    return list(_figures(sound, leaking))


def _figures(sound: int, leaking: int) -> Iterator[Figure]:
    for name, kind in kinds().items():
        for way, plan in kind.ways.items():
            alarms = 100.0 * alarm_share(verdicts(kind, plan, 0.0, sound))
            yield Figure(f"{name}, {way}: false alarms", alarms, "%", at_most=5.0)
            for leak_ml in kind.leaks_ml:
                found = 100.0 * alarm_share(verdicts(kind, plan, leak_ml, leaking, seed=2))
                yield Figure(f"{name}, {way}: {leak_ml:g} ml found", found, "%")
