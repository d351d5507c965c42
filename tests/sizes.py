# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lengths of modules and functions, counted without docstrings for functions."""

import ast
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median


def code_files(*folders: Path) -> list[Path]:
    """Every Python file below the folders."""
    return sorted(path for folder in folders for path in folder.rglob("*.py"))


def line_count(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def function_lengths(path: Path) -> Iterator[tuple[str, int]]:
    """Name and lines of each function, its docstring left out."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        lines = (node.end_lineno or node.lineno) - node.lineno + 1
        first = node.body[0]
        if ast.get_docstring(node, clean=False) is not None:
            lines -= (first.end_lineno or first.lineno) - first.lineno + 1
        yield f"{path.stem}.{node.name}", lines


def row(kind: str, named: Sequence[tuple[str, int]]) -> str:
    """Median, 90th percentile and the largest by name."""
    lengths = sorted(length for _, length in named)
    high = lengths[int(0.9 * (len(lengths) - 1))]
    name, largest = max(named, key=lambda pair: pair[1])
    spread = f"median {median(lengths):5.0f}  90 % {high:5}  most {largest:5} ({name})"
    return f"{kind:10} {len(lengths):5}  {spread}"


def table(root: Path) -> list[str]:
    """The lines to print for the whole project."""
    source, tests = code_files(root / "src"), code_files(root / "tests")
    modules = [(path.stem, line_count(path)) for path in source if path.name != "__init__.py"]
    functions = [pair for path in source for pair in function_lengths(path)]
    ratio = sum(map(line_count, tests)) / sum(map(line_count, source))
    return [
        row("modules", modules),
        row("functions", functions),
        f"lines of tests per line of code: {ratio:.2f}",
    ]
