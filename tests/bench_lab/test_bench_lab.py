# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""People follow the bench on machines it has never seen, and what it promised holds.

Limits are the project's own (judgement). A usual run works on some of the machines, a
deep one on all; the page on the laboratory has the dated result.
"""

from collections import Counter

import numpy as np
import pytest

from bench_lab.laboratory import Score, Worked, scores, sheet_of, work
from bench_lab.machines import random_job
from bench_lab.person import Person
from bench_lab.truth import drawn
from firmlever.domain.tables import Method

USUAL, DEEP = 60, 1000


@pytest.fixture(scope="module")
def worked(request: pytest.FixtureRequest) -> list[Worked]:
    return list(work(range(DEEP if request.config.getoption("--deep") else USUAL)))


@pytest.fixture(scope="module")
def score(worked: list[Worked]) -> Score:
    return scores(worked)["all"]


def test_every_method_is_among_them(worked: list[Worked]) -> None:
    methods = Counter(one.job.request.method for one in worked)
    assert set(methods) == {Method.LEVER, Method.VACUUM, Method.GRAVITY}
    assert methods[Method.LEVER] > len(worked) / 3


def test_a_log_of_followed_prompts_holds_nothing_out_of_place(score: Score) -> None:
    assert score.refused == 0


def test_the_reservoir_never_falls_below_min(worked: list[Worked]) -> None:
    below = [(place, one.run.spare_ml) for place, one in enumerate(worked) if one.run.spare_ml < 0]
    assert not below


def test_a_filling_is_not_wasted_on_caution(score: Score) -> None:
    """A top-up takes a minute; one after every set or two is what people do anyway."""
    assert score.sets / score.fillings > 1.2


def test_screws_are_done_within_the_band_shown_after_the_cup(score: Score) -> None:
    assert score.turns > score.jobs
    assert score.in_band / score.turns >= 0.9


def test_a_dark_slug_is_traced_to_where_it_sat(score: Score) -> None:
    assert score.marks > score.jobs / 3
    assert score.named_right / score.marks >= 0.9
    assert score.named_two / score.marks < 0.5


def test_a_bench_that_trusts_the_middle_of_its_bands_runs_pots_dry(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The laboratory can fail: with no guard, people fall below MIN again and again."""
    monkeypatch.setattr("firmlever.domain.bench.pot._GUARD", 1e-6)
    below = sum(one.run.spare_ml < 0.0 for one in work(range(12)))
    assert below >= 4


def test_a_bench_with_another_circuit_in_mind_is_found_out() -> None:
    """A machine that holds twice what its sheet says takes more than the band."""
    late = 0
    for number in range(12):
        rng = np.random.default_rng([9, number])
        job = random_job(rng)
        run = Person(drawn(job, rng, swollen=2.0), sheet_of(job), rng, "pot").run()
        late += sum(turn.shown is not None and turn.done_at > turn.shown.p95 for turn in run.turns)
    assert late >= 9
