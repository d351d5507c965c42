# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a person waits for and what the machine must hold: the program as a new process.

Python's compiled files go to a folder of their own, which the first start fills; times
are medians of the starts after it. So the process is cold and the disk is not.
"""

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from benchmarks.cases import MEASURED, ON
from benchmarks.figure import Figure

_BARE = ("-c", "pass")
_HELP = ("-m", "firmlever", "--help")
_WORDS = ("plan", MEASURED, "--circuit", "front", "--on", f"{ON}")
_PLAN = ("-m", "firmlever", *_WORDS)


@dataclass(frozen=True, slots=True)
class _Start:
    wall_s: float
    cpu_s: float


def measure(repeats: int = 7) -> list[Figure]:
    """Start the program again and again; read the peak of memory inside it."""
    with TemporaryDirectory() as compiled:
        settings = _settings(compiled)
        first = _started(_PLAN, settings)
        bare, helped, planned = (
            _median(words, settings, repeats) for words in (_BARE, _HELP, _PLAN)
        )
        peak_mb, stats = (_told(what, settings) for what in ("peak_mb", "stats_modules"))
    against = "python -c pass"
    return [
        Figure("--help, wall time", helped.wall_s, "s", at_most=0.2),
        Figure("--help, process time", helped.cpu_s, "s"),
        Figure("--help, process time", helped.cpu_s / bare.cpu_s, "times", against),
        Figure("cold plan, wall time", planned.wall_s, "s", at_most=1.5),
        Figure("cold plan, process time", planned.cpu_s, "s"),
        Figure("cold plan, process time", planned.cpu_s / bare.cpu_s, "times", against),
        Figure("first plan, nothing compiled yet, process time", first.cpu_s, "s"),
        Figure("cold plan, most memory", peak_mb, "MB", at_most=300.0),
        Figure("cold plan, modules of scipy.stats", stats, "", at_most=0.0),
    ]


def _settings(compiled: str) -> Mapping[str, str]:
    settings = os.environ | {"PYTHONPYCACHEPREFIX": compiled}
    settings.pop("PYTHONDONTWRITEBYTECODE", None)
    return settings


def _median(words: Sequence[str], settings: Mapping[str, str], repeats: int) -> _Start:
    _started(words, settings)
    starts = [_started(words, settings) for _ in range(repeats)]
    return _Start(median(start.wall_s for start in starts), median(start.cpu_s for start in starts))


def _started(words: Sequence[str], settings: Mapping[str, str]) -> _Start:
    import resource

    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    wall = perf_counter()
    subprocess.run([sys.executable, *words], stdout=subprocess.DEVNULL, env=settings, check=True)
    wall = perf_counter() - wall
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    user, system = after.ru_utime - before.ru_utime, after.ru_stime - before.ru_stime
    return _Start(wall, user + system)


def _told(what: str, settings: Mapping[str, str]) -> float:
    words = [sys.executable, "-m", "benchmarks.inside", what, *_WORDS]
    done = subprocess.run(words, capture_output=True, text=True, env=settings, check=True)
    return float(done.stderr.splitlines()[-1])
