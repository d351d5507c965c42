# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a dry circuit is filled, as part of a plan's document."""

from firmlever.report.shapes import BAND, COUNT, NUMBER, TEXT, YES_NO, list_of, or_null, record

_STEP = record(
    ("id", TEXT),
    ("at", TEXT),
    ("words", TEXT),
    ("see", TEXT),
    ("stop", TEXT),
    ("volume_ml", BAND),
    ("strokes", or_null(COUNT)),
)
_REVERSE = record(
    ("at", TEXT),
    ("volume_ml", BAND),
    ("draw_off_after_ml", NUMBER),
    ("allowed", YES_NO),
    ("reason", TEXT),
)
FILL = record(
    ("volume_ml", BAND),
    ("steps", list_of(_STEP)),
    ("reverse", list_of(_REVERSE)),
    ("prime", list_of(TEXT)),
)
