# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which fluid may go into a circuit, in the words a person reads."""

from itertools import product

import pytest

from firmlever.domain.compatibility import Verdict, may_meet
from firmlever.domain.tables import Basis, FluidBase, FluidGrade

GLYCOL, SILICONE, MINERAL = FluidBase.GLYCOL, FluidBase.SILICONE, FluidBase.MINERAL


def grade(name: str, base: FluidBase, rank: int, cold_mm2_s: float | None = 1500) -> FluidGrade:
    return FluidGrade(
        name=name,
        base=base,
        rank=rank,
        dry_boiling_min_degc=None,
        wet_boiling_min_degc=None,
        cold_viscosity_max_mm2_s=cold_mm2_s,
        hot_viscosity_min_mm2_s=None,
        typical_cold_viscosity_mm2_s=15.0,
        typical_hot_viscosity_mm2_s=2.0,
        density_kg_m3=1050.0,
        expansion_1_k=0.85e-3,
        air_held=(0.03, 0.07),
        basis=Basis.JUDGEMENT,
        source="judgement",
    )


DOT_3 = grade("DOT 3", GLYCOL, 1)
DOT_4 = grade("DOT 4", GLYCOL, 2, 1800)
CLASS_4 = grade("ISO 4", GLYCOL, 2)
DOT_5_1 = grade("DOT 5.1", GLYCOL, 4, 900)
DOT_5 = grade("DOT 5", SILICONE, 4, 900)
OIL = grade("mineral oil", MINERAL, 1, None)
ONE_OF_EACH = (DOT_4, DOT_5, OIL)

LAYERS = (
    "silicone and glycol fluid do not mix; the two layers hold air and water, the lever feels "
    "poor, and nobody can vouch for the brake; changing over means stripping and cleaning every "
    "part and new seals, and silicone is not for a circuit with an ABS unit"
)
ATTACKED = (
    "glycol fluid attacks the seals made for mineral oil and does not mix with the oil; once it "
    "is in, every rubber part has to be replaced"
)


def swollen(made_for: str) -> str:
    return (
        f"mineral oil swells and destroys the seals and hoses made for {made_for}, sometimes only "
        "weeks later; once it is in, every rubber part has to be replaced"
    )


UNVOUCHED = (
    "silicone fluid is not made for the seals of a mineral oil circuit, and nobody can vouch for "
    "them or for the mix"
)
UNKNOWN_OLD = (
    "nobody knows what is in there: read the cap, ask for the papers, and look at the old fluid; "
    "purple points to silicone, green to mineral oil, a swollen diaphragm to oil of any kind, and "
    "colour alone proves nothing; if it may be another base, stop before mixing"
)
SILICONE_CARE = (
    "silicone fluid holds three times the air of glycol fluid and froths easily: pour slowly, let "
    "it stand, and never use it in a circuit with an ABS unit"
)

CLASHES = {
    ("DOT 5", "DOT 4"): LAYERS,
    ("DOT 4", "DOT 5"): LAYERS,
    ("mineral oil", "DOT 4"): swollen("glycol fluid"),
    ("mineral oil", "DOT 5"): swollen("brake fluid"),
    ("DOT 4", "mineral oil"): ATTACKED,
    ("DOT 5", "mineral oil"): UNVOUCHED,
}


@pytest.mark.parametrize(
    ("new", "other"), [pair for pair in product(ONE_OF_EACH, repeat=2) if pair[0] is not pair[1]]
)
def test_two_bases_never_meet(new: FluidGrade, other: FluidGrade) -> None:
    """Neither in what is in there, nor against what the maker asks for."""
    refused = Verdict(False, CLASHES[new.name, other.name], None, other.name)
    assert may_meet(new, other, [new]) == refused
    assert may_meet(new, other, []) == refused
    assert may_meet(new, None, [other]) == refused
    assert may_meet(new, new, [other]) == refused


@pytest.mark.parametrize("fluid", [DOT_3, DOT_4, DOT_5_1, OIL])
def test_the_same_fluid_is_allowed_without_a_caution(fluid: FluidGrade) -> None:
    assert may_meet(fluid, fluid, [fluid]) == Verdict(
        True,
        f"{fluid.name} mixes with {fluid.name}, both are {fluid.base}; "
        f"the maker asks for {fluid.name}",
    )


def test_below_what_the_maker_asks_for_is_refused() -> None:
    assert may_meet(DOT_3, DOT_3, [DOT_5_1, DOT_4]) == Verdict(
        False,
        "the maker asks for DOT 4 or better, and DOT 3 may boil sooner; vapour gives way under "
        "the lever and the brake is gone",
        None,
        "DOT 4",
    )


def test_below_what_is_in_there_is_allowed_with_a_caution() -> None:
    assert may_meet(DOT_3, DOT_5_1, [DOT_3, DOT_4]) == Verdict(
        True,
        "DOT 3 mixes with DOT 5.1, both are glycol ether; the maker asks for DOT 3 or DOT 4",
        "DOT 3 is a lower grade than the DOT 5.1 in there: from now on treat the whole as DOT 3",
    )


def test_above_what_is_in_there_says_what_the_rest_makes_of_it() -> None:
    assert may_meet(DOT_4, DOT_3, [DOT_3]).reason == (
        "DOT 4 mixes with DOT 3, and what stays of the DOT 3 makes the mix count as DOT 3; "
        "the maker asks for DOT 3"
    )


def test_unknown_old_fluid_says_what_to_look_for() -> None:
    assert may_meet(DOT_4, None, [DOT_4]) == Verdict(
        True, "DOT 4 is glycol ether; the maker asks for DOT 4", UNKNOWN_OLD
    )


def test_nothing_known_gives_both_cautions() -> None:
    assert may_meet(DOT_4, None, []) == Verdict(
        True,
        "DOT 4 is glycol ether; what the maker asks for is open",
        "nobody knows what the maker asks for: read the cap or the manual first; " + UNKNOWN_OLD,
    )


def test_silicone_never_comes_without_its_caution() -> None:
    assert may_meet(DOT_5, DOT_5, [DOT_5]).caution == SILICONE_CARE


def test_thicker_in_the_cold_than_asked_for_is_a_caution() -> None:
    assert may_meet(DOT_4, CLASS_4, [CLASS_4]).caution == (
        "DOT 4 may be thicker in the cold than the maker asks for, which slows an ABS unit: look "
        "for a bottle that also meets the class asked for"
    )
    assert may_meet(CLASS_4, DOT_4, [DOT_4]).caution is None


@pytest.mark.parametrize("old", [None, *ONE_OF_EACH])
@pytest.mark.parametrize("required", [[], *([fluid] for fluid in ONE_OF_EACH), [DOT_4, DOT_5_1]])
@pytest.mark.parametrize("new", [DOT_3, *ONE_OF_EACH])
def test_allowed_means_one_base_everywhere(
    new: FluidGrade, old: FluidGrade | None, required: list[FluidGrade]
) -> None:
    verdict = may_meet(new, old, required)
    bases_agree = (old is None or old.base is new.base) and (
        not required or any(fluid.base is new.base for fluid in required)
    )
    assert bases_agree or not verdict.allowed
    assert (verdict.against is None) == verdict.allowed
