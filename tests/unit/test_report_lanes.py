# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.report.lanes import draw_lanes

NODE = "●"
OPEN = {  # row and column steps a letter leads to
    "│": {(-1, 0), (1, 0)},
    "─": {(0, -1), (0, 1)},
    "┐": {(0, -1), (1, 0)},
    "┌": {(0, 1), (1, 0)},
    "┘": {(0, -1), (-1, 0)},
    "└": {(0, 1), (-1, 0)},
    "┬": {(0, -1), (0, 1), (1, 0)},
    "┴": {(0, -1), (0, 1), (-1, 0)},
    NODE: {(-1, 0), (1, 0), (0, -1), (0, 1)},
}
Edge = tuple[int, int]


@st.composite
def trees(draw: st.DrawFn) -> tuple[int, list[Edge]]:
    """A tree over rows in any order of height, with some rows left empty."""
    count = draw(st.integers(1, 14))
    rows = draw(st.permutations(range(count + draw(st.integers(0, 4)))))[:count]
    parents = [draw(st.integers(0, child - 1)) for child in range(1, count)]
    edges = [(rows[parent], rows[child]) for child, parent in enumerate(parents, 1)]
    return rows[0], edges


def read_back(lines: tuple[str, ...]) -> set[frozenset[int]]:
    """Follow every stroke by eye: which rows hang together without a node between."""
    letters = {(r, c): letter for r, line in enumerate(lines) for c, letter in enumerate(line)}

    def next_to(cell: tuple[int, int]) -> set[tuple[int, int]]:
        found = set()
        for row, column in OPEN.get(letters[cell], ()):
            other = (cell[0] + row, cell[1] + column)
            if letters.get(other) == "│" and row == 0:  # a line crossing behind another
                other = (other[0], other[1] + column)
            if (-row, -column) in OPEN.get(letters.get(other, " "), ()):
                found.add(other)
        return found

    groups = set()
    for cell, letter in letters.items():
        if letter != NODE:
            continue
        for start in next_to(cell):
            seen, edge = {cell, start}, [start]
            while edge:
                here = edge.pop()
                ahead = set() if letters[here] == NODE else next_to(here) - seen
                seen |= ahead
                edge += ahead
            groups.add(frozenset(row for row, column in seen if letters[row, column] == NODE))
    return groups


@given(trees())
def test_the_tree_can_be_read_back_from_the_drawing(tree: tuple[int, list[Edge]]) -> None:
    root, edges = tree
    nodes = {root, *(child for _, child in edges)}
    lines = draw_lanes(max(nodes) + 1, edges, dict.fromkeys(nodes, NODE))
    groups = read_back(lines)
    for edge in edges:
        assert any(set(edge) <= group for group in groups), lines
    parent_of = {child: parent for parent, child in edges}
    for group in groups:
        tops = [row for row in group if parent_of.get(row) not in group]
        assert len(tops) == 1, lines
        assert all(parent_of[row] == tops[0] for row in group if row != tops[0]), lines


def test_strangers_never_stand_on_each_other() -> None:
    assert draw_lanes(4, [(0, 1), (0, 2), (2, 3)], dict.fromkeys(range(4), NODE)) == (
        "●─┐",
        "● │",
        "  ●",
        "  ●",
    )


@pytest.mark.parametrize("seed", range(3))
def test_a_big_tree_is_drawn_whole(seed: int) -> None:
    order = random.Random(seed)
    rows = list(range(120))
    order.shuffle(rows)
    edges = [(rows[order.randrange(child)], rows[child]) for child in range(1, 120)]
    lines = draw_lanes(120, edges, dict.fromkeys(rows, NODE))
    assert [line.count(NODE) for line in lines] == [1] * 120
