# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A workshop of fakes, and a command line run in it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from io import StringIO

from firmlever.bootstrap import Workshop
from firmlever.cli.main import run
from firmlever.cli.screen import Screen
from firmlever.domain.circuit import Bike, Circuit
from firmlever.domain.machine import Change, Outline
from firmlever.domain.tables import FluidGrade, Prior, Technique
from firmlever.errors import FileInTheWayError, UnknownNameError, UnreadableFileError
from unit import plan_example


@dataclass
class FakeFiles:
    """Circuit files in memory."""

    bikes: dict[str, Bike] = field(default_factory=lambda: {"skerry.toml": plan_example.bike()})
    kept: list[tuple[str, tuple[Change, ...]]] = field(default_factory=list)
    started: list[tuple[str, str, str]] = field(default_factory=list)

    def read(self, file: str) -> Bike:
        if file not in self.bikes:
            raise UnreadableFileError(file, "there is no such file")
        return self.bikes[file]

    def text(self, file: str) -> str:
        raise NotImplementedError

    def write_new(self, file: str, bike_class: str, name: str) -> None:
        if file in self.bikes:
            raise FileInTheWayError(file)
        self.started.append((file, bike_class, name))
        self.bikes[file] = plan_example.bike()

    def change(self, file: str, changes: Sequence[Change]) -> None:
        self.read(file)
        for change in changes:
            if change.key.count("/") != 2:
                raise UnknownNameError("quantity", change.key, ["front/master/bore_mm"])
        self.kept.append((file, tuple(changes)))

    def schema(self) -> dict[str, object]:
        return {"title": "a circuit file"}

    def demo(self) -> Sequence[Bike]:
        return (plan_example.bike(),)

    def parse(self, name: str, text: str) -> Bike:
        raise NotImplementedError

    def outline(self, outline: Outline) -> str:
        raise NotImplementedError

    def changed(self, name: str, text: str, changes: Sequence[Change]) -> str:
        raise NotImplementedError

    def demo_texts(self) -> Sequence[str]:
        raise NotImplementedError


class FakeTables:
    """Tables without a row."""

    def priors(self) -> Sequence[Prior]:
        return ()

    def grades(self) -> Sequence[FluidGrade]:
        return ()

    def techniques(self) -> Sequence[Technique]:
        return ()


class FakeClock:
    """A day that stays."""

    def today(self) -> date:
        return plan_example.ON

    def now(self) -> datetime:
        return datetime(2026, 5, 1, 9, tzinfo=UTC)


class Terminal(StringIO):
    """A stream somebody looks at."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


class Latin(StringIO):
    """A stream that cannot show every letter."""

    encoding = "cp1252"


@dataclass
class Bench:
    """Runs command lines and keeps what they wrote."""

    files: FakeFiles = field(default_factory=FakeFiles)
    out: StringIO = field(default_factory=StringIO)
    err: StringIO = field(default_factory=StringIO)
    environ: dict[str, str] = field(default_factory=dict)

    def __call__(self, *words: str) -> int:
        workshop = Workshop(self.files, FakeTables(), FakeClock())
        screen = Screen(self.out, self.err, self.environ, patience_s=0.0)
        return run(words, screen, lambda: workshop)

    def wrote(self) -> tuple[str, str]:
        return self.out.getvalue(), self.err.getvalue()


def only(circuit: Circuit) -> Bike:
    """A machine with this one circuit."""
    whole = plan_example.bike()
    return Bike(whole.name, whole.bike_class, (circuit,))
