# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The air map as a document of the result contract, and its schema."""

from firmlever.domain.air_map import AirMap
from firmlever.report.air_json import PLACE
from firmlever.report.json import ASSUMED, DIALECT, write_document
from firmlever.report.shapes import (
    BAND,
    DAY,
    NUMBER,
    TEXT,
    Schema,
    constant,
    list_of,
    map_of,
    or_null,
    record,
)

_POSTURE = record(
    ("bars_deg", NUMBER),
    ("lean_deg", NUMBER),
    ("lifted_mm", map_of(NUMBER)),
    ("screw_up", list_of(TEXT)),
)
_LEG = record(
    ("owner", TEXT),
    ("from_mm", NUMBER),
    ("to_mm", NUMBER),
    ("from_height_mm", BAND),
    ("to_height_mm", BAND),
    ("bore_mm", BAND),
    ("held", NUMBER),
    ("climb_mm_s", BAND),
    ("climbs_to", or_null(TEXT)),
)

AIR_MAP = record(
    ("format", constant(1), ""),
    ("kind", constant("air map"), ""),
    ("bike", TEXT),
    ("circuit", TEXT),
    ("on", DAY),
    ("posture", _POSTURE),
    ("places", list_of(PLACE)),
    ("legs", list_of(_LEG)),
    ("hold_below_mm", BAND),
    ("froth", list_of(record(("diameter_mm", NUMBER), ("minutes", BAND)))),
    ("assumed", list_of(ASSUMED)),
    ("cautions", list_of(TEXT)),
    ("sources", list_of(TEXT)),
)


def air_map_json(found: AirMap) -> str:
    """Write an air map as a document of the result contract."""
    return write_document(AIR_MAP, found)


def air_map_schema() -> Schema:
    """Return the JSON Schema of an air map, derived from what writes it."""
    return {"$schema": DIALECT, "title": "firmlever air map, format 1", **AIR_MAP.schema}
