# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A slow, literal flush: parcels of fluid pushed one by one through stream tubes.

This is the check of the fast solver and shares no line with it. A line is cut into
rings that carry their own fluid; each ring's delay is the mean over the ring, so the
rings together hold the line's volume exactly. A stirred part mixes each parcel as it
enters. A joint has no volume and hands every ring's fluid to the same ring behind it.
All parcels have one size. Volumes are in millilitres, shares are shares of new fluid.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import accumulate, pairwise
from math import exp, expm1, floor

RINGS = 200
PARCELS_A_CIRCUIT = 600
RESERVOIR = "reservoir"


@dataclass(frozen=True)
class Element:
    """A part of the tree; ``parent`` is the part it is fed from, None the reservoir.

    ``kind`` is tube, stirred or joint. ``volume_ml`` is the part that is swept;
    ``unswept_ml`` is old fluid beside it that never moves.
    """

    name: str
    kind: str
    volume_ml: float
    parent: str | None = None
    unswept_ml: float = 0.0


@dataclass(frozen=True)
class Reservoir:
    """Stirred; starts filled up over what was left in it, topped up at the low mark."""

    full_ml: float
    low_ml: float
    left_old_ml: float


@dataclass(frozen=True)
class Target:
    """Push until the share of new fluid at the outlet reaches this."""

    new_share: float


@dataclass(frozen=True)
class Volume:
    """Push this much, to the nearest whole parcel."""

    volume_ml: float


@dataclass
class OracleResult:
    """What a flush did.

    ``volumes_ml`` has one volume for each step: the place of the target on the curve,
    or what was pushed. ``curves`` has for each step the points (volume at the middle
    of a parcel since the step began, share of new fluid in it). ``left_old_ml`` is an
    inventory by part and includes the reservoir, as does ``total_old_ml``; the old
    fluid that came out is ``drained_old_ml``.
    """

    volumes_ml: list[float]
    curves: list[list[tuple[float, float]]]
    left_old_ml: dict[str, float]
    total_old_ml: float
    total_volume_ml: float
    drained_old_ml: float
    pushed_ml: float


def ring_speeds(rings: int) -> list[float]:
    """Speeds at the rings' edges over that at the axis; closer together near the wall."""
    return [(1.0 - ring / rings) ** 2 for ring in range(rings + 1)]


def flow_shares(rings: int) -> list[float]:
    """How much of the flow goes through each ring."""
    speeds = ring_speeds(rings)
    return [fast**2 - slow**2 for fast, slow in pairwise(speeds)]


def mean_delays(rings: int) -> list[float]:
    """The delay of each ring in volumes of the line: what it holds over what it carries."""
    speeds = ring_speeds(rings)
    return [1.0 / (fast + slow) for fast, slow in pairwise(speeds)]


@dataclass
class _Tube:
    """Remembers every parcel that entered; what leaves is what entered a delay ago."""

    volume_ml: float
    parcel_ml: float
    flow: list[float]
    whole: list[int] = field(init=False)
    part: list[float] = field(init=False)
    entered: list[list[float]] = field(init=False)

    def __post_init__(self) -> None:
        parcels = [delay * self.volume_ml / self.parcel_ml for delay in mean_delays(len(self.flow))]
        self.whole = [floor(count) for count in parcels]
        self.part = [count - floor(count) for count in parcels]
        self.entered = [[0.0] * len(self.flow)]

    def push(self, parcel: list[float]) -> list[float]:
        """Let a parcel in and return the one that leaves, ring by ring."""
        entered = self.entered
        entered.append(parcel)
        last = len(entered) - 1
        arrived = bisect_left(self.whole, last)
        leaving = [
            entered[last - whole][ring] * (1.0 - part) + entered[last - whole - 1][ring] * part
            for ring, (whole, part) in enumerate(
                zip(self.whole[:arrived], self.part[:arrived], strict=True)
            )
        ]
        return leaving + [0.0] * (len(self.flow) - arrived)

    def old_ml(self) -> float:
        """Count the old fluid, ring by ring and parcel by parcel."""
        old = 0.0
        for ring, flow in enumerate(self.flow):
            newest_first = (parcel[ring] for parcel in reversed(self.entered))
            new_so_far = [0.0, *accumulate(newest_first)]
            most = len(self.entered)
            whole, part = self.whole[ring], self.part[ring]
            inside = new_so_far[min(whole, most)] * (1.0 - part)
            inside += new_so_far[min(whole + 1, most)] * part
            old += flow * self.parcel_ml * (whole + part - inside)
        return old


@dataclass
class _Stirred:
    """Mixes a parcel in while the same volume leaves."""

    volume_ml: float
    parcel_ml: float
    flow: list[float]
    new: float = 0.0

    def push(self, parcel: list[float]) -> list[float]:
        """Let a parcel in and return the one that leaves, the same in every ring."""
        entering = _mean(parcel, self.flow)
        size = self.parcel_ml / self.volume_ml
        before = self.new
        self.new = entering + (before - entering) * exp(-size)
        leaving = entering + (before - entering) * -expm1(-size) / size
        return [leaving] * len(self.flow)

    def old_ml(self) -> float:
        """The old fluid inside."""
        return self.volume_ml * (1.0 - self.new)


class _Joint:
    """Hands on what it gets."""

    def push(self, parcel: list[float]) -> list[float]:
        """Return the parcel, ring for ring."""
        return parcel

    def old_ml(self) -> float:
        """It holds nothing."""
        return 0.0


class _Supply:
    """The reservoir, which is drawn down and topped up in turn."""

    def __init__(self, reservoir: Reservoir) -> None:
        self._marks = reservoir
        self.content_ml = reservoir.full_ml
        self.old_ml = reservoir.left_old_ml

    def draw(self, volume_ml: float) -> float:
        """Take a parcel out and return its share of new fluid."""
        old_taken_ml, still_ml = 0.0, volume_ml
        while still_ml > 0.0:
            if self.content_ml <= self._marks.low_ml:
                self.content_ml = self._marks.full_ml
            taken_ml = min(still_ml, self.content_ml - self._marks.low_ml)
            old_ml = self.old_ml * taken_ml / self.content_ml
            old_taken_ml += old_ml
            self.old_ml -= old_ml
            self.content_ml -= taken_ml
            still_ml -= taken_ml
        return 1.0 - old_taken_ml / volume_ml


def _mean(parcel: list[float], flow: list[float]) -> float:
    return sum(share * part for share, part in zip(parcel, flow, strict=True))


def _part(element: Element, parcel_ml: float, flow: list[float]) -> _Tube | _Stirred | _Joint:
    if element.kind == "tube":
        return _Tube(element.volume_ml, parcel_ml, flow)
    if element.kind == "stirred":
        return _Stirred(element.volume_ml, parcel_ml, flow)
    if element.kind == "joint" and element.volume_ml == 0.0:
        return _Joint()
    raise ValueError(f"{element.name}: {element.kind} with {element.volume_ml} ml")


def _path(outlet: str, elements: dict[str, Element]) -> list[str]:
    path, name = [], outlet
    while name is not None:
        path.append(name)
        parent = elements[name].parent
        if parent is None:
            break
        name = parent
    return path[::-1]


def flush(
    elements: Sequence[Element],
    reservoir: Reservoir,
    steps: Sequence[tuple[str, Target | Volume]],
    *,
    parcel_ml: float | None = None,
    rings: int = RINGS,
) -> OracleResult:
    """Flush a circuit full of old fluid through the named outlets, one after another."""
    named = {element.name: element for element in elements}
    circuit_ml = sum(element.volume_ml for element in elements)
    size_ml = parcel_ml or circuit_ml / PARCELS_A_CIRCUIT
    flow = flow_shares(rings)
    parts = {element.name: _part(element, size_ml, flow) for element in elements}
    supply = _Supply(reservoir)
    result = OracleResult([], [], {}, 0.0, circuit_ml + reservoir.full_ml, 0.0, 0.0)
    for outlet, end in steps:
        path = [parts[name] for name in _path(outlet, named)]
        curve: list[tuple[float, float]] = []
        while not _reached(curve, size_ml, end):
            parcel = [supply.draw(size_ml)] * rings
            for part in path:
                parcel = part.push(parcel)
            curve.append(((len(curve) + 0.5) * size_ml, _mean(parcel, flow)))
        result.curves.append(curve)
        result.volumes_ml.append(_volume_at_end(curve, size_ml, end))
        result.drained_old_ml += sum(size_ml * (1.0 - new) for _, new in curve)
        result.pushed_ml += size_ml * len(curve)
    for element in elements:
        result.left_old_ml[element.name] = parts[element.name].old_ml() + element.unswept_ml
    result.left_old_ml[RESERVOIR] = supply.old_ml
    result.total_volume_ml += sum(element.unswept_ml for element in elements)
    result.total_old_ml = sum(result.left_old_ml.values())
    return result


def _reached(curve: list[tuple[float, float]], parcel_ml: float, end: Target | Volume) -> bool:
    if isinstance(end, Volume):
        return len(curve) >= round(end.volume_ml / parcel_ml)
    return bool(curve) and curve[-1][1] >= end.new_share


def _volume_at_end(
    curve: list[tuple[float, float]], parcel_ml: float, end: Target | Volume
) -> float:
    """Where the target lies between the last two parcels, or all that was pushed."""
    if isinstance(end, Volume) or len(curve) < 2:
        return parcel_ml * len(curve)
    (before_ml, before), (after_ml, after) = curve[-2:]
    return before_ml + (after_ml - before_ml) * (end.new_share - before) / (after - before)
