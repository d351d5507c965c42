# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which fluid may go into a circuit, and what happens if the wrong one does."""

from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.tables import FluidBase, FluidGrade

_TWO_PHASES = (
    "silicone and glycol fluid do not mix; the two layers hold air and water, the lever feels "
    "poor, and nobody can vouch for the brake; changing over means stripping and cleaning every "
    "part and new seals, and silicone is not for a circuit with an ABS unit"
)

# (new, already there or asked for): what comes of it
_CONSEQUENCES = {
    (FluidBase.SILICONE, FluidBase.GLYCOL): _TWO_PHASES,
    (FluidBase.GLYCOL, FluidBase.SILICONE): _TWO_PHASES,
    (FluidBase.MINERAL, FluidBase.GLYCOL): (
        "mineral oil swells and destroys the seals and hoses made for glycol fluid, sometimes only "
        "weeks later; once it is in, every rubber part has to be replaced"
    ),
    (FluidBase.MINERAL, FluidBase.SILICONE): (
        "mineral oil swells and destroys the seals and hoses made for brake fluid, sometimes only "
        "weeks later; once it is in, every rubber part has to be replaced"
    ),
    (FluidBase.GLYCOL, FluidBase.MINERAL): (
        "glycol fluid attacks the seals made for mineral oil and does not mix with the oil; once "
        "it is in, every rubber part has to be replaced"
    ),
    (FluidBase.SILICONE, FluidBase.MINERAL): (
        "silicone fluid is not made for the seals of a mineral oil circuit, and nobody can vouch "
        "for them or for the mix"
    ),
}

_UNKNOWN_OLD = (
    "nobody knows what is in there: read the cap, ask for the papers, and look at the old fluid; "
    "purple points to silicone, green to mineral oil, a swollen diaphragm to oil of any kind, and "
    "colour alone proves nothing; if it may be another base, stop before mixing"
)
_SILICONE = (
    "silicone fluid holds three times the air of glycol fluid and froths easily: pour slowly, let "
    "it stand, and never use it in a circuit with an ABS unit"
)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a fluid may go into a circuit.

    ``reason`` says why in words; a refusal names in ``against`` the grade it
    clashes with. ``caution`` is what to mind although it is allowed.
    """

    allowed: bool
    reason: str
    caution: str | None = None
    against: str | None = None


def may_meet(new: FluidGrade, old: FluidGrade | None, required: Sequence[FluidGrade]) -> Verdict:
    """Judge a fluid against what is in the circuit and what the maker allows.

    Two bases never meet. Within a base, a grade below every grade the maker allows
    is refused; below what is merely in there, it is allowed with a caution.

    Parameters
    ----------
    new
        The fluid somebody wants to pour in.
    old
        What the circuit holds; None when nobody knows.
    required
        The grades the maker allows; empty when nobody knows.

    Returns
    -------
    Verdict
        Allowed or not, with the reason and, where there is one, a caution.
    """
    return _refusal(new, old, required) or Verdict(
        allowed=True,
        reason=_why_allowed(new, old, required),
        caution="; ".join(_cautions(new, old, required)) or None,
    )


def _refusal(
    new: FluidGrade, old: FluidGrade | None, required: Sequence[FluidGrade]
) -> Verdict | None:
    asked_for = [grade for grade in required if grade.base is new.base]
    if required and not asked_for:
        return _clash(new, required[0])
    if old and old.base is not new.base:
        return _clash(new, old)
    if asked_for and new.rank < min(grade.rank for grade in asked_for):
        least = min(asked_for, key=lambda grade: grade.rank)
        return Verdict(
            allowed=False,
            reason=(
                f"the maker asks for {least.name} or better, and {new.name} may boil sooner; "
                f"vapour gives way under the lever and the brake is gone"
            ),
            against=least.name,
        )
    return None


def _clash(new: FluidGrade, other: FluidGrade) -> Verdict:
    return Verdict(allowed=False, reason=_CONSEQUENCES[new.base, other.base], against=other.name)


def _why_allowed(new: FluidGrade, old: FluidGrade | None, required: Sequence[FluidGrade]) -> str:
    allowed_by = " or ".join(grade.name for grade in required if grade.base is new.base)
    asked = f"the maker asks for {allowed_by}" if allowed_by else "what the maker asks for is open"
    if old is None:
        return f"{new.name} is {new.base}; {asked}"
    if old.rank < new.rank:
        return (
            f"{new.name} mixes with {old.name}, and what stays of the {old.name} makes the mix "
            f"count as {old.name}; {asked}"
        )
    return f"{new.name} mixes with {old.name}, both are {new.base}; {asked}"


def _cautions(new: FluidGrade, old: FluidGrade | None, required: Sequence[FluidGrade]) -> list[str]:
    cautions = []
    if not required:
        cautions.append("nobody knows what the maker asks for: read the cap or the manual first")
    if old is None:
        cautions.append(_UNKNOWN_OLD)
    elif new.rank < old.rank:
        cautions.append(
            f"{new.name} is a lower grade than the {old.name} in there: from now on treat the "
            f"whole as {new.name}"
        )
    if _thicker_than_asked(new, required):
        cautions.append(
            f"{new.name} may be thicker in the cold than the maker asks for, which slows an ABS "
            "unit: look for a bottle that also meets the class asked for"
        )
    if new.base is FluidBase.SILICONE:
        cautions.append(_SILICONE)
    return cautions


def _thicker_than_asked(new: FluidGrade, required: Sequence[FluidGrade]) -> bool:
    limits = [
        grade.cold_viscosity_max_mm2_s
        for grade in required
        if grade.base is new.base and grade.cold_viscosity_max_mm2_s is not None
    ]
    return bool(limits) and (new.cold_viscosity_max_mm2_s or 0.0) > max(limits)
