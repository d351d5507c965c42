# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The one tree of errors, each with a message a person at a bench can act on.

::

    FirmleverError               exit 1
    ├── OutOfRangeError          a physics function was asked beyond what is possible
    ├── DamagedTableError        a data table of the installation is not as it was shipped
    └── InputError               exit 2: what was given cannot be used
        ├── CircuitFileError     problems in a circuit file, all of them at once
        ├── ReadingsError        problems in a table of readings, all of them at once
        ├── UnreadableFileError  the file is absent, too large, or not text
        ├── FileInTheWayError    nothing is overwritten unasked
        ├── NotWrittenError      the disk or a permission stood in the way
        ├── UnknownNameError     a circuit, screw, class, method or grade that is not there
        ├── ImpossibleOptionError  an option outside what it may be
        ├── FluidRefusedError    a fluid that must not meet what is in the circuit
        ├── MethodRefusedError   a method that would do harm in this circuit
        ├── OrderNeededError     a linked circuit for which the file lacks the manual's order
        ├── BeyondToolError      a system this tool must not guess about
        ├── LooksError           problems in a table of looks at the level, all of them at once
        ├── UnknownMachineError  a machine that is not among those kept
        ├── UnknownPlanError     a plan that is not among those kept
        ├── UnknownJobError      a job at the bench that is not among those kept
        ├── UnknownLeverTestError  a lever test that is not among those kept
        ├── OtherLeverTestError  another lever test is kept under the same id
        ├── OthersJobError       the job of a lever test works at another circuit
        ├── UnknownLookError     a look at a level that is not among those kept
        ├── OtherLookError       another look is kept under the same id
        ├── UnknownPhoneError    a phone that is not paired, or not any more
        ├── ChangedMeanwhileError  somebody else saved first; nothing is overwritten
        ├── MalformedEventError  an entry of the bench log that cannot be read
        ├── NotUnderstoodError   a request whose values cannot be used, all of them at once
        ├── NoSuchPageError      an address that leads nowhere
        ├── NoPagesError         a page was asked for where the pages are not built
        ├── NotFromHereError     a request that does not come from the app on this machine
        ├── NotPairedError       a request over the network from a phone that is not paired
        ├── NoNetworkError       a phone was to be paired while no network is answered
        ├── PairingRefusedError  a pairing code that is wrong, used or too old
        ├── OnlyHereError        what only the computer itself may ask
        ├── TooOftenError        more requests in a short time than a hand can make
        ├── TooLargeError        more was sent than can be a circuit file or an answer
        └── PortTakenError       another program already answers where the app should
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


def _to_put_right(file: str, problems: Sequence[Problem], until: str) -> str:
    count = "1 thing" if len(problems) == 1 else f"{len(problems)} things"
    lines = "\n".join(f"  {problem}" for problem in problems)
    return f"{file}: {count} to put right{until}\n{lines}"


class CircuitFileError(InputError):
    """Everything that is wrong in one circuit file."""

    def __init__(self, file: str, problems: Sequence[Problem]) -> None:
        self.file = file
        self.problems = tuple(sorted(problems))
        super().__init__(_to_put_right(file, self.problems, ", nothing was changed"))


class ReadingsError(InputError):
    """Everything that is wrong in one table of readings."""

    def __init__(self, file: str, problems: Sequence[Problem]) -> None:
        self.file = file
        self.problems = tuple(sorted(problems))
        super().__init__(_to_put_right(file, self.problems, " before it can be read"))


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
        self.what = what
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


class OrderNeededError(InputError):
    """A linked system whose order only the machine's manual gives."""

    def __init__(self, work: str, circuit: str, links: Sequence[str]) -> None:
        super().__init__(
            f"a {work} of “{circuit}” needs the manual's order, for it is linked: "
            f"{'; '.join(links)}. Enter the order as [[sequence]] in the file, or leave it to a "
            "workshop"
        )


class BeyondToolError(InputError):
    """A system that must not be approximated."""

    def __init__(self, what: str) -> None:
        super().__init__(f"beyond this tool: {what}; the machine's manual or a workshop")


class LooksError(InputError):
    """Everything that is wrong in one table of looks at the level."""

    def __init__(self, file: str, problems: Sequence[Problem]) -> None:
        self.file = file
        self.problems = tuple(sorted(problems))
        super().__init__(_to_put_right(file, self.problems, " before it can be judged"))


class UnknownMachineError(InputError):
    """A machine that is not kept here, or not any more."""

    def __init__(self, machine_id: str) -> None:
        self.machine_id = machine_id
        super().__init__(
            f"there is no machine “{machine_id}” here; it may have been removed: "
            "go back to the list of machines"
        )


class UnknownPlanError(InputError):
    """A plan that is not kept here, or not any more."""

    def __init__(self, plan_id: str) -> None:
        self.plan_id = plan_id
        super().__init__(
            f"there is no plan “{plan_id}” here; plans go when their machine is removed: "
            "go back to the list of machines"
        )


class UnknownJobError(InputError):
    """A job that is not kept here."""

    def __init__(self, job_id: str) -> None:
        self.job_id = job_id
        super().__init__(f"there is no job “{job_id}” here: go back to the list of jobs")


class OthersJobError(InputError):
    """A lever test sent for a job that works at another circuit, or at another machine's."""

    def __init__(self, job_id: str, circuit: str) -> None:
        self.job_id = job_id
        self.circuit = circuit
        super().__init__(
            f"the job “{job_id}” is at another circuit, “{circuit}” of its own machine; the test "
            "was not kept: open the lever test from the bench of the right job"
        )


class UnknownLeverTestError(InputError):
    """A lever test that is not kept here, or belongs to another circuit."""

    def __init__(self, test_id: str) -> None:
        self.test_id = test_id
        super().__init__(
            f"there is no lever test “{test_id}” of this circuit here: look at its list of tests"
        )


class OtherLeverTestError(InputError):
    """A lever test under whose id another one is kept already."""

    def __init__(self, test_id: str) -> None:
        self.test_id = test_id
        super().__init__(
            f"another lever test is kept under “{test_id}” and stays as it is; this one was not "
            "kept: keep it under an id of its own"
        )


class UnknownLookError(InputError):
    """A look at a level that is not kept here, or belongs to another circuit."""

    def __init__(self, look_id: str) -> None:
        self.look_id = look_id
        super().__init__(
            f"there is no look “{look_id}” at the level of this circuit here: "
            "look at its list of looks"
        )


class OtherLookError(InputError):
    """A look under whose id another one is kept already."""

    def __init__(self, look_id: str) -> None:
        self.look_id = look_id
        super().__init__(
            f"another look is kept under “{look_id}” and stays as it is; this one was not kept: "
            "keep it under an id of its own"
        )


class UnknownPhoneError(InputError):
    """A phone that is not paired, or not any more."""

    def __init__(self, phone_id: str) -> None:
        self.phone_id = phone_id
        super().__init__(
            f"there is no paired phone “{phone_id}”; it may have been taken off already: "
            "look at the list of phones again"
        )


class ChangedMeanwhileError(InputError):
    """A machine that somebody else changed since it was read.

    ``read_revision`` is what the change was made on, ``kept_revision`` what is kept.
    """

    def __init__(self, name: str, read_revision: int, kept_revision: int) -> None:
        self.name = name
        self.read_revision = read_revision
        self.kept_revision = kept_revision
        super().__init__(
            f"{name} was changed meanwhile (you read revision {read_revision}, it is now at "
            f"{kept_revision}); nothing was overwritten: read it again, then make your change"
        )


class NotUnderstoodError(InputError):
    """A request whose values cannot be used."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        lines = "\n".join(f"  {problem}" for problem in self.problems)
        super().__init__(f"what was sent cannot be used, nothing was changed\n{lines}")


class MalformedEventError(InputError):
    """An entry of the bench log that cannot be read."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        lines = "\n".join(f"  {problem}" for problem in self.problems)
        super().__init__(f"this entry of the bench log cannot be used and was not kept\n{lines}")


class NoSuchPageError(InputError):
    """An address that leads nowhere."""

    def __init__(self, method: str, path: str) -> None:
        self.path = path
        super().__init__(f"{method} {path} leads nowhere; the app starts at /")


class NoPagesError(InputError):
    """A page was asked for where the pages are not built."""

    def __init__(self) -> None:
        super().__init__(
            "the pages of the app are not built here, so no job can be carried out as one; "
            "run.py builds them"
        )


class NotFromHereError(InputError):
    """A request that does not come from the app on this machine."""

    def __init__(self, what: str, found: str, allowed: str) -> None:
        self.what = what
        self.found = found
        super().__init__(
            f"the {what} of this request is “{found}”, and only this machine is answered; "
            f"open {allowed}"
        )


class NotPairedError(InputError):
    """A request over the network from something that is not a paired phone."""

    def __init__(self, page: str) -> None:
        self.page = page
        super().__init__(
            "this phone is not paired, or was taken off; what it has kept stays on it. Ask for "
            f"a code on the computer, then open {page}"
        )


class NoNetworkError(InputError):
    """A phone was to be paired while only this machine is answered."""

    def __init__(self) -> None:
        super().__init__(
            "the app answers this computer only, so no phone could reach it; stop it and start "
            "it as firmlever serve --lan"
        )


class PairingRefusedError(InputError):
    """A pairing code that opens nothing; which of the reasons it is stays unsaid."""

    def __init__(self) -> None:
        super().__init__(
            "this code pairs nothing: it is wrong, was used already, or has run out. Show a new "
            "code on the computer and use it within two minutes"
        )


class OnlyHereError(InputError):
    """A request that is answered at the computer itself only."""

    def __init__(self) -> None:
        super().__init__("phones are paired and taken off at the computer itself, not from a phone")


class TooOftenError(InputError):
    """More requests in a short time than anybody's hand makes."""

    def __init__(self, wait_s: int) -> None:
        self.wait_s = wait_s
        seconds = "1 second" if wait_s == 1 else f"{wait_s} seconds"
        super().__init__(f"too many requests came from this phone; wait {seconds} and try again")


class TooLargeError(InputError):
    """More was sent than can be right."""

    def __init__(self, most_bytes: int) -> None:
        self.most_bytes = most_bytes
        kilobytes = most_bytes // 1000
        most = f"{kilobytes} kB" if kilobytes < 1000 else f"{kilobytes // 1000} MB"
        super().__init__(
            f"what was sent is over {most}, and nothing was changed; a circuit "
            "file has a few kilobytes, so this is another file"
        )


class PortTakenError(InputError):
    """Another program already answers where the app should."""

    def __init__(self, port: int) -> None:
        self.port = port
        super().__init__(
            f"port {port} is taken, perhaps by a firmlever that already runs: open "
            f"http://127.0.0.1:{port}/ or start with another one, as --port {port + 1}"
        )
