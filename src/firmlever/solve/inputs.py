# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every number a plan rests on, drawn once and remembered with its reason."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firmlever.domain.circuit import BikeClass, Family
from firmlever.domain.quantities import spec_of
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.domain.tables import Basis, Prior, Technique
from firmlever.solve.draws import from_uniform
from firmlever.units import to_si

Array = NDArray[np.float64]
Ends = tuple[float, float]

_UNSWEPT_SHARE = "share of its fluid that the flow does not sweep"
# a prior that is no key of the circuit file: the key it stands for, and its own words
_STANDS_FOR: Mapping[str, tuple[str, str]] = {
    "min_share": ("min_ml", "content at MIN as a share of that at MAX"),
    "volume_factor": ("volume_ml", "fluid in the chamber, in full strokes of the piston"),
    "home_ml_per_cm2": ("volume_home_ml", "fluid in it with the pistons home, by piston area"),
    "piston_out_mm": ("volume_ml", "how far the piston stands out"),
    "piston_area_mm2": ("pistons_mm", "area of the piston"),
    "piston_area_floating_mm2": ("pistons_mm", "area of all its pistons"),
    "piston_area_opposed_mm2": ("pistons_mm", "area of all its pistons, both sides"),
    "unswept_share": ("unswept_ml", _UNSWEPT_SHARE),
    "unswept_share_opposed": ("unswept_ml", _UNSWEPT_SHARE),
    "unswept_share_floating": ("unswept_ml", _UNSWEPT_SHARE),
    "pipe_bore_mm": ("bore_mm", "bore of the pipe"),
    "feed_bore_mm": ("bore_mm", "bore of the feed hose"),
    "feed_length_mm": ("length_mm", "length of the feed hose"),
    "abs_length_mm": ("length_mm", "length of the line"),
    "stub_length_mm": ("length_mm", "length of the line"),
    "to_splitter_length_mm": ("length_mm", "length of the line"),
    "from_splitter_length_mm": ("length_mm", "length of the line"),
    "across_length_mm": ("length_mm", "length of the line"),
    "rise_mm": ("height_mm", "height of the screw above the inlet of its part"),
}
# pistons are a list in the file and not among its quantities
_PISTONS = ("sizes of the pistons", "count the pistons and lay a ruler across each")
# what looks at the level rest on besides: its own words and how to find it out
_LOOKS: Mapping[str, tuple[str, str]] = {
    "marks_apart_mm": (
        "distance from MIN to MAX on the reservoir",
        "lay a ruler from mark to mark and give --marks",
    ),
    "other_pad_share_floating": (
        "wear of the thicker pad as a share of that of the thinner",
        "read both pads and write them as 3.2/3.6",
    ),
    "other_pad_share_opposed": (
        "wear of the thicker pad as a share of that of the thinner",
        "read both pads and write them as 3.2/3.6",
    ),
    "disc_worn_share": (
        "thickness the disc loses as a share of what a pad loses",
        "read the disc with a micrometer and add a column disc_mm",
    ),
    "pushed_home_mm": ("how far a year of clutch wear pushes the slave piston home", ""),
}
_WORK: Mapping[str, tuple[str, str]] = {
    "workshop_degc": ("temperature in the workshop", "read a thermometer and give --workshop"),
    "diffusion_mm2_s": ("how fast new fluid mixes into old by itself", ""),
    "lip_kpa": ("pressure at which the cup's lip lets fluid past", ""),
    "tube_bore_mm": ("bore of the clear tube", ""),
    "tube_length_mm": ("length of the clear tube", ""),
    "tube_end_height_mm": ("height of the tube's end above the ground", ""),
    "prepare_s": ("time to cover, draw down and refill", ""),
    "per_screw_s": ("time to fit and clear a screw", ""),
    "topup_s": ("time for a top-up", ""),
    "spill_ml": ("fluid left in tube and cloths", ""),
    "side_stand_loss_share": ("share of a filling lost on the side stand", ""),
    "priming_share": (
        "share of each stroke that moves fluid on while air is in the way",
        "count the strokes until fluid comes at the first joint",
    ),
    "after_fill": ("fluid pushed on after the first has come, in fillings of the way", ""),
    "delivered": (
        "share of each stroke that leaves the screw",
        "read the catch bottle after the first ten strokes",
    ),
    "seconds": ("time of one stroke with its pause", ""),
    "drive": ("pressure that moves the fluid", ""),
}
_LEVER_TEST: Mapping[str, tuple[str, str]] = {
    "efficiency": ("share of the force at the lever that arrives as pressure", ""),
    "take_up_kpa": ("pressure by which the pads have mostly come home", ""),
    "before_n": ("force at the lever before pressure begins to rise", ""),
    "free_play_mm": (
        "free play at the lever",
        "ease the lever in and read the ruler where it begins to push",
    ),
    "retraction_mm": ("how far each piston goes back by itself", ""),
    "knock_back_mm": ("how far discs have knocked the pistons back", ""),
    "pads_mm": ("how much each pad gives at 5 MPa", ""),
    "spread_mm": ("how much a caliper spreads at 5 MPa, on each side", ""),
    "rubber_mm3_m_mpa": ("how much a rubber hose swells", ""),
    "braided_mm3_m_mpa": ("how much a braided hose swells", ""),
    "steel_mm3_m_mpa": ("how much a steel pipe swells", ""),
    "flex_mm_100n": ("how much the lever itself bends", ""),
    "bulk_modulus_gpa": ("bulk modulus of the fluid", ""),
}

_AIR: Mapping[str, tuple[str, str]] = {
    "surface_tension_mn_m": ("surface tension of the fluid", ""),
    "bore_ratio": ("true bore over the one that is stated", ""),
    "climb_between_share": ("where the climb of a free bubble stands between two laws", ""),
    "bar_reach_mm": (
        "distance from the steering axis to the master cylinder",
        "lay a tape from the middle of the upper yoke to it",
    ),
    "rake_share": ("sine of the rake", "the machine's manual"),
}


@dataclass(frozen=True, slots=True)
class About:
    """What an input is called, how to find it out, and what its range rests on.

    ``words`` say what the range is of, ``asks`` what to measure to settle it (often the
    same), and ``measure`` how; it is empty where a bench has no way to find it out.
    ``also`` names the same quantity of parts taken to be alike.
    """

    name: str
    words: str
    asks: str
    measure: str
    unit: str
    basis: Basis
    source: str
    from_prior: bool
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Input:
    """One uncertain number, its 5 and 95 % points and its column of uniform draws."""

    about: About
    low: float
    high: float
    u: Array


@dataclass(slots=True)
class Inputs:
    """Hands out draws; a number asked for twice is the same number.

    ``points`` holds a column of uniform numbers for each uncertain input, in the
    order in which they are first asked for. ``twins`` lists for a part those that look
    alike, itself included: what is not known of them is taken to be the same.
    """

    points: Array
    priors: Mapping[tuple[str, str], Sequence[Prior]]
    family: Family
    bike_class: BikeClass
    twins: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    uncertain: list[Input] = field(default_factory=list)
    _drawn: dict[tuple[str, str, str], Array] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many draws there are."""
        return len(self.points)

    def given(self, owner: str, kind: str, key: str, quantity: Quantity) -> Array:
        """Draw a quantity that somebody stated, in SI units."""
        spec = spec_of(kind, key)
        about = About(
            f"{owner}/{key}",
            spec.words,
            spec.words,
            spec.measure,
            spec.unit,
            Basis.STATED,
            "stated",
            False,
        )
        return self._draw((owner, kind, key), about, quantity, (spec.low, spec.high))

    def prior(self, owner: str, kind: str, key: str) -> Array:
        """Draw a quantity from its class prior, in SI units."""
        row = self.row(kind, key)
        meaning, words, asks, measure = _meaning(kind, key)
        first, *others = self.twins.get(owner, (owner,))
        about = About(
            f"{first}/{meaning}",
            words,
            asks,
            measure,
            row.unit,
            row.basis,
            row.source,
            from_prior=True,
            also=tuple(f"{other}/{meaning}" for other in others),
        )
        known_as = (first, "prior of " + kind, key)
        return self._draw(known_as, about, Between(row.low, row.high), _bounds(kind, key))

    def either(self, owner: str, kind: str, key: str, known: Mapping[str, Quantity]) -> Array:
        """Draw what is given, else the prior of the same key."""
        quantity = known.get(key)
        if quantity is None:
            return self.prior(owner, kind, key)
        return self.given(owner, kind, key, quantity)

    def working(self, name: str, ends: Ends, unit: str, row: Technique) -> Array:
        """Draw a number of a technique, in SI units."""
        words, measure = _WORK[name]
        about = About(
            f"{row.name}/{name}", words, words, measure, unit, row.basis, row.source, True
        )
        ceiling = 1.0 if name == "delivered" else math.inf
        return self._draw((row.name, "technique", name), about, Between(*ends), (0.0, ceiling))

    def row(self, kind: str, key: str) -> Prior:
        """Return the most fitting prior: family before any, class before all."""
        return max(
            (
                row
                for row in self.priors[(kind, key)]
                if row.family in (self.family, "any")
                and (not row.classes or self.bike_class in row.classes)
            ),
            key=lambda row: (row.family == self.family, bool(row.classes)),
        )

    def _draw(
        self, known_as: tuple[str, str, str], about: About, quantity: Quantity, bounds: Ends
    ) -> Array:
        if known_as in self._drawn:
            return self._drawn[known_as]
        match quantity:
            case Exact(value):
                drawn = np.full(self.count, value)
            case Between(first, last):
                u = self.points[:, len(self.uncertain)]
                self.uncertain.append(Input(about, first, last, u))
                drawn = from_uniform(first, last, u, bounds, can_be_log=about.unit != "degC")
        self._drawn[known_as] = to_si(drawn, about.unit)
        return self._drawn[known_as]


def _bounds(kind: str, key: str) -> Ends:
    try:
        spec = spec_of(kind, key)
    except KeyError:
        return 0.0, 1.0 if "share" in key else math.inf
    return spec.low, spec.high


def _meaning(kind: str, key: str) -> tuple[str, str, str, str]:
    for loose, meanings in (("work", _WORK), ("lever test", _LEVER_TEST), ("air", _AIR)):
        if kind == loose:
            words, measure = meanings[key]
            return key, words, words, measure
    meaning, words = _STANDS_FOR.get(key, (key, ""))
    if meaning == "pistons_mm":
        return meaning, words, *_PISTONS
    if key in _LOOKS:
        words, measure = _LOOKS[key]
        return key, words, words, measure
    spec = spec_of(kind, meaning)
    return meaning, words or spec.words, spec.words, spec.measure
