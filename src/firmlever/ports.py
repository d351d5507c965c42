# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the inner rooms need from outside, as protocols."""

from collections.abc import Sequence
from datetime import date
from typing import Protocol

from firmlever.domain.circuit import Bike
from firmlever.domain.quantity import Quantity
from firmlever.domain.tables import FluidGrade, Prior, Technique


class Tables(Protocol):
    """The data tables that come with the package."""

    def priors(self) -> Sequence[Prior]:
        """Class priors, most special rows first."""

    def grades(self) -> Sequence[FluidGrade]:
        """Fluid grades."""

    def techniques(self) -> Sequence[Technique]:
        """Ways of working each method; the first of a method is its default."""


class CircuitFiles(Protocol):
    """Circuit files, format 1."""

    def read(self, file: str) -> Bike:
        """Read and check a file; all its problems come in one error."""

    def write_new(self, file: str, bike_class: str, name: str) -> None:
        """Write the outline of a class of machine to a file that is not there yet."""

    def set_quantity(self, file: str, key: str, value: Quantity) -> None:
        """Change one quantity (``circuit/part/key``), keeping comments and all else."""

    def schema(self) -> dict[str, object]:
        """Return the JSON Schema of the format."""

    def demo(self) -> Sequence[Bike]:
        """Return the machines of the demo workshop."""


class Clock(Protocol):
    """Where the date comes from."""

    def today(self) -> date:
        """Return the date of today."""
