# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A circuit as a tree: which line feeds a part, the way to it, and what is wrong with it."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches

from firmlever.domain.circuit import Circuit, Line, Part, PartKind, Screw, SequenceStep
from firmlever.domain.fault import Fault

WHEEL_END = (PartKind.CALIPER, PartKind.SLAVE)


def feeding_line(circuit: Circuit) -> Mapping[str, Line]:
    """Return, for each part that a line leads to, that line."""
    return {line.end: line for line in circuit.lines}


def route(circuit: Circuit, part_id: str) -> tuple[Part, ...]:
    """Return the parts from the reservoir to this part, both included.

    Raises
    ------
    KeyError
        When no part has this id.
    """
    feeds = feeding_line(circuit)
    way = [circuit.part(part_id)]
    while way[-1].id in feeds:
        way.append(circuit.part(feeds[way[-1].id].start))
    return tuple(reversed(way))


def screws_in(circuit: Circuit) -> tuple[tuple[Part, Screw], ...]:
    """Return every bleed screw with its part, in file order."""
    return tuple((part, screw) for part in circuit.parts for screw in part.screws)


def faults_in(circuit: Circuit) -> tuple[Fault, ...]:
    """Return everything that keeps a circuit from being a tree that can be flushed."""
    name_faults = (*_repeated_ids(circuit), *_lines_to_nothing(circuit))
    faults = (*name_faults, *_kinds_missing(circuit), *_no_screw(circuit), *_past_dead_end(circuit))
    if name_faults or len(circuit.of_kind(PartKind.RESERVOIR)) != 1:
        return faults
    tree_faults = tuple(_not_a_tree(circuit))
    if tree_faults:
        return (*faults, *tree_faults)
    return (*faults, *_masters_astray(circuit), *_stuck_fluid(circuit))


def faults_between(
    circuits: Sequence[Circuit], sequence: Sequence[SequenceStep] = ()
) -> tuple[Fault, ...]:
    """Return what does not fit between the circuits of one machine."""
    return (
        *_repeated_circuits(circuits),
        *_contradicting_bodies(circuits),
        *_steps_to_nothing(circuits, sequence),
    )


def nearest(asked: str, known: Sequence[str]) -> str:
    """Say which known name is nearest, or which names there are.

    >>> nearest("bor_mm", ["bore_mm", "stroke_mm"])
    'the nearest known is "bore_mm"'
    >>> nearest("zzz", ["front", "rear"])
    'known here: front, rear'
    """
    close = get_close_matches(asked, known, n=1)
    if close:
        return f'the nearest known is "{close[0]}"'
    return "known here: " + (", ".join(known) or "none")


def _repeated_ids(circuit: Circuit) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, part in enumerate(circuit.parts):
        if part.id in seen:
            yield Fault(
                ("part", index, "id"),
                f'the id "{part.id}" is used twice',
                "each part of a circuit needs an id of its own",
            )
        seen.add(part.id)
    yield from _repeated_screws(circuit)


def _repeated_screws(circuit: Circuit) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, part in enumerate(circuit.parts):
        for number, screw in enumerate(part.screws):
            if screw.id in seen:
                yield Fault(
                    ("part", index, "screw", number, "id"),
                    f'the screw id "{screw.id}" is used twice',
                    "each screw of a circuit needs an id of its own",
                )
            seen.add(screw.id)


def _lines_to_nothing(circuit: Circuit) -> Iterator[Fault]:
    ids = [part.id for part in circuit.parts]
    for index, line in enumerate(circuit.lines):
        for key, name in (("from", line.start), ("to", line.end)):
            if name not in ids:
                yield Fault(
                    ("line", index, key),
                    f'no part of this circuit is called "{name}"',
                    nearest(name, ids),
                )
        if line.start == line.end:
            yield Fault(
                ("line", index, "to"),
                "the line ends where it starts",
                "a line joins two different parts",
            )


def _kinds_missing(circuit: Circuit) -> Iterator[Fault]:
    reservoirs = circuit.of_kind(PartKind.RESERVOIR)
    if not reservoirs:
        yield Fault((), "it has no reservoir", "a circuit has one reservoir")
    if len(reservoirs) > 1:
        names = " and ".join(f'"{part.id}"' for part in reservoirs)
        yield Fault(
            (),
            f"it has {len(reservoirs)} reservoirs, {names}",
            "a circuit with reservoirs of its own further on is not reckoned",
            beyond=True,
        )
    if not circuit.of_kind(PartKind.MASTER):
        yield Fault((), "it has no master cylinder", "a circuit has one master cylinder")


def _no_screw(circuit: Circuit) -> Iterator[Fault]:
    if not screws_in(circuit):
        yield Fault((), "it has no bleed screw", "give at least one part a [[circuit.part.screw]]")


def _past_dead_end(circuit: Circuit) -> Iterator[Fault]:
    dead = {part.id for part in circuit.of_kind(PartKind.DEAD_END)}
    for index, line in enumerate(circuit.lines):
        if line.start in dead:
            yield Fault(
                ("line", index, "from"),
                f'"{line.start}" is a dead end, and a line leads out of it',
                'if fluid passes, its kind is "joint" or "splitter"',
            )


def _not_a_tree(circuit: Circuit) -> Iterator[Fault]:
    (reservoir,) = circuit.of_kind(PartKind.RESERVOIR)
    reached = _reached_from(circuit, reservoir.id)
    ring = _ring(circuit)
    into_reservoir = [i for i, line in enumerate(circuit.lines) if line.end == reservoir.id]
    if into_reservoir and not ring:
        for index in into_reservoir:
            yield Fault(
                ("line", index, "to"),
                "a line leads into the reservoir",
                "lines run from the reservoir outwards: swap from and to",
            )
        return
    if ring:
        yield Fault(
            ("line", circuit.lines.index(ring[-1])),
            "the lines run in a ring: " + " > ".join([ring[0].start, *(line.end for line in ring)]),
            "a circuit is a tree, and a hydraulic loop is not reckoned",
            beyond=True,
        )
        return
    yield from _fed_twice(circuit)
    fed = feeding_line(circuit)
    for index, part in enumerate(circuit.parts):
        if part.id not in reached and part.id not in fed:
            yield Fault(
                ("part", index),
                "no line leads to it",
                "join it by a [[circuit.line]], or take it out",
            )


def _fed_twice(circuit: Circuit) -> Iterator[Fault]:
    pushed = Counter[str]()
    for master in circuit.of_kind(PartKind.MASTER):
        pushed.update(_reached_from(circuit, master.id) - {master.id})
    first: dict[str, Line] = {}
    for index, line in enumerate(circuit.lines):
        if line.end not in first:
            first[line.end] = line
            continue
        found = f'"{line.end}" is fed twice, from "{first[line.end].start}" and "{line.start}"'
        if pushed[line.end] > 1:
            yield Fault(
                ("line", index, "to"),
                f"{found}, so two master cylinders push the same pistons",
                "that is not reckoned",
                beyond=True,
            )
        else:
            yield Fault(
                ("line", index, "to"),
                found,
                "one line feeds a part; if the machine really has both, it is beyond this tool",
            )


def _reached_from(circuit: Circuit, start: str) -> frozenset[str]:
    reached = {start}
    edge = [start]
    while edge:
        here = edge.pop()
        ahead = {line.end for line in circuit.lines if line.start == here} - reached
        reached |= ahead
        edge.extend(ahead)
    return frozenset(reached)


def _ring(circuit: Circuit) -> tuple[Line, ...]:
    """Return the lines of one ring in their order, or nothing: strip dead leaves, then walk."""
    lines = list(circuit.lines)
    while True:
        starts = {line.start for line in lines}
        kept = [line for line in lines if line.end in starts]
        if len(kept) == len(lines):
            break
        lines = kept
    if not lines:
        return ()
    ahead = {line.start: line for line in reversed(lines)}
    walk = [lines[0]]
    while walk[-1].end not in {line.start for line in walk}:
        walk.append(ahead[walk[-1].end])
    first = next(i for i, line in enumerate(walk) if line.start == walk[-1].end)
    return tuple(walk[first:])


def _masters_astray(circuit: Circuit) -> Iterator[Fault]:
    ways = {part.id: route(circuit, part.id) for part in circuit.parts}
    masters = circuit.of_kind(PartKind.MASTER)
    for index, part in enumerate(circuit.parts):
        passed = [before.id for before in ways[part.id] if before.kind is PartKind.MASTER]
        if part.kind in WHEEL_END and masters and not passed:
            yield Fault(
                ("part", index),
                "fluid reaches it past the master cylinder",
                "the reservoir leads to the master cylinder, and that to the rest",
            )
        if part.kind is PartKind.MASTER and len(passed) > 1:
            yield Fault(
                ("part", index),
                f'it pushes the same pistons as master cylinder "{passed[0]}"',
                "two master cylinders on the same pistons are not reckoned",
                beyond=True,
            )
    in_series = any(sum(part.kind is PartKind.MASTER for part in way) > 1 for way in ways.values())
    if len(masters) > 1 and not in_series:
        yield Fault(
            (),
            f"it has {len(masters)} master cylinders side by side",
            "give each master cylinder a [[circuit]] of its own",
        )


def _stuck_fluid(circuit: Circuit) -> Iterator[Fault]:
    moved = {before.id for part, _ in screws_in(circuit) for before in route(circuit, part.id)}
    for index, part in enumerate(circuit.parts):
        if part.kind in WHEEL_END and part.id not in moved:
            yield Fault(
                ("part", index),
                "no bleed screw at it or after it can move its fluid",
                "give it a [[circuit.part.screw]]",
            )


def _repeated_circuits(circuits: Sequence[Circuit]) -> Iterator[Fault]:
    count = Counter[str]()
    for index, circuit in enumerate(circuits):
        count[circuit.name] += 1
        if count[circuit.name] > 1:
            yield Fault(
                ("circuit", index, "name"),
                f'the name "{circuit.name}" is used twice',
                "each circuit needs a name of its own",
            )


def _contradicting_bodies(circuits: Sequence[Circuit]) -> Iterator[Fault]:
    wheels: dict[str, tuple[str, str]] = {}
    for index, circuit in enumerate(circuits):
        for number, part in enumerate(circuit.parts):
            if part.body is None or part.wheel is None:
                continue
            wheel, where = wheels.setdefault(part.body, (part.wheel, circuit.name))
            if wheel != part.wheel:
                yield Fault(
                    ("circuit", index, "part", number, "wheel"),
                    f'body "{part.body}" is at the {part.wheel} wheel here and at the '
                    f'{wheel} wheel in circuit "{where}"',
                    "one body sits at one wheel",
                )


def _steps_to_nothing(
    circuits: Sequence[Circuit], sequence: Sequence[SequenceStep]
) -> Iterator[Fault]:
    screws = {circuit.name: [screw.id for _, screw in screws_in(circuit)] for circuit in circuits}
    for index, step in enumerate(sequence):
        if step.circuit not in screws:
            yield Fault(
                ("sequence", index, "circuit"),
                f'no circuit is called "{step.circuit}"',
                nearest(step.circuit, list(screws)),
            )
        elif step.screw not in screws[step.circuit]:
            yield Fault(
                ("sequence", index, "screw"),
                f'no bleed screw of circuit "{step.circuit}" is called "{step.screw}"',
                nearest(step.screw, screws[step.circuit]),
            )
