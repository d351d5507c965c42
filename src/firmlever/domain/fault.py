# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""One fault in a description of a machine, before it is put into a place in a file."""

from dataclasses import dataclass

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong, where, and what would do.

    ``at`` leads to the spot by the keys of the circuit file, from the thing that
    was checked. ``beyond`` marks a system that must not be approximated.
    """

    at: Path
    found: str
    allowed: str
    beyond: bool = False

    def under(self, *above: str | int) -> "Fault":
        """Return the same fault seen from further up.

        >>> Fault(("name",), "none", "a name").under("circuit", 2).at
        ('circuit', 2, 'name')
        """
        return Fault((*above, *self.at), self.found, self.allowed, self.beyond)
