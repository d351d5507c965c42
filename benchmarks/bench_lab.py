# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""People follow the bench on machines it has never seen: what came of it, kind by kind."""

import sys
from collections.abc import Iterator
from pathlib import Path

from benchmarks.figure import Figure

# the laboratory is part of the tests, which are no installed package
sys.path.append(str(Path(__file__).resolve().parent.parent / "tests"))

from bench_lab.laboratory import Score, scores, work

_MACHINES = 1000
_FEW = 10


def measure(machines: int = _MACHINES) -> list[Figure]:
    """Return the figures over all, by method, and by where the dark fluid sat."""
    found = scores(work(range(machines)))
    return [figure for kind, score in found.items() for figure in _figures(kind, score)]


def _figures(kind: str, score: Score) -> Iterator[Figure]:
    limit = 90.0 if kind == "all" else None
    if not kind.startswith("dark"):
        yield Figure(f"{kind}: machines", score.jobs, "")
        yield Figure(f"{kind}: ever below MIN", score.below_min, "machines", at_most=0.0)
        yield _share(f"{kind}: done within the band", score.in_band, score.turns, limit)
        yield _share(f"{kind}: done later than that", score.late, score.turns)
        yield Figure(f"{kind}: top-ups, the first included", score.fillings / score.jobs, "a job")
        yield Figure(f"{kind}: sets", score.sets / score.jobs, "a job")
        yield Figure(f"{kind}: of them watched", score.watched / score.jobs, "a job")
    if score.marks >= _FEW or kind == "all":
        yield Figure(f"{kind}: slugs marked", score.marks, "")
        yield _share(f"{kind}: traced rightly", score.named_right, score.marks, limit)
        yield _share(f"{kind}: with two names", score.named_two, score.marks)


def _share(name: str, part: int, whole: int, at_least: float | None = None) -> Figure:
    return Figure(name, 100.0 * part / max(1, whole), "%", at_least=at_least)
