# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a benchmark found: a number, what it is to be measured by, and whether it holds."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of a benchmark.

    ``at_most`` and ``at_least`` are what it must keep to; ``aim`` is what it is hoped to
    reach. ``against`` names the reference of a ratio or a difference.
    """

    name: str
    value: float
    unit: str
    against: str = ""
    at_most: float | None = None
    at_least: float | None = None
    aim: float | None = None

    @property
    def holds(self) -> bool | None:
        """Whether the limits are kept; None where there is none."""
        if self.at_most is None and self.at_least is None:
            return None
        above = self.at_least is None or self.value >= self.at_least
        below = self.at_most is None or self.value <= self.at_most
        return above and below


def line(figure: Figure) -> str:
    """Return a figure as a line of text."""
    words = [f"  {figure.name:<58}{figure.value:>10.4g} {figure.unit}".rstrip()]
    if figure.against:
        words.append(f"against {figure.against}")
    if figure.at_most is not None:
        words.append(f"at most {figure.at_most:g}")
    if figure.at_least is not None:
        words.append(f"at least {figure.at_least:g}")
    if figure.aim is not None:
        words.append(f"aim {figure.aim:g}")
    if figure.holds is not None:
        words.append("kept" if figure.holds else "MISSED")
    return "; ".join(words)
