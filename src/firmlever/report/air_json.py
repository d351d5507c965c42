# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a plan says about air, as part of its document."""

from firmlever.report.shapes import (
    BAND,
    COUNT,
    NUMBER,
    TEXT,
    WHOLE,
    list_of,
    or_null,
    record,
)

PLACE = record(
    ("id", TEXT),
    ("kind", TEXT),
    ("owner", TEXT),
    ("at_mm", or_null(NUMBER)),
    ("height_mm", BAND),
    ("holds_ml", BAND),
    ("likely", NUMBER),
    ("words", TEXT),
    ("remedy", TEXT),
)
_CARRIED = record(
    ("place", TEXT),
    ("screw", or_null(TEXT)),
    ("chance", NUMBER),
    ("volume_ml", or_null(BAND)),
    ("strokes", or_null(COUNT)),
    ("pull_s", or_null(NUMBER)),
    ("otherwise", TEXT),
)
AIR = record(
    ("places", list_of(PLACE)),
    ("carried", list_of(_CARRIED)),
    ("froth_minutes", WHOLE),
)
