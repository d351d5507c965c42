# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The job sheet: all that the bench needs, frozen when a job starts."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any, Literal

from firmlever.domain.plan import Strip, TubeFigures, Washout
from firmlever.domain.quantity import Band, CountBand

Document = dict[str, Any]
Stage = Literal["opening", "screw", "shutting", "rolling"]


@dataclass(frozen=True, slots=True)
class Unit:
    """What is counted, a stroke or a second, and the millilitres one brings by the plan."""

    name: Literal["stroke", "second"]
    ml: Band


@dataclass(frozen=True, slots=True)
class PaceS:
    """Seconds a stroke takes by the technique."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Reservoir:
    """The reservoir in millilitres above MIN.

    ``tilt_ml`` is what the side stand may cost; ``fill_to_ml`` the fill line, None where
    that is MAX; ``read_error_ml`` how far a look at the level may be out.
    """

    part: str
    usable_ml: Band
    tilt_ml: float
    fill_to_ml: float | None
    read_error_ml: float


@dataclass(frozen=True, slots=True)
class CupError:
    """How far the catch cup may be misread, and the share that may run beside it."""

    read_error_ml: float
    read_error_share: float
    beside_share: float


@dataclass(frozen=True, slots=True)
class SheetPoint:
    """One screw's turn as the plan has it."""

    at: str
    part: str
    hex_mm: float | None
    posture: str | None
    note: str | None
    volume_ml: Band
    strokes: CountBand | None
    minutes: Band
    strip: Strip
    washout: Washout


@dataclass(frozen=True, slots=True)
class UnitLeft:
    """What stays old in an ABS unit: as a share of the unit and as a share of everything."""

    in_unit: Band
    of_whole: Band


@dataclass(frozen=True, slots=True)
class Gate:
    """A question before the circuit is opened, at a screw, or before the machine rolls.

    One "screw" is asked before that ``point`` is worked, one "shutting" before it may be
    called done. A step of a fill says what to ``see`` and when to ``stop``.
    """

    id: str
    before: Stage
    words: str
    why: str
    point: int | None = None
    see: str | None = None
    stop: str | None = None


@dataclass(frozen=True, slots=True)
class AirPlace:
    """A place at which air may sit, and the screw and the millilitres it is due at.

    ``likely`` is the probability that air stays there, ``remedy`` what helps where no flow
    brings it out. Without a ``screw`` none of the plan's does.
    """

    id: str
    words: str
    remedy: str
    likely: float
    screw: int | None
    volume_ml: Band | None


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Something to look at again, so many hours after the first stop."""

    id: str
    words: str
    after_hours: float


@dataclass(frozen=True, slots=True)
class JobSheet:
    """A job as it was when it started.

    ``unswept`` is what stays old in the ABS unit (ml), ``units`` the same as shares. A sheet
    kept before there were such figures has no ``units`` and no ``tube``. ``air`` is what a
    bleed is after, and ``froth_minutes`` how long froth takes to rise.
    """

    bike: str
    circuit: str
    control: str
    made_on: str
    work: str
    method: str
    technique: str
    technique_steps: tuple[str, ...]
    fluid: str
    target: float
    direction: Literal["down", "up"]
    unit: Unit
    pace_s: PaceS | None
    reservoir: Reservoir
    cup: CupError
    points: tuple[SheetPoint, ...]
    has_modulator: bool
    unswept: Mapping[str, Band]
    units: Mapping[str, UnitLeft]
    tube: TubeFigures | None
    gates: tuple[Gate, ...]
    follow_ups: tuple[FollowUp, ...]
    cautions: tuple[str, ...]
    findings: tuple[str, ...]
    sources: tuple[str, ...]
    air: tuple[AirPlace, ...] = ()
    froth_minutes: int | None = None


def sheet_document(sheet: JobSheet) -> Document:
    """Return the sheet as plain JSON values."""
    return {"format": 1, "kind": "job sheet", **asdict(sheet)}


def read_sheet(document: Document) -> JobSheet:
    """Return the sheet a document of `sheet_document` holds."""
    plain = {key: value for key, value in document.items() if key not in ("format", "kind")}
    pace = plain["pace_s"]
    reservoir = plain["reservoir"]
    return JobSheet(
        **plain
        | {
            "technique_steps": tuple(plain["technique_steps"]),
            "unit": Unit(plain["unit"]["name"], Band(**plain["unit"]["ml"])),
            "pace_s": None if pace is None else PaceS(**pace),
            "reservoir": Reservoir(**reservoir | {"usable_ml": Band(**reservoir["usable_ml"])}),
            "cup": CupError(**plain["cup"]),
            "points": tuple(_point(point) for point in plain["points"]),
            "unswept": {part: Band(**ml) for part, ml in plain["unswept"].items()},
            "units": {part: _unit_left(one) for part, one in plain.get("units", {}).items()},
            "tube": _tube(plain.get("tube")),
            "gates": tuple(Gate(**gate) for gate in plain["gates"]),
            "follow_ups": tuple(FollowUp(**one) for one in plain["follow_ups"]),
            "cautions": tuple(plain["cautions"]),
            "findings": tuple(plain["findings"]),
            "sources": tuple(plain["sources"]),
            "air": tuple(_air_place(place) for place in plain.get("air", ())),
            "froth_minutes": plain.get("froth_minutes"),
        }
    )


def _air_place(document: Document) -> AirPlace:
    volume = document["volume_ml"]
    return AirPlace(**document | {"volume_ml": None if volume is None else Band(**volume)})


def _unit_left(document: Document) -> UnitLeft:
    return UnitLeft(Band(**document["in_unit"]), Band(**document["of_whole"]))


def _tube(document: Document | None) -> TubeFigures | None:
    if document is None:
        return None
    gas = document["gas_ml_per_100_ml"]
    return TubeFigures(document["rest_minutes"], None if gas is None else Band(**gas))


def _point(document: Document) -> SheetPoint:
    strip, washout, strokes = document["strip"], document["washout"], document["strokes"]
    shares = tuple(tuple(slice_) for slice_ in strip["shares"])
    new_share = tuple(Band(**band) for band in washout["new_share"])
    return SheetPoint(
        **document
        | {
            "volume_ml": Band(**document["volume_ml"]),
            "strokes": None if strokes is None else CountBand(**strokes),
            "minutes": Band(**document["minutes"]),
            "strip": Strip(strip["slice_ml"], tuple(strip["origins"]), shares),
            "washout": Washout(tuple(washout["volume_ml"]), new_share),
        }
    )
