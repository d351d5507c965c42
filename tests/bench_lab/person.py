# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A person who does what the bench says, with hands and eyes that are never exact."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bench_lab.flow import NEW
from bench_lab.truth import Truth
from firmlever.domain.bench.events import (
    AtScrew,
    CupRead,
    Deed,
    DrawnDown,
    Event,
    GateAnswered,
    LevelRead,
    Marked,
    SampleCaught,
    ScrewShut,
    SetDone,
    Started,
    ToppedUp,
)
from firmlever.domain.bench.facts import nothing_yet
from firmlever.domain.bench.fold import apply, fold
from firmlever.domain.bench.pot import PACES
from firmlever.domain.bench.sheet import JobSheet
from firmlever.domain.bench.state import gauge_now, state_document
from firmlever.domain.quantity import CountBand

Array = NDArray[np.float64]

# all of these are judgement, meant to be worse than a careful person
PERSON_BIAS = 0.04
STROKE_NOISE = 0.04
# of the flow from one opening of the screw to the next
FLOW_NOISE = {"vacuum": 0.1, "gravity": 0.03}
BESIDE_THE_CUP = 0.15
LOOK_ERROR_SHARE = 0.06
LOOK_ERROR_ML = 0.6
SLOW_HAND_S = 1.0
STANDS_ASKEW_SHARE = 0.05
ON_SIDE_STAND = 0.25
TAKES_SAMPLE = 0.3
SAMPLE_ML = 3.0
# with suction the screw is opened only so far that a filling lasts this long
SUCTION_FILLING_S = (15.0, 40.0)
# fluid of one origin makes the tube look dark from this share on
LOOKS_DARK = 0.25
# counts by which a person notices late
NOTICED_LATE = {"stroke": 1, "second": 3}
CUP_ERROR_ML = 1.0
CUP_ERROR_SHARE = 0.03


@dataclass(frozen=True)
class Turned:
    """How one screw went.

    ``shown`` is the band of counts after the cup was read, None where the screw was done
    before; ``done_at`` is the count at which the fluid really was as new as wanted.
    ``darkest_at`` is the count at which a slug was darkest, None where none was seen.
    """

    shown: CountBand | None
    done_at: int
    darkest_at: int | None


@dataclass(frozen=True)
class Run:
    """What happened at the bench.

    ``dark`` is where the dark fluid sat, ``marks`` what the bench named for each mark;
    ``spare_ml`` is the least there ever was above MIN.
    """

    turns: tuple[Turned, ...]
    dark: str
    marks: tuple[tuple[str, ...], ...]
    spare_ml: float
    fillings: int
    sets: int
    counts: int
    watched: int
    refused: int


@dataclass
class Person:
    """Follows the prompts on one machine to the end."""

    truth: Truth
    sheet: JobSheet
    rng: np.random.Generator
    dark: str
    deeds: list[Deed] = field(default_factory=list)
    spare_ml: float = float("inf")
    fillings: int = 0
    sets: int = 0
    watched: int = 0

    def __post_init__(self) -> None:
        self.facts = nothing_yet(self.sheet)
        self._pace = PACES[self.sheet.unit.name]
        self._bias = float(np.exp(self.rng.normal(0.0, PERSON_BIAS)))
        tilted = self.rng.random() < ON_SIDE_STAND
        self.pot = self.truth.pot(self.truth.left_ml, self._dry_ml(tilted=tilted))
        self._tell(Started("side stand" if tilted else "level"))
        for gate in self.sheet.gates:
            if gate.before == "opening":
                self._tell(GateAnswered(gate.id, "yes", None))
        self._tell(DrawnDown())
        self._fill()

    def run(self) -> Run:
        """Work through all screws."""
        turns = tuple(self._turn(screw) for screw in range(len(self.truth.turns)))
        facts = fold(self.sheet, _events(self._with_marks(turns)))
        state = state_document(self.sheet, facts)
        return Run(
            turns,
            self.dark,
            tuple(tuple(mark["named"]) for turn in state["turns"] for mark in turn["marks"]),
            self.spare_ml,
            self.fillings,
            self.sets,
            sum(turn.count for turn in facts.turns),
            self.watched,
            len(facts.refused),
        )

    def _turn(self, screw: int) -> Turned:
        self._tell(AtScrew(screw))
        self.truth.flow.turn_to()
        unit_ml, beside = self._unit_ml(screw), self.rng.uniform(0.0, BESIDE_THE_CUP)
        wanted_ml = SAMPLE_ML if self.rng.random() < TAKES_SAMPLE else 0.0
        came: list[Array] = []
        caught_ml, done_at = 0.0, None
        shown: CountBand | None = None
        while done_at is None:
            asked, is_watched = self._prompted()
            out_ml = self._out_ml(asked, unit_ml)
            came += self._push(screw, out_ml)
            caught_ml += float(np.sum(out_ml)) * (1.0 - beside)
            self._tell(SetDone(screw, len(out_ml)))
            self.sets += 1
            if is_watched:
                self.watched += 1
                self._look()
            done_at = self._done_at(came, len(out_ml))
            if wanted_ml and caught_ml >= wanted_ml:
                self._tell(SampleCaught(screw, wanted_ml))
                caught_ml, wanted_ml = caught_ml - wanted_ml, 0.0
            if shown is None and done_at is None and len(came) >= self._pace.set:
                self._tell(CupRead(screw, self._read_cup(caught_ml)))
                shown = self._shown(screw)
        self._tell(ScrewShut(screw, True, None))
        return Turned(shown, done_at, self._darkest_at(came))

    def _prompted(self) -> tuple[int, bool]:
        """Do what the reservoir asks for; return the counts to do and whether to watch them."""
        while True:
            now = gauge_now(self.sheet, self.facts)
            match now.call:
                case "fine" | "soon":
                    return now.next_set, False
                case "watch" if self.facts.posture == "side stand":
                    self.pot.dry_ml = self._dry_ml(tilted=False)
                    self._tell(Started("level"))
                    self._fill()
                case "watch":
                    return now.next_set, True
                case "now":
                    self._look()
                    self._fill()
                case other:
                    raise AssertionError(other)

    def _out_ml(self, asked: int, unit_ml: float) -> Array:
        """What comes out, count by count; with a clock the hand is late and says so."""
        if self.sheet.unit.name == "stroke":
            return unit_ml * (1.0 + self.rng.normal(0.0, STROKE_NOISE, asked))
        seconds = asked + float(self.rng.uniform(0.0, SLOW_HAND_S))
        told = max(1, round(seconds))
        unevenness = FLOW_NOISE[self.sheet.method]
        flow_ml_s = unit_ml * max(0.1, 1.0 + float(self.rng.normal(0.0, unevenness)))
        return np.full(told, flow_ml_s * seconds / told)

    def _unit_ml(self, screw: int) -> float:
        unit_ml = self.truth.unit_ml[screw] * self._bias
        if self.sheet.method != "vacuum":
            return unit_ml
        gap_ml = self.truth.full_ml - self.pot.dry_ml
        return min(unit_ml, gap_ml / float(self.rng.uniform(*SUCTION_FILLING_S)))

    def _push(self, screw: int, out_ml: Array) -> list[Array]:
        """Draw it from the pot and return the parcels of each count."""
        ends = self.truth.flow.parcels_by(out_ml)
        parcels = self.truth.flow.push(screw, float(out_ml.sum()), self.pot.draw(out_ml.sum()))
        self.spare_ml = min(self.spare_ml, self.pot.content_ml - self.pot.dry_ml)
        return np.split(parcels, ends[:-1])

    def _done_at(self, came: list[Array], newest: int) -> int | None:
        for at, parcels in enumerate(came[-newest:], start=len(came) - newest + 1):
            if np.any(parcels[:, -1] >= self.sheet.target):
                return at
        return None

    def _darkest_at(self, came: list[Array]) -> int | None:
        """Where the tube was darkest, as soon as the person notices."""
        column, share, shares = self.truth.origins.index(self.dark), 0.0, []
        for parcels in came:
            share = float(parcels[:, column].mean()) if parcels.size else share
            shares.append(share)
        peak = int(np.argmax(shares))
        if shares[peak] < LOOKS_DARK:
            return None
        late = int(self.rng.integers(0, NOTICED_LATE[self.sheet.unit.name] + 1))
        return min(peak + 1 + late, len(came))

    def _shown(self, screw: int) -> CountBand:
        state = state_document(self.sheet, self.facts)
        return CountBand(**state["turns"][screw]["total_count"])

    def _read_cup(self, caught_ml: float) -> float:
        error_ml = CUP_ERROR_ML + CUP_ERROR_SHARE * caught_ml
        return max(0.0, caught_ml + float(self.rng.normal(0.0, error_ml)))

    def _dry_ml(self, *, tilted: bool) -> float:
        gap_ml = self.truth.full_ml - self.truth.low_ml
        askew = float(self.rng.uniform(0.0, STANDS_ASKEW_SHARE))
        return self.truth.low_ml + gap_ml * (self.truth.tilt_share if tilted else askew)

    def _eye_ml(self) -> float:
        gap_ml = self.truth.full_ml - self.pot.dry_ml
        return float(self.rng.normal(0.0, min(LOOK_ERROR_ML, LOOK_ERROR_SHARE * gap_ml)))

    def _look(self) -> None:
        gap_ml = self.truth.full_ml - self.pot.dry_ml
        share = (self.pot.content_ml - self.pot.dry_ml + self._eye_ml()) / gap_ml
        self._tell(LevelRead(max(0.0, share) * self.sheet.reservoir.usable_ml.p50))

    def _fill(self) -> None:
        self.pot.fill(self.truth.full_ml + self._eye_ml(), self.truth.origin(NEW))
        self.fillings += 1
        self._tell(ToppedUp("max"))

    def _tell(self, deed: Deed) -> None:
        self.deeds.append(deed)
        self.facts = apply(self.sheet, self.facts, _event(len(self.deeds), deed))

    def _with_marks(self, turns: tuple[Turned, ...]) -> list[Deed]:
        """The same log with the dark marks, each between the counts it was seen at."""
        told: list[Deed] = []
        counted = [0] * len(turns)
        for deed in self.deeds:
            if not isinstance(deed, SetDone):
                told.append(deed)
                continue
            screw, before = deed.point, counted[deed.point]
            counted[screw] += deed.count
            at = turns[screw].darkest_at
            if at is None or not before < at <= counted[screw]:
                told.append(deed)
                continue
            told += [SetDone(screw, at - before), Marked(screw, "dark")]
            if at < counted[screw]:
                told.append(SetDone(screw, counted[screw] - at))
        return told


def _events(deeds: list[Deed]) -> list[Event]:
    return [_event(number, deed) for number, deed in enumerate(deeds, start=1)]


def _event(number: int, deed: Deed) -> Event:
    stamp = f"2026-05-01T{9 + number // 3600:02d}:{number // 60 % 60:02d}:{number % 60:02d}.000Z"
    return Event(f"0196b2a0-0000-7000-8000-{number:012x}", stamp, "Ansa", "phone", deed)
