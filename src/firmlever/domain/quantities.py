# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every quantity a circuit file may hold: unit, physical bounds, how to find it out.

The bounds only catch slips of the pen; they are wide judgement, not usual values.
"""

from firmlever.domain.quantity import QuantitySpec

_HEIGHT = "hold a tape from the ground to it, with the machine as it stands on the bench"
_BODY_VOLUME = "drain it once into a measuring cup when it is off the machine"

BIKE = "bike"
LINE = "line"
SCREW = "screw"


def _spec(
    kinds: tuple[str, ...], key: str, unit: str, low: float, high: float, words: str, measure: str
) -> tuple[QuantitySpec, ...]:
    return tuple(QuantitySpec(kind, key, unit, low, high, words, measure) for kind in kinds)


_ALL_PARTS = (
    "reservoir",
    "master cylinder",
    "secondary master cylinder",
    "modulator",
    "caliper",
    "slave cylinder",
    "splitter",
    "joint",
    "valve",
    "anti-dive",
    "dead end",
)
_PISTON_PARTS = ("caliper", "slave cylinder")
_POCKETED_PARTS = (*_PISTON_PARTS, "modulator", "secondary master cylinder", "anti-dive")

SPECS: tuple[QuantitySpec, ...] = (
    *_spec((BIKE,), "mass_kg", "kg", 40, 700, "mass ready to ride", "the registration paper"),
    *_spec((BIKE,), "rider_kg", "kg", 30, 250, "mass of the rider", "a bathroom scale"),
    *_spec(
        ("reservoir",), "max_ml", "ml", 2, 500, "content at MAX", "fill it to MAX from a syringe"
    ),
    *_spec(
        ("reservoir",), "min_ml", "ml", 0.2, 400, "content at MIN", "fill it to MIN from a syringe"
    ),
    *_spec(
        ("reservoir",),
        "left_after_draw_ml",
        "ml",
        0,
        100,
        "old fluid left after drawing down and wiping to the port",
        "draw off and wipe with care, then soak up the rest and weigh the cloth",
    ),
    *_spec(
        ("master cylinder",),
        "bore_mm",
        "mm",
        6,
        30,
        "bore of the master cylinder",
        "read the size cast into the body, in inches or millimetres",
    ),
    *_spec(
        ("master cylinder",),
        "stroke_mm",
        "mm",
        3,
        60,
        "full stroke of the master piston",
        "lever travel at the pushrod, from rest to the stop",
    ),
    *_spec(
        ("master cylinder",),
        "stroke_used",
        "",
        0.2,
        1,
        "share of the stroke swept while bleeding",
        "mark how far the lever is pulled against how far it goes",
    ),
    *_spec(
        ("master cylinder",),
        "port_travel_mm",
        "mm",
        0,
        5,
        "piston travel before the compensating port closes",
        "watch the spurt in the reservoir stop while the lever is eased in",
    ),
    *_spec(
        ("master cylinder",),
        "leverage",
        "",
        1,
        12,
        "finger travel for one of piston travel",
        "two ruler readings at the lever, 50 mm in from its end, and at the pushrod",
    ),
    *_spec(
        ("master cylinder",),
        "port_bore_mm",
        "mm",
        0.2,
        3,
        "bore of the compensating port",
        "a needle gauge with the reservoir empty",
    ),
    *_spec(("master cylinder",), "volume_ml", "ml", 0.1, 60, "fluid in the chamber", _BODY_VOLUME),
    *_spec(("modulator",), "volume_ml", "ml", 0.5, 150, "fluid in the ABS unit", _BODY_VOLUME),
    *_spec(
        ("modulator",),
        "orifice_mm",
        "mm",
        0.2,
        4,
        "narrowest bore in the ABS unit",
        "time a known amount by gravity with and without the unit",
    ),
    *_spec(
        _PISTON_PARTS,
        "volume_ml",
        "ml",
        0.3,
        250,
        "fluid in it with the pistons as they stand",
        "push the pistons home once and measure what comes out, then add the content at home",
    ),
    *_spec(
        _PISTON_PARTS,
        "volume_home_ml",
        "ml",
        0.2,
        200,
        "fluid in it with the pistons home",
        "fill it from a syringe when it is off the machine",
    ),
    *_spec(
        ("caliper",),
        "pad_mm",
        "mm",
        0,
        15,
        "friction material left on each pad",
        "a ruler or calliper at the thinner pad",
    ),
    *_spec(
        ("caliper",),
        "pad_new_mm",
        "mm",
        1,
        15,
        "friction material on a new pad",
        "measure a new pad of the same type",
    ),
    *_spec(
        ("secondary master cylinder", "splitter", "valve", "anti-dive", "dead end"),
        "volume_ml",
        "ml",
        0,
        60,
        "fluid in it",
        _BODY_VOLUME,
    ),
    *_spec(
        _POCKETED_PARTS,
        "unswept_ml",
        "ml",
        0,
        120,
        "fluid in it that the flow does not sweep",
        "push dyed fluid through and see how much colour comes out late",
    ),
    *_spec(_ALL_PARTS, "height_mm", "mm", 0, 2500, "height above the ground", _HEIGHT),
    *_spec(
        (LINE,),
        "bore_mm",
        "mm",
        0.8,
        15,
        "bore of the line",
        "the marking on the hose, or a drill shank in an old end",
    ),
    *_spec((LINE,), "length_mm", "mm", 5, 8000, "length of the line", "lay a string along it"),
    *_spec((SCREW,), "hex_mm", "mm", 4, 24, "spanner size", "try the spanner"),
    *_spec((SCREW,), "height_mm", "mm", 0, 2500, "height above the ground", _HEIGHT),
    *_spec(
        (SCREW,),
        "above_ml",
        "ml",
        0,
        60,
        "chamber volume above the screw as mounted",
        "look where the screw enters against the top of the chamber",
    ),
    *_spec(
        (SCREW,),
        "drilling_mm",
        "mm",
        0.4,
        5,
        "bore of the drilling in the screw",
        "a drill shank in a clean old screw",
    ),
)

_BY_KEY = {(spec.kind, spec.key): spec for spec in SPECS}


def spec_of(kind: str, key: str) -> QuantitySpec:
    """Return the spec of a key of a kind of part.

    Raises
    ------
    KeyError
        When this kind has no such key.
    """
    return _BY_KEY[(kind, key)]


def keys_of(kind: str) -> tuple[str, ...]:
    """Return the keys a kind of part may have, in the order of the table."""
    return tuple(spec.key for spec in SPECS if spec.kind == kind)
