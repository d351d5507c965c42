# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The literal flush of ``oracle.stream_tubes``, many parcels and origins at a time.

The rules are the oracle's: parcels of one size, bundles of streamlines with a delay
each, stirred chambers, joints that hand on what they get. Here a parcel carries the
share of every origin at once, and a whole set of strokes is pushed in one go.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from oracle.stream_tubes import flow_shares, mean_delays

Array = NDArray[np.float64]

NEW = "new"
RINGS = 48


@dataclass(frozen=True)
class Bundles:
    """Delays in volumes of the tube, and the share of the flow that has each."""

    delays: Array
    flow: Array

    @classmethod
    def convective(cls, rings: int = RINGS) -> "Bundles":
        """Those of the parabola, undisturbed."""
        return cls(np.array(mean_delays(rings)), np.array(flow_shares(rings)))


@dataclass
class Tube:
    """Remembers every parcel that entered; ``through`` hands on its bundles unmixed."""

    volume_ml: float
    own: Array
    bundles: Bundles
    parcel_ml: float
    through: bool = False
    _entered: Array = field(init=False)
    _count: int = field(init=False, default=1)

    def __post_init__(self) -> None:
        self._entered = np.empty((0, 0, 0))
        late = self.bundles.delays * self.volume_ml / self.parcel_ml
        self._whole = np.floor(late).astype(int)
        self._part = (late - self._whole)[None, :, None]

    def push(self, parcels: Array) -> Array:
        """Let parcels in and return those that leave."""
        self._keep(parcels)
        row = self._count - len(parcels) + np.arange(len(parcels))[:, None] - self._whole
        first, second = np.maximum(row, 0), np.maximum(row - 1, 0)
        lane = np.arange(self._whole.size) if self._entered.shape[1] > 1 else 0
        leaving: Array = self._entered[first, lane] * (1.0 - self._part)
        leaving += self._entered[second, lane] * self._part
        if self.through:
            return leaving
        mixed: Array = np.einsum("r,trk->tk", self.bundles.flow, leaving)[:, None, :]
        return mixed

    def _keep(self, parcels: Array) -> None:
        lanes = parcels.shape[1]
        if not self._entered.size:
            self._entered = np.empty((256, lanes, self.own.size))
            self._entered[0] = self.own
        while self._count + len(parcels) > len(self._entered):
            self._entered = np.concatenate([self._entered, np.empty_like(self._entered)])
        self._entered[self._count : self._count + len(parcels)] = parcels
        self._count += len(parcels)


@dataclass
class Stirred:
    """Mixes parcels in while the same volume leaves."""

    volume_ml: float
    inside: Array
    parcel_ml: float

    def push(self, parcels: Array) -> Array:
        """Let parcels in and return those that leave."""
        entering = parcels[:, 0, :]
        if self.volume_ml <= 0.0:
            return parcels
        size = self.parcel_ml / self.volume_ml
        steps = np.arange(len(entering))
        # what each parcel has left inside by the time each later one has entered
        fades = np.tril(np.exp(-size * np.maximum(steps[:, None] - steps, 0)))
        after = -np.expm1(-size) * (fades @ entering)
        after += np.exp(-size * (steps[:, None] + 1)) * self.inside
        before = np.concatenate([self.inside[None], after[:-1]])
        self.inside = after[-1]
        leaving: Array = entering + (before - entering) * (-np.expm1(-size) / size)
        return leaving[:, None, :]


@dataclass
class Pot:
    """The real reservoir: stirred, with real marks and a real hand that fills it.

    ``dry_ml`` is where MIN really lies as it stands, tilted or not; ``lowest_ml`` is
    the deepest it ever was.
    """

    full_ml: float
    dry_ml: float
    inside: Array
    content_ml: float
    lowest_ml: float = float("inf")

    def fill(self, up_to_ml: float, new: Array) -> None:
        """Pour new fluid in; nothing is taken out."""
        poured = max(0.0, up_to_ml - self.content_ml)
        self.inside = (self.inside * self.content_ml + new * poured) / (self.content_ml + poured)
        self.content_ml += poured

    def draw(self, volume_ml: float) -> Array:
        """Take a volume out and return what it is made of."""
        self.content_ml -= volume_ml
        self.lowest_ml = min(self.lowest_ml, self.content_ml)
        return self.inside


@dataclass
class Flow:
    """A body of parts, its screws' paths, and the volume pushed at the present one."""

    parts: Sequence[Tube | Stirred]
    paths: Sequence[Sequence[int]]
    parcel_ml: float
    _pushed: int = 0
    _wanted_ml: float = 0.0

    def turn_to(self) -> None:
        """Begin at another screw."""
        self._pushed, self._wanted_ml = 0, 0.0

    def parcels_by(self, volumes_ml: Array) -> Array:
        """Return how many parcels will have come out after each of the next volumes."""
        so_far: Array = np.rint((self._wanted_ml + np.cumsum(volumes_ml)) / self.parcel_ml)
        return so_far.astype(int) - self._pushed

    def push(self, screw: int, volume_ml: float, fed: Array) -> Array:
        """Push to the nearest whole parcel and return the parcels that came out.

        No path ends in a tube that hands on its bundles.
        """
        self._wanted_ml += volume_ml
        count = round(self._wanted_ml / self.parcel_ml) - self._pushed
        if count <= 0:
            return np.empty((0, fed.size))
        self._pushed += count
        parcels = np.broadcast_to(fed, (count, 1, fed.size))
        for index in self.paths[screw]:
            parcels = self.parts[index].push(parcels)
        out: Array = parcels[:, 0, :]
        return out
