# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""An invented lever test; no number here was worked out."""

from firmlever.domain.lever import Held, LeverTest, NextSet, Pace, SetKind, TravelShare
from firmlever.domain.quantity import Band
from unit.plan_example import ON, plan


def lever_test() -> LeverTest:
    """A front brake that has lost some of its air."""
    return LeverTest(
        bike="Skerry 1100",
        circuit="front",
        on=ON,
        air_ml=Band(0.31, 0.42, 0.55),
        air_after_ml=Band(0.04, 0.14, 0.25),
        left_ml=Band(0.21, 0.28, 0.35),
        clearance_ml=Band(0.2, 0.31, 0.43),
        air_and_clearance_ml=Band(0.6, 0.73, 0.86),
        together=-0.71,
        at_n=100.0,
        budget=(
            TravelShare("rest", "free play and the way to the port", Band(4.1, 6.0, 8.0)),
            TravelShare("air", "air", Band(7.0, 9.5, 12.0)),
        ),
        holds=(
            Held(
                Pace.SLOW,
                102.0,
                60.0,
                sink_mm_min=Band(0.02, 0.3, 0.9),
                sink_ml_min=Band(0.001, 0.01, 0.03),
                settled_mm=Band(0.2, 0.6, 1.1),
                sinks=False,
            ),
        ),
        says=(
            "0.28 ml of air left the brake (0.21 to 0.35).",
            "Up to 0.25 ml of air may be in it.",
        ),
        cannot_tell=("Whether there is air in it at all: the band reaches down to next to none.",),
        next_sets=(NextSet(SetKind.WEDGED, "a set with the pads wedged", 0.12),),
        assumed=plan().assumed,
        cautions=plan().cautions,
        sources=("fmvss-106",),
    )
