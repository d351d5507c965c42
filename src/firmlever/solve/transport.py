# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How new fluid travels through a circuit, for all draws at once.

Everything is linear in the volume pushed. A signal is the share of new fluid that
leaves a pocket against the volume that has passed through it, kept as averages over
equal slices; a pocket turns the signal that enters it into the one that leaves it
by the kernel of its kind. Before the first push all is old, so every signal starts
from zero. A pocket remembers: what it is fed is the sequence of what its feeder
gave, visit after visit. Volume and old fluid are conserved because each kernel is
the second difference of the share left inside, whose moments are exact.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum, auto

import numpy as np
from numpy.typing import NDArray

from firmlever.physics.laminar_diffusion import laminar_diffusive_left
from firmlever.physics.washout import stirred_left

Array = NDArray[np.float64]

SUPPLY = -1
# a pocket without volume passes on what it gets (m3)
_LEAST_VOLUME = 1e-12
# rings followed one by one through joints that branch
_RINGS = 64


class Mixing(Enum):
    """How the fluid in a pocket passes on."""

    TUBE = auto()
    STIRRED = auto()


@dataclass(frozen=True, slots=True)
class Pocket:
    """A volume that takes part in the flow, one value a draw.

    ``kappa`` is the radial diffusion number of a tube. ``follows`` names the tube
    whose streamlines run on into this one through a joint that mixes nothing.
    """

    mixing: Mixing
    volume: Array
    kappa: Array
    follows: int | None = None

    def rows(self, chosen: slice) -> "Pocket":
        """Return the same pocket for some of the draws."""
        return replace(self, volume=self.volume[chosen], kappa=self.kappa[chosen])


@dataclass(frozen=True, slots=True)
class Step:
    """One push through a path of pockets, given by index in the order of flow.

    It ends after ``least`` or later, when the new share at the outlet has reached
    ``target`` for good; without a target it ends after ``least``. ``reach`` is the volume up to
    which the signals are worked out.
    """

    path: tuple[int, ...]
    reach: Array
    least: Array
    target: float | None = None


@dataclass(frozen=True, slots=True)
class Signal:
    """Share of new fluid against volume, as averages over slices of ``slice_``."""

    slice_: Array
    cells: Array
    total: Array

    @classmethod
    def of(cls, slice_: Array, cells: Array) -> "Signal":
        """Build a signal from its slice averages."""
        total = np.zeros((cells.shape[0], cells.shape[1] + 1))
        np.cumsum(cells, axis=1, out=total[:, 1:])
        total *= slice_[:, None]
        return cls(slice_, cells, total)

    def integral(self, volume: Array) -> Array:
        """Return the new volume that has passed after ``volume`` (draws, points).

        Inside a slice its average holds; past the last one that goes on.
        """
        count = self.cells.shape[1]
        position = volume / self.slice_[:, None]
        index = np.minimum(position.astype(np.intp), count - 1)
        row = np.arange(len(self.cells))[:, None]
        here = self.cells.take(row * count + index)
        before = self.total.take(row * (count + 1) + index)
        passed: Array = before + self.slice_[:, None] * here * (position - index)
        return passed

    def averages(self, edges: Array) -> Array:
        """Return the averages between consecutive ``edges`` (draws, points)."""
        return np.diff(self.integral(edges), axis=1) / np.diff(edges, axis=1)

    def settles_at(self, share: float) -> Array:
        """Return the volume from which on the signal stays at a share or above.

        It is infinite where the signal ends below.
        """
        cells, count = self.cells, self.cells.shape[1]
        low = cells < share
        last = count - 1 - np.argmax(low[:, ::-1], axis=1)
        row = np.arange(len(cells))
        after = np.minimum(last + 1, count - 1)
        here, there = cells[row, last], cells[row, after]
        rise = np.where(there > here, there - here, 1.0)
        part = np.clip((share - here) / rise, 0.0, 1.0)
        # a slice's average lies off its middle, and the signal off the chord, by its bend
        before, beyond = np.maximum(last - 1, 0), np.minimum(after + 1, count - 1)
        first = cells[row, before] - 2.0 * here + there
        second = here - 2.0 * there + cells[row, beyond]
        bend = first + (second - first) * part
        inside = (before < last) & (beyond > after) & (there > here)
        shift = np.where(inside, bend * (part * (1.0 - part) / 2.0 + 1.0 / 24.0) / rise, 0.0)
        volume = (last + 0.5 + part + np.clip(shift, -0.5, 0.5)) * self.slice_
        volume = np.where(low[:, -1], np.inf, volume)
        return np.where(low.any(axis=1), volume, 0.0)


Supply = Callable[[Array], Array]


@dataclass(frozen=True, slots=True)
class _Visit:
    """A stretch of flow: which feeder, from which of its volumes on, and how much."""

    feeder: int
    start: Array
    length: Array


@dataclass(slots=True)
class _Track:
    """What is known of one pocket while steps are worked through.

    ``reach`` is the volume its signals cover: all steps, or those up to now, in so many
    ``slices``. ``steady`` says that from its first use on it takes all that its feeder
    gives, so that one signal serves every step.
    """

    reach: Array
    slices: int
    steady: bool
    passed: Array
    fed: Signal
    out: Signal
    visits: list[_Visit] = field(default_factory=list)

    def stretches(self) -> list[_Visit]:
        """Return the visits whose feeders' signals make up what this pocket is fed."""
        if self.steady:
            return [replace(self.visits[0], length=self.reach)]
        return self.visits


@dataclass(frozen=True, slots=True)
class StepResult:
    """What one step took, and the signal seen at its outlet.

    The outlet's signal is read from ``start`` on: that much had already passed.
    """

    volume: Array
    start: Array
    outlet: Signal

    def new_share(self, volume: Array) -> Array:
        """Return the averages of the new share between edges of this step's own volume (m3)."""
        return self.outlet.averages(self.start[:, None] + volume)


@dataclass(frozen=True, slots=True)
class Transport:
    """Result of all steps: per step, and per pocket the new volume inside at the end."""

    steps: tuple[StepResult, ...]
    new_inside: tuple[Array, ...]
    through: Array

    @classmethod
    def joined(cls, parts: Sequence["Transport"]) -> "Transport":
        """Put blocks of draws back together."""
        steps = zip(*(part.steps for part in parts), strict=True)
        inside = zip(*(part.new_inside for part in parts), strict=True)
        return cls(
            tuple(_joined_step(blocks) for blocks in steps),
            tuple(np.concatenate(blocks) for blocks in inside),
            np.concatenate([part.through for part in parts]),
        )


def _joined_step(blocks: Sequence[StepResult]) -> StepResult:
    outlets = [block.outlet for block in blocks]
    outlet = Signal(
        np.concatenate([one.slice_ for one in outlets]),
        np.concatenate([one.cells for one in outlets]),
        np.concatenate([one.total for one in outlets]),
    )
    return StepResult(
        np.concatenate([block.volume for block in blocks]),
        np.concatenate([block.start for block in blocks]),
        outlet,
    )


def run(
    pockets: Sequence[Pocket],
    steps: Sequence[Step],
    supply: Supply,
    slices: int,
    sources: Sequence[Array] | None = None,
) -> Transport:
    """Push the steps through the pockets one after the other.

    A step whose target lies beyond its reach in any draw ends the run: its volume
    is infinite there and nothing follows.

    ``supply`` gives the new volume delivered by the reservoir after a total pushed
    volume. ``slices`` says how finely a step's outlet is seen. ``sources`` (one array of
    draws a pocket) marks, beside what is supplied, the pocket's own first content, so
    that a tracer can be followed.
    """
    tracks = _lay_tracks(pockets, steps, slices)
    through = np.zeros_like(steps[0].reach)
    results: list[StepResult] = []
    for step in steps:
        for feeder, index in _links(step.path):
            track = tracks[index]
            start = through if feeder == SUPPLY else tracks[feeder].passed
            track.visits.append(_Visit(feeder, start, step.reach))
            if not track.steady:
                track.reach = track.passed + step.reach
            if not (track.steady and len(track.visits) > 1):
                track.fed = _fed(track, tracks, supply)
                source = None if sources is None else sources[index]
                track.out = _out(index, pockets, tracks, source)
        last = tracks[step.path[-1]]
        volume = _ends_at(step, last)
        results.append(StepResult(volume, last.passed, last.out))
        if not np.all(np.isfinite(volume)):
            break
        for index in step.path:
            track = tracks[index]
            track.visits[-1] = replace(track.visits[-1], length=volume)
            track.passed = track.passed + volume
        through = through + volume
    return Transport(
        tuple(results), tuple(_new_inside(track, tracks, supply) for track in tracks), through
    )


def _links(path: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    return tuple(zip((SUPPLY, *path[:-1]), path, strict=True))


def _lay_tracks(pockets: Sequence[Pocket], steps: Sequence[Step], slices: int) -> list[_Track]:
    nothing = np.zeros_like(steps[0].reach)
    silence = Signal.of(nothing + 1.0, np.zeros((nothing.size, 1)))
    return [
        _Track(
            reach=sum((step.reach for step in steps if index in step.path), nothing),
            slices=slices * _finer(index, steps),
            steady=_is_steady(index, steps),
            passed=nothing,
            fed=silence,
            out=silence,
        )
        for index in range(len(pockets))
    ]


def _finer(index: int, steps: Sequence[Step]) -> int:
    """By how much finer a pocket's slices must be than those of a step of its own.

    A signal that serves many steps is cut for all of them together, and a short step
    among them would see only a few slices; the more so one that ends halfway.
    """
    passing = [step for step in steps if index in step.path]
    ends_halfway = any(step.path[-1] in other.path[:-1] for step in passing for other in passing)
    return len(passing) if ends_halfway else max(1, (len(passing) + 1) // 2)


def _is_steady(index: int, steps: Sequence[Step]) -> bool:
    """Whether a pocket, and all that feeds it, takes everything from its first use on."""
    links = [{pocket: feeder for feeder, pocket in _links(step.path)} for step in steps]
    while True:
        users = [number for number, each in enumerate(links) if index in each]
        if not users:
            return True
        feeder = links[users[0]][index]
        takes_all = all(
            each.get(index) == feeder
            for each in links[users[0] :]
            if index in each or feeder == SUPPLY or feeder in each
        )
        if feeder == SUPPLY or not takes_all:
            return takes_all
        index = feeder


def _fed(track: _Track, tracks: Sequence[_Track], supply: Supply) -> Signal:
    slice_ = track.reach / track.slices
    first = track.visits[0]
    if track.steady and first.feeder != SUPPLY:
        given = tracks[first.feeder].out
        if not first.start.any() and np.array_equal(given.slice_, slice_):
            return given
    edges = slice_[:, None] * np.arange(track.slices + 1)
    total = _over_visits(track.stretches(), edges, _giver(tracks, supply))
    return Signal(slice_, np.diff(total, axis=1) / slice_[:, None], total)


def _out(
    index: int, pockets: Sequence[Pocket], tracks: Sequence[_Track], source: Array | None
) -> Signal:
    pocket, fed = pockets[index], tracks[index].fed
    ratio = fed.slice_ / np.maximum(pocket.volume, _LEAST_VOLUME)
    if pocket.mixing is Mixing.STIRRED:
        cells = _stirred(fed.cells, ratio)
    elif pocket.follows is None:
        cells = _laminar(fed.cells, ratio, pocket.kappa)
    else:
        cells = _streamed(index, pockets, tracks)
    if source is not None and source.any():
        edges = ratio[:, None] * np.arange(fed.cells.shape[1] + 1)
        left = _left(pocket, edges)
        cells = cells - source[:, None] * np.diff(left, axis=1) / ratio[:, None]
    return Signal.of(fed.slice_, cells)


def _streamed(index: int, pockets: Sequence[Pocket], tracks: Sequence[_Track]) -> Array:
    """Follow streamlines that run on through a joint which mixes nothing.

    A bore is cut into rings, finer towards the wall, whose streams keep their own delay
    from tube to tube: the mean of the ring, so that the rings hold the tube's volume.
    The running total of a stream at the end is that at the start, shifted.
    """
    track = tracks[index]
    edges = track.fed.slice_[:, None] * np.arange(track.fed.cells.shape[1] + 1)
    speeds = np.linspace(1.0, 0.0, _RINGS + 1) ** 2
    carried = speeds[:-1] ** 2 - speeds[1:] ** 2
    delays = 1.0 / (speeds[:-1] + speeds[1:])
    total = np.zeros_like(edges)
    for share, delay in zip(carried, delays, strict=True):
        total += share * _stream_total(index, edges, delay, pockets, tracks)
    cells: Array = np.diff(total, axis=1) / track.fed.slice_[:, None]
    return cells


def _stream_total(
    index: int,
    passed: Array,
    delay: float,
    pockets: Sequence[Pocket],
    tracks: Sequence[_Track],
) -> Array:
    """The new volume one stream has delivered at the end of a tube, for unit flow."""
    pocket, track = pockets[index], tracks[index]
    entered = np.maximum(passed - delay * pocket.volume[:, None], 0.0)
    if pocket.follows is None:
        return track.fed.integral(entered)
    before = pocket.follows

    def given_after(volume: Array) -> Array:
        return _stream_total(before, volume, delay, pockets, tracks)

    return _over_visits(track.stretches(), entered, lambda _: given_after)


def _over_visits(
    visits: Sequence[_Visit], passed: Array, giver: Callable[[_Visit], Callable[[Array], Array]]
) -> Array:
    """Add up what the feeders gave over the visits that make up this much passed volume."""
    total = np.zeros_like(passed)
    done = np.zeros(len(passed))
    for visit in visits:
        stretch = np.clip(passed - done[:, None], 0.0, visit.length[:, None])
        start = visit.start[:, None]
        given_after = giver(visit)
        total += given_after(start + stretch) - given_after(start)
        done = done + visit.length
    return total


def _left(pocket: Pocket, theta: Array) -> Array:
    if pocket.mixing is Mixing.STIRRED:
        return np.asarray(stirred_left(theta))
    return np.asarray(laminar_diffusive_left(theta, pocket.kappa[:, None]))


def _stirred(cells: Array, ratio: Array) -> Array:
    """Pass a signal through a stirred chamber, exactly for constant slices."""
    fade = np.exp(-ratio)
    share = -np.expm1(-ratio) / ratio
    entering = np.ascontiguousarray(cells.T)
    inside = np.zeros((len(entering) + 1, ratio.size))
    np.multiply(entering, 1.0 - fade, out=inside[1:])
    for index in range(len(entering)):
        inside[index + 1] += inside[index] * fade
    leaving = inside[:-1]
    leaving -= entering
    leaving *= share
    leaving += entering
    return np.ascontiguousarray(leaving.T)


def _laminar(cells: Array, ratio: Array, kappa: Array) -> Array:
    """Pass a signal through a tube by the second difference of what stays inside."""
    count = cells.shape[1]
    theta = ratio[:, None] * np.arange(-1, count + 1)
    left = laminar_diffusive_left(theta, kappa[:, None])
    kernel = np.diff(left, n=2, axis=1) / ratio[:, None]
    size = 2 * count
    spectrum = np.fft.rfft(cells, size, axis=1)
    spectrum *= np.fft.rfft(kernel, size, axis=1)
    passed: Array = np.fft.irfft(spectrum, size, axis=1)[:, :count]
    return passed


def _ends_at(step: Step, last: _Track) -> Array:
    if step.target is None:
        return step.least
    wanted = last.out.settles_at(step.target) - last.passed
    return np.maximum(wanted, step.least)


def _new_inside(track: _Track, tracks: Sequence[_Track], supply: Supply) -> Array:
    end = track.passed[:, None]
    entered = _over_visits(track.visits, end, _giver(tracks, supply))
    inside: Array = (entered - track.out.integral(end))[:, 0]
    return inside


def _giver(
    tracks: Sequence[_Track], supply: Supply
) -> Callable[[_Visit], Callable[[Array], Array]]:
    return lambda visit: supply if visit.feeder == SUPPLY else tracks[visit.feeder].out.integral
