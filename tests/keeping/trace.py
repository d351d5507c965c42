# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a traced server did, call by call, and what a disk would hold of it if the power failed.

A disk is taken at its word and no further: a write is there for certain once a sync of its
file has begun after it and ended, a new file once a sync of its folder has. All else may be
there or not.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Literal, NamedTuple

STRACE = (
    *("strace", "-f", "--seccomp-bpf", "-yy", "-xx", "-s", "1000000"),
    *("-e", "trace=pwrite64,fsync,fdatasync,ftruncate,unlink,sendto"),
)
_SYNCS = ("fsync", "fdatasync")
_BEGUN = re.compile(r"(\d+) +(\w+)\((.*)")
_RESUMED = re.compile(r"(\d+) +<\.\.\. (\w+) resumed>")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_FILE = re.compile(r"\d+<((?:\\x[0-9a-f]{2})+)>")
_ACCEPTED = re.compile(rb'"accepted":\[([^\]]*)\]')


class Step(NamedTuple):
    """One thing that happened: ``data`` is what was written, or the ids that were named."""

    does: Literal["write", "truncate", "remove", "sync begins", "sync ends", "acknowledge"]
    path: str = ""
    data: bytes = b""
    offset: int = 0
    thread: str = ""

    @property
    def ids(self) -> list[str]:
        """The events that an acknowledgement names."""
        return re.findall(r'"([^"]+)"', self.data.decode())


def steps_in(trace: Path) -> Iterator[Step]:
    """Read the record of a trace; a call that another one interrupts is told twice there."""
    under_way: dict[str, Step] = {}
    with trace.open(encoding="ascii") as lines:
        for line in lines:
            begun, resumed = _BEGUN.match(line), _RESUMED.match(line)
            if begun:
                thread, call, rest = begun.groups()
                step = _step(thread, call, rest)
                if step:
                    yield step
                if step and step.does == "sync begins":
                    under_way[thread] = step
                    if "<unfinished" not in rest:
                        yield under_way.pop(thread)._replace(does="sync ends")
            elif resumed and resumed[2] in _SYNCS and resumed[1] in under_way:
                yield under_way.pop(resumed[1])._replace(does="sync ends")


def _step(thread: str, call: str, rest: str) -> Step | None:
    file, text = _FILE.match(rest), _TEXT.search(rest)
    path = _bytes(file[1]).decode() if file else ""
    data = _bytes(text[1]) if text else b""
    if call in _SYNCS and file:
        return Step("sync begins", path, thread=thread)
    if call == "pwrite64" and file:
        offset = re.search(r", (\d+)(?:\)| <unfinished)", rest[rest.rindex('"') :])
        assert offset, rest[-80:]
        return Step("write", path, data, int(offset[1]))
    if call == "ftruncate" and file:
        size = re.search(r">, (\d+)", rest)
        assert size, rest
        return Step("truncate", path, offset=int(size[1]))
    if call == "unlink":
        return Step("remove", data.decode())
    named = _ACCEPTED.search(data) if call == "sendto" else None
    return Step("acknowledge", data=named[1]) if named and named[1] else None


def _bytes(text: str) -> bytes:
    return bytes.fromhex(text.replace("\\x", ""))


@dataclass
class Disk:
    """A folder on a disk that keeps its word about syncs and promises nothing else.

    ``is_honest`` False is a disk that forgets what was synced; the check must notice it.
    """

    folder: Path
    is_honest: bool = True
    settled: dict[str, bytes] = field(default_factory=dict)
    named: set[str] = field(default_factory=set)
    pending: dict[str, list[Step]] = field(default_factory=dict)
    syncing: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for path in self.folder.iterdir():
            self.settled[str(path)] = path.read_bytes()
            self.named.add(str(path))

    def take(self, step: Step) -> None:
        """Let a step happen."""
        inside = step.path.startswith(f"{self.folder}/") and not step.path.endswith("-shm")
        if step.does == "sync begins":
            self.syncing[step.thread] = len(self.pending.get(step.path, ()))
        elif step.does == "sync ends" and self.is_honest:
            self._settle(step.path, self.syncing.pop(step.thread))
        elif inside:
            self.pending.setdefault(step.path, []).append(step)

    def _settle(self, path: str, count: int) -> None:
        if path == str(self.folder):
            self.named |= self.pending.keys()
            return
        steps = self.pending.get(path, [])
        self.settled[path] = _applied(self.settled.get(path, b""), steps[:count])
        self.pending[path] = steps[count:]

    def after_power_failed(self, to: Path, chance: Random | None = None) -> Path:
        """Write what is left to a folder; ``chance`` lets some of the rest be there too."""
        to.mkdir()
        for path in sorted(self.settled.keys() | self.pending.keys()):
            rest = [step for step in self.pending.get(path, ()) if chance and chance.random() < 0.5]
            if path in self.named or (chance and chance.random() < 0.5):
                left = _applied(self.settled.get(path, b""), rest)
                (to / Path(path).name).write_bytes(left)
        return to


def _applied(content: bytes, steps: list[Step]) -> bytes:
    new = bytearray(content)
    for step in steps:
        assert step.does in ("write", "truncate"), step.does
        if step.does == "truncate":
            del new[step.offset :]
        new.extend(bytes(max(0, step.offset - len(new))))
        new[step.offset : step.offset + len(step.data)] = step.data
    return bytes(new)
