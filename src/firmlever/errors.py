# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The one tree of errors, each with a message a person at a bench can act on.

::

    FirmleverError               exit 1
    ├── OutOfRangeError          a physics function was asked beyond what is possible
    ├── DamagedTableError        a data table of the installation is not as it was shipped
    └── InputError               exit 2: what was given cannot be used
        ├── CircuitFileError     problems in a circuit file, all of them at once
        ├── UnreadableFileError  the file is absent, too large, or not text
        ├── FileInTheWayError    nothing is overwritten unasked
        ├── NotWrittenError      the disk or a permission stood in the way
        ├── UnknownNameError     a circuit, screw, class, method or grade that is not there
        ├── ImpossibleOptionError  an option outside what it may be
        ├── FluidRefusedError    a fluid that must not meet what is in the circuit
        ├── MethodRefusedError   a method that would do harm in this circuit
        └── BeyondToolError      a system this tool must not guess about
"""

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches


class FirmleverError(Exception):
    """Base of all errors; ``exit_code`` is what a command ends with."""

    exit_code = 1


class OutOfRangeError(FirmleverError):
    """A physics function was given a value that cannot occur."""

    def __init__(self, quantity: str, rule: str) -> None:
        self.quantity = quantity
        super().__init__(f"{quantity} must be {rule}")


class InputError(FirmleverError):
    """Base of everything a person can mend by giving something else."""

    exit_code = 2


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One fault in a file: where it is, what was found, and what would do.

    ``line`` is 0 when the fault belongs to no single line.
    """

    line: int
    place: str
    found: str
    allowed: str

    def __str__(self) -> str:
        """Say the fault in one line."""
        where = f"line {self.line}, {self.place}" if self.line else self.place
        return f"{where}: {self.found}; {self.allowed}"


class CircuitFileError(InputError):
    """Everything that is wrong in one circuit file."""

    def __init__(self, file: str, problems: Sequence[Problem]) -> None:
        self.file = file
        self.problems = tuple(sorted(problems))
        count = "1 thing" if len(self.problems) == 1 else f"{len(self.problems)} things"
        lines = "\n".join(f"  {problem}" for problem in self.problems)
        super().__init__(f"{file}: {count} to put right, nothing was changed\n{lines}")


class DamagedTableError(FirmleverError):
    """A data table that comes with the package and cannot be trusted any more."""

    def __init__(self, table: str, problems: Sequence[Problem]) -> None:
        self.table = table
        self.problems = tuple(sorted(problems))
        count = "1 fault" if len(self.problems) == 1 else f"{len(self.problems)} faults"
        lines = "\n".join(f"  {problem}" for problem in self.problems)
        super().__init__(
            f"{table}, a table that comes with firmlever, is damaged: {count}; "
            f"install firmlever again\n{lines}"
        )


class UnreadableFileError(InputError):
    """A file that could not be read as text."""

    def __init__(self, file: str, reason: str) -> None:
        self.file = file
        super().__init__(f"{file}: {reason}")


class FileInTheWayError(InputError):
    """A file that already stands where a new one was to be written."""

    def __init__(self, file: str) -> None:
        self.file = file
        super().__init__(
            f"{file} is already there and was left as it is; choose another name or move it away"
        )


class NotWrittenError(InputError):
    """A file that could not be written; what stood there before still stands."""

    def __init__(self, file: str, reason: str) -> None:
        self.file = file
        super().__init__(f"{file} was not written ({reason}); what was there before is unchanged")


class UnknownNameError(InputError):
    """A name that is not among those known here."""

    def __init__(self, what: str, asked: str, known: Sequence[str]) -> None:
        self.asked = asked
        close = get_close_matches(asked, known, n=1)
        hint = f"; did you mean “{close[0]}”?" if close else ""
        listed = ", ".join(known) if known else "none"
        super().__init__(
            f"there is no {what} called “{asked}”{hint} Known: {listed}"
            if hint
            else f"there is no {what} called “{asked}”. Known: {listed}"
        )


class ImpossibleOptionError(InputError):
    """An option with a value it cannot have."""

    def __init__(self, option: str, found: str, allowed: str) -> None:
        self.option = option
        super().__init__(f"{option} cannot be {found}; {allowed}")


class FluidRefusedError(InputError):
    """A fluid that must not be mixed with what the circuit holds or asks for."""

    def __init__(self, new: str, old: str, consequence: str) -> None:
        self.new = new
        self.old = old
        super().__init__(f"{new} must not go into a circuit with {old}: {consequence}")


class MethodRefusedError(InputError):
    """A method that would do harm in this circuit."""

    def __init__(self, method: str, reason: str) -> None:
        self.method = method
        super().__init__(f"{method} is refused here: {reason}")


class BeyondToolError(InputError):
    """A system that must not be approximated."""

    def __init__(self, what: str) -> None:
        super().__init__(f"beyond this tool: {what}; the machine's manual or a workshop")
