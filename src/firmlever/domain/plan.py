# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a plan for one circuit says, as every face of the tool shows it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from firmlever.domain.air import AirPlan
from firmlever.domain.fill import FillPlan
from firmlever.domain.quantity import Band, CountBand
from firmlever.domain.tables import Basis, Method, Work


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """What somebody asks for.

    ``target`` is the share of new fluid at the outlet at which a screw is done;
    ``fluid`` is the grade that goes in (None: the first the maker allows);
    ``workshop_degc`` None falls to the prior.
    """

    circuit: str
    on: date
    work: Work = Work.FLUSH
    method: Method = Method.LEVER
    technique: str | None = None
    target: float = 0.95
    pistons_home: bool = False
    fluid: str | None = None
    workshop_degc: float | None = None
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Strip:
    """Where each coming millilitre at a screw comes from.

    ``shares[i][k]`` is the share of ``origins[k]`` in the i-th slice of
    ``slice_ml`` millilitres; each slice sums to one.
    """

    slice_ml: float
    origins: tuple[str, ...]
    shares: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Washout:
    """Share of new fluid at a screw against millilitres through it, with its band."""

    volume_ml: tuple[float, ...]
    new_share: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class PlanPoint:
    """One step of the plan: one screw.

    ``strokes`` is None where no lever is stroked. ``topups`` counts refills of the
    reservoir while this screw is worked.
    """

    at: str
    part: str
    volume_ml: Band
    strokes: CountBand | None
    topups: CountBand
    minutes: Band
    posture: str | None
    note: str | None
    hex_mm: float | None
    strip: Strip
    washout: Washout


@dataclass(frozen=True, slots=True)
class ReservoirPlan:
    """How the reservoir behaves during the job.

    ``strokes_to_min`` and ``ml_to_min`` are the guard: after so much it must be
    topped up. ``on_side_stand`` is the same when the reservoir is not level.
    ``fill_to_ml`` counts from the reservoir's floor, ``fill_above_min_ml`` from MIN.
    """

    usable_ml: Band
    strokes_to_min: CountBand | None
    ml_to_min: Band
    on_side_stand_ml: Band
    fill_to_ml: Band
    fill_above_min_ml: Band


@dataclass(frozen=True, slots=True)
class LeftOld:
    """How much old fluid is still in the circuit at the end.

    ``whole`` is its share of everything from the reservoir's floor to the
    screws. ``after_mixing`` is its share at the wheel end once riding has evened
    out each part. ``parts`` holds the share inside each part, ``parts_ml`` the
    millilitres of old fluid in it, ``of_whole`` those millilitres as a share of
    everything.
    """

    whole: Band
    after_mixing: Band
    parts: Mapping[str, Band]
    parts_ml: Mapping[str, Band]
    of_whole: Mapping[str, Band]


@dataclass(frozen=True, slots=True)
class PistonsHome:
    """What pushing the pistons home first saves in one caliper.

    ``done`` says that this plan already reckons with it; ``how`` is how to do it.
    """

    at: str
    saves_ml: Band
    left_old_less: Band
    done: bool
    how: str


@dataclass(frozen=True, slots=True)
class OrderNote:
    """What the other order of the screws would cost."""

    reason: str
    difference_ml: float
    either: bool


@dataclass(frozen=True, slots=True)
class MethodTime:
    """How long the same plan takes by another method."""

    method: Method
    technique: str
    minutes: Band
    allowed: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Assumed:
    """A quantity taken from a prior; ``also`` names parts taken to be alike in it."""

    name: str
    words: str
    low: float
    high: float
    unit: str
    basis: Basis
    source: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Narrow:
    """A measurement worth taking: the per cent of the headline's variance it removes.

    ``also`` names the same quantity of parts taken to be alike.
    """

    name: str
    words: str
    measure: str
    per_cent: float
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Tool:
    """A spanner and the screws it is for."""

    hex_mm: float | None
    screws: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TubeFigures:
    """What the tube may show though it was not in the circuit.

    ``rest_minutes`` is how long froth needs to rise at the slow end of what is known.
    ``gas_ml_per_100_ml`` is how much gas suction draws out of sound fluid, as seen in
    the tube, at most; None without suction.
    """

    rest_minutes: int
    gas_ml_per_100_ml: Band | None


@dataclass(frozen=True, slots=True)
class FlushPlan:
    """The whole plan of one job.

    ``unit_ml`` is what leaves the screw in one stroke, or in one second where nothing is
    stroked; over screws of different pace it spans them all. ``air`` is what a bleed or a
    fill has to bring out, ``fill`` how a dry circuit is filled; ``beyond`` says when to stop
    and hand over.
    """

    bike: str
    circuit: str
    on: date
    work: Work
    method: Method
    technique: str
    technique_steps: tuple[str, ...]
    fluid: str
    target: float
    pistons_home_first: bool
    left_old: LeftOld
    points: tuple[PlanPoint, ...]
    reservoir: ReservoirPlan
    through_ml: Band
    pots_min_max: Band
    minutes: Band
    buy_ml: int
    unit_ml: Band
    tube: TubeFigures
    order: OrderNote
    pistons_home: tuple[PistonsHome, ...]
    methods: tuple[MethodTime, ...]
    tools: tuple[Tool, ...]
    assumed: tuple[Assumed, ...]
    narrow: tuple[Narrow, ...]
    cautions: tuple[str, ...]
    findings: tuple[str, ...]
    sources: tuple[str, ...]
    air: AirPlan | None = None
    fill: FillPlan | None = None
    beyond: tuple[str, ...] = ()
