# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the looks at a level say, as a document of the result contract, and its schema."""

from firmlever.domain.level import LevelReport
from firmlever.report.json import ASSUMED, DIALECT, NARROW, write_document
from firmlever.report.shapes import (
    BAND,
    DAY,
    NUMBER,
    TEXT,
    YES_NO,
    Schema,
    constant,
    list_of,
    or_null,
    record,
)

_BETWEEN = record(
    ("start", DAY),
    ("end", DAY),
    ("fell_ml", BAND),
    ("topped_up_ml", NUMBER),
    ("drawn_ml", BAND),
    ("warmth_ml", BAND),
    ("left_ml", BAND),
    ("chance_gone", NUMBER),
    ("chance_rose", NUMBER),
)
_NEW_PADS = record(("rise_ml", BAND), ("level_after_ml", BAND), ("take_out_first_ml", NUMBER))
_DATES = record(("p05", or_null(DAY)), ("p50", or_null(DAY)), ("p95", or_null(DAY)))

LEVEL = record(
    ("format", constant(1), ""),
    ("kind", constant("level"), ""),
    ("bike", TEXT),
    ("circuit", TEXT),
    ("on", DAY),
    ("verdict", TEXT),
    ("says", list_of(TEXT)),
    ("left_ml", or_null(BAND)),
    ("drawn_ml", or_null(BAND)),
    ("chance_gone", or_null(NUMBER)),
    ("chance_rose", or_null(NUMBER)),
    ("tolerated_ml", NUMBER),
    ("would_see_ml", or_null(NUMBER)),
    ("left_per_month_ml", or_null(BAND)),
    ("left_per_1000_km_ml", or_null(BAND)),
    ("between", list_of(_BETWEEN)),
    ("level_ml", BAND),
    ("above_min_ml", BAND),
    ("fill_to_ml", BAND),
    ("fill_above_min_ml", BAND),
    ("new_pads", or_null(_NEW_PADS)),
    ("min_on", or_null(_DATES)),
    ("pads_gone_first", or_null(NUMBER)),
    ("is_clutch", YES_NO),
    ("assumed", list_of(ASSUMED)),
    ("narrow", list_of(NARROW)),
    ("cautions", list_of(TEXT)),
    ("sources", list_of(TEXT)),
    ("findings", list_of(TEXT)),
)


def level_json(report: LevelReport) -> str:
    """Write what the looks say as a document of the result contract."""
    return write_document(LEVEL, report)


def level_schema() -> Schema:
    """Return the JSON Schema of what the looks say, derived from what writes it."""
    return {"$schema": DIALECT, "title": "firmlever level, format 1", **LEVEL.schema}
