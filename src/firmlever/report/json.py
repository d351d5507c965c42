# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The result contract: documents for other programs, and the schema of each.

The keys of the contract come first and in its order; what we add follows them.
"""

import json
from collections.abc import Mapping
from typing import cast

from firmlever.domain.lever import LeverTest
from firmlever.domain.plan import FlushPlan
from firmlever.report.air_json import AIR
from firmlever.report.fill_json import FILL
from firmlever.report.shapes import (
    BAND,
    COUNT,
    DAY,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    Schema,
    Shape,
    constant,
    list_of,
    map_of,
    or_null,
    record,
)

DIALECT = "https://json-schema.org/draft/2020-12/schema"

_LEFT_OLD = record(
    ("whole", BAND),
    ("after_mixing", BAND),
    ("parts", map_of(BAND)),
    ("parts_ml", map_of(BAND)),
    ("of_whole", map_of(BAND)),
)
_STRIP = record(
    ("slice_ml", NUMBER), ("origins", list_of(TEXT)), ("shares", list_of(list_of(NUMBER)))
)
_WASHOUT = record(("volume_ml", list_of(NUMBER)), ("new_share", list_of(BAND)))
_POINT = record(
    ("at", TEXT),
    ("volume_ml", BAND),
    ("strokes", or_null(COUNT)),
    ("topups", COUNT),
    ("minutes", BAND),
    ("posture", or_null(TEXT)),
    ("part", TEXT),
    ("note", or_null(TEXT)),
    ("hex_mm", or_null(NUMBER)),
    ("strip", _STRIP),
    ("washout", _WASHOUT),
)
_TUBE = record(("rest_minutes", WHOLE), ("gas_ml_per_100_ml", or_null(BAND)))
_RESERVOIR = record(
    ("usable_ml", BAND),
    ("strokes_to_min", or_null(COUNT)),
    ("fill_to_ml", BAND),
    ("ml_to_min", BAND),
    ("on_side_stand_ml", BAND),
    ("fill_above_min_ml", BAND),
)
ASSUMED = record(
    ("name", TEXT),
    ("low", NUMBER),
    ("high", NUMBER),
    ("basis", TEXT),
    ("unit", TEXT),
    ("words", TEXT),
    ("source", TEXT),
    ("also", list_of(TEXT)),
)
NARROW = record(
    ("name", TEXT),
    ("per_cent", NUMBER),
    ("words", TEXT),
    ("measure", TEXT),
    ("also", list_of(TEXT)),
)
_ORDER = record(("reason", TEXT), ("difference_ml", NUMBER), ("either", YES_NO))
_PISTONS_HOME = record(
    ("at", TEXT),
    ("saves_ml", BAND),
    ("left_old_less", BAND),
    ("done", YES_NO),
    ("how", TEXT),
)
_METHOD = record(
    ("method", TEXT),
    ("technique", TEXT),
    ("minutes", BAND),
    ("allowed", YES_NO),
    ("reason", TEXT),
)
_TOOL = record(("hex_mm", or_null(NUMBER)), ("screws", list_of(TEXT)))

PLAN = record(
    ("format", constant(1), ""),
    ("kind", constant("plan"), ""),
    ("bike", TEXT),
    ("circuit", TEXT),
    ("on", DAY),
    ("work", TEXT),
    ("method", TEXT),
    ("left_old", _LEFT_OLD),
    ("points", list_of(_POINT)),
    ("reservoir", _RESERVOIR),
    ("through_ml", BAND),
    ("pots_min_max", BAND),
    ("buy_ml", WHOLE),
    ("order_reason", TEXT, "order.reason"),
    ("assumed", list_of(ASSUMED)),
    ("narrow", list_of(NARROW)),
    ("cautions", list_of(TEXT)),
    ("sources", list_of(TEXT)),
    ("findings", list_of(TEXT)),
    ("technique", TEXT),
    ("technique_steps", list_of(TEXT)),
    ("fluid", TEXT),
    ("target", NUMBER),
    ("pistons_home_first", YES_NO),
    ("minutes", BAND),
    ("order", _ORDER),
    ("pistons_home", list_of(_PISTONS_HOME)),
    ("methods", list_of(_METHOD)),
    ("tools", list_of(_TOOL)),
    ("unit_ml", BAND),
    ("tube", _TUBE),
    ("air", or_null(AIR)),
    ("fill", or_null(FILL)),
    ("beyond", list_of(TEXT)),
)


_SHARE = record(("part", TEXT), ("words", TEXT), ("travel_mm", BAND))
_HELD = record(
    ("pace", TEXT),
    ("at_n", NUMBER),
    ("seconds", NUMBER),
    ("sink_mm_min", BAND),
    ("sink_ml_min", BAND),
    ("settled_mm", BAND),
    ("sinks", YES_NO),
)
_NEXT_SET = record(("kind", TEXT), ("words", TEXT), ("air_width_ml", NUMBER))

LEVER_TEST = record(
    ("format", constant(1), ""),
    ("kind", constant("lever test"), ""),
    ("bike", TEXT),
    ("circuit", TEXT),
    ("on", DAY),
    ("air_ml", BAND),
    ("air_after_ml", or_null(BAND)),
    ("left_ml", or_null(BAND)),
    ("clearance_ml", BAND),
    ("air_and_clearance_ml", BAND),
    ("together", NUMBER),
    ("at_n", NUMBER),
    ("budget", list_of(_SHARE)),
    ("holds", list_of(_HELD)),
    ("says", list_of(TEXT)),
    ("cannot_tell", list_of(TEXT)),
    ("next_sets", list_of(_NEXT_SET)),
    ("assumed", list_of(ASSUMED)),
    ("cautions", list_of(TEXT)),
    ("sources", list_of(TEXT)),
)


def write_document(shape: Shape, value: object) -> str:
    """Write a record with one top-level key a line; the same value gives the same bytes."""
    document = cast("dict[str, object]", shape.write(value))
    lines = (
        f"{json.dumps(key)}: {json.dumps(entry, allow_nan=False)}"
        for key, entry in document.items()
    )
    return "{" + ",\n ".join(lines) + "}\n"


def plan_json(plan: FlushPlan) -> str:
    """Write a plan as the document of the result contract."""
    return write_document(PLAN, plan)


def lever_json(test: LeverTest) -> str:
    """Write a lever test as a document of the result contract."""
    return write_document(LEVER_TEST, test)


def schema_json(schema: Mapping[str, object]) -> str:
    """Write a schema for people as well as programs."""
    return json.dumps(schema, indent=2) + "\n"


def plan_schema() -> Schema:
    """Return the JSON Schema of a plan, derived from what writes it."""
    return {"$schema": DIALECT, "title": "firmlever plan, format 1", **PLAN.schema}


def lever_schema() -> Schema:
    """Return the JSON Schema of a lever test."""
    return {"$schema": DIALECT, "title": "firmlever lever test, format 1", **LEVER_TEST.schema}
