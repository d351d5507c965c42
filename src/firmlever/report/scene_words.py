# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A drawing told in sentences, for those who hear it, from the reservoir outwards."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from firmlever.report.scene_resting import has_resting_air, peaks
from firmlever.report.scene_tree import Node, children

_LEVEL_MM = 5.0
_COUNTS = {2: "two", 3: "three", 4: "four"}


def words_of(nodes: Sequence[Node]) -> tuple[str, ...]:
    """Tell a circuit part by part: how high each stands and which way its line goes."""
    return tuple(sentence for index in range(len(nodes)) for sentence in _sentences(nodes, index))


def _sentences(nodes: Sequence[Node], index: int) -> Iterator[str]:
    node = nodes[index]
    if node.parent is None:
        highest = max(one.height_mm for one in nodes)
        stands = "stands highest, at" if node.height_mm == highest else "stands at"
        yield f"The {node.part.id} {stands} {_metres(node)}."
    else:
        yield _line(nodes, index)
    if has_resting_air(nodes, index):
        yield f"Air can rest in the {node.part.id}."
    if node.part.screws:
        yield _screws(node)
    onward = [nodes[child].part.id for child in children(nodes, index)]
    if len(onward) > 1:
        count = _counted(len(onward))
        yield f"From the {node.part.id} {count} lines lead on: to the {_listed(onward)}."


def _line(nodes: Sequence[Node], index: int) -> str:
    node = nodes[index]
    start = nodes[node.parent or 0]
    run = (start.height_mm, *node.turns_mm, node.height_mm)
    resting = peaks(nodes, index)
    steps: list[str] = []
    for before, here in pairwise(run[:-1]):
        verb = "rises" if here > before else "falls"
        air = ", where air can rest," if here in resting else ""
        steps.append(f"{verb} to {here / 1000:.2f} m{air}")
    fall = run[-2] - run[-1]
    verb = "runs level" if abs(fall) <= _LEVEL_MM else "falls" if fall > 0 else "rises"
    steps.append(f"{verb} to the {node.part.id} at {_metres(node)}")
    return f"From the {start.part.id} a line {' and '.join(steps)}."


def _screws(node: Node) -> str:
    count = len(node.part.screws)
    screws = "a bleed screw" if count == 1 else f"{_counted(count)} bleed screws"
    return f"The {node.part.id} has {screws}."


def _counted(count: int) -> str:
    return _COUNTS.get(count, str(count))


def _metres(node: Node) -> str:
    text = f"{node.height_mm / 1000:.2f} m"
    return text if node.known else f"about {text}, the usual height"


def _listed(names: Sequence[str]) -> str:
    return f"{', the '.join(names[:-1])} and the {names[-1]}"
