# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every wish is held to before anything is worked out."""

from firmlever.errors import ImpossibleOptionError


def check_within(option: str, value: float, bounds: tuple[float, float], unit: str) -> None:
    """Refuse a number out of bounds.

    Raises
    ------
    ImpossibleOptionError
        When it is below or above them, or no number.
    """
    low, high = bounds
    if not low <= value <= high:
        raise ImpossibleOptionError(option, f"{value:g}", f"it is in {unit}, {low:g} to {high:g}")


def check_seed(seed: int) -> None:
    """Refuse a seed below nought.

    Raises
    ------
    ImpossibleOptionError
        When it is.
    """
    if seed < 0:
        raise ImpossibleOptionError("--seed", f"{seed}", "it is a whole number from 0 on")
