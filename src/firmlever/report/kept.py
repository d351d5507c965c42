# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A kept plan in one line."""

import json

from firmlever.domain.quantity import Band
from firmlever.report.figures import band_range, per_cent


def kept_headline(document: str) -> str:
    """Say what a plan said, from its document."""
    plan = json.loads(document)
    if plan.get("fill"):
        return f"{band_range(Band(**plan['fill']['volume_ml']))} ml fill it dry"
    old, through = Band(**plan["left_old"]["whole"]), Band(**plan["through_ml"])
    return f"{per_cent(old)} stays old; {band_range(through)} ml go through"
