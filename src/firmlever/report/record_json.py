# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The record of a job as a document for other programs."""

from firmlever.domain.bench.record import Record
from firmlever.report.json import write_document
from firmlever.report.shapes import (
    BAND,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    constant,
    list_of,
    or_null,
    record,
)

_MARK = record(
    ("look", TEXT),
    ("at_ml", BAND),
    ("named", list_of(TEXT)),
    ("origins", list_of(record(("name", TEXT), ("share", NUMBER)))),
    ("disagrees", or_null(TEXT)),
    ("event", TEXT),
)
_SCREW = record(
    ("at", TEXT),
    ("part", TEXT),
    ("count", WHOLE),
    ("out_ml", BAND),
    ("cup_ml", or_null(NUMBER)),
    ("sample_ml", NUMBER),
    ("topups", WHOLE),
    ("bubbles", WHOLE),
    ("marks", list_of(_MARK)),
    ("tube", or_null(TEXT)),
    ("new_share", BAND),
    ("evidence", list_of(record(("id", TEXT), ("says", TEXT)))),
    ("agrees", YES_NO),
    ("is_shut", YES_NO),
    ("is_done", YES_NO),
    ("reason", or_null(TEXT)),
)
_GATE = record(
    ("id", TEXT),
    ("before", TEXT),
    ("words", TEXT),
    ("answer", or_null(TEXT)),
    ("reason", or_null(TEXT)),
    ("who", or_null(TEXT)),
    ("at", or_null(TEXT)),
)
_BOTTLE = record(
    ("event", TEXT), ("fluid", TEXT), ("batch", or_null(TEXT)), ("opened_on", or_null(TEXT))
)
_END = record(("end", TEXT), ("at", TEXT), ("who", TEXT), ("reason", or_null(TEXT)))
_FOLLOW_UP = record(
    ("id", TEXT),
    ("words", TEXT),
    ("due_at", or_null(TEXT)),
    ("answer", or_null(TEXT)),
    ("reason", or_null(TEXT)),
)
_ENTRY = record(("event", TEXT), ("at", TEXT), ("who", TEXT), ("kind", TEXT), ("said", TEXT))
_MEASURED = record(("event", TEXT), ("what", TEXT), ("value", NUMBER), ("unit", TEXT))

RECORD = record(
    ("format", constant(1), ""),
    ("kind", constant("record"), ""),
    ("bike", TEXT),
    ("circuit", TEXT),
    ("made_on", TEXT),
    ("work", TEXT),
    ("work_why", or_null(TEXT)),
    ("method", TEXT),
    ("technique", TEXT),
    ("fluid", TEXT),
    ("target", NUMBER),
    ("unit", TEXT),
    ("unit_ml", record(("mean", NUMBER), ("sd", NUMBER))),
    ("phase", TEXT),
    ("began_at", or_null(TEXT)),
    ("last_at", or_null(TEXT)),
    ("people", list_of(TEXT)),
    ("screws", list_of(_SCREW)),
    ("corrected", list_of(_SCREW)),
    ("topups", WHOLE),
    ("bottles", list_of(_BOTTLE)),
    ("cycled", list_of(TEXT)),
    ("air", list_of(record(("id", TEXT), ("words", TEXT), ("says", TEXT)))),
    ("gates", list_of(_GATE)),
    ("ends", list_of(_END)),
    ("follow_ups", list_of(_FOLLOW_UP)),
    ("doubts", list_of(record(("code", TEXT), ("event", TEXT)))),
    ("notes", list_of(record(("event", TEXT), ("text", TEXT)))),
    ("measured", list_of(_MEASURED)),
    ("photos", list_of(record(("event", TEXT), ("name", TEXT)))),
    ("corrections", list_of(_ENTRY)),
    ("taken_back", list_of(_ENTRY)),
    ("signatures", list_of(_ENTRY)),
    ("signed_by", or_null(TEXT)),
    ("open", list_of(TEXT)),
    ("cautions", list_of(TEXT)),
    ("says", TEXT),
)


def record_json(value: Record) -> str:
    """Write the record of a job."""
    return write_document(RECORD, value)
