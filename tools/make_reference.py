# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Write the tables of the reference pages from the lists the program itself uses.

Only what stands between a pair of marks in a page is replaced; the rest is written by hand.
Run: python tools/make_reference.py
"""

import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from pathlib import Path

from firmlever.domain.circuit import PartKind
from firmlever.domain.quantities import SPECS
from firmlever.domain.quantity import QuantitySpec
from firmlever.domain.tables import Prior
from firmlever.store.tables import CsvTables

REFERENCE = Path(__file__).resolve().parent.parent / "docs" / "reference"


def quantities_table() -> str:
    """Return the table of everything a circuit file may hold as a quantity."""
    groups: dict[tuple[object, ...], list[QuantitySpec]] = {}
    for spec in SPECS:
        groups.setdefault((spec.key, spec.low, spec.high, spec.words), []).append(spec)
    return _table(
        ("key", "of", "unit", "bounds", "meaning", "how to find out"),
        (
            (
                f"`{specs[0].key}`",
                _owners([spec.kind for spec in specs]),
                specs[0].unit or "-",
                f"{specs[0].low:g} to {specs[0].high:g}",
                specs[0].words,
                specs[0].measure,
            )
            for specs in groups.values()
        ),
    )


def priors_tables(priors: Iterable[Prior]) -> str:
    """Return a table for each kind of thing that priors exist for."""
    by_kind = groupby(sorted(priors, key=lambda row: _kind_rank(row.kind)), lambda row: row.kind)
    return "\n\n".join(f"### {kind}\n\n{_priors_table(list(rows))}" for kind, rows in by_kind)


def page_texts() -> Mapping[Path, str]:
    """Return what each page with generated tables should hold."""
    tables = {
        "circuit-file.md": ("quantities", quantities_table()),
        "priors.md": ("priors", priors_tables(CsvTables().priors())),
    }
    return {
        (page := REFERENCE / name): _between_marks(page.read_text("utf-8"), mark, text)
        for name, (mark, text) in tables.items()
    }


def main() -> int:
    """Write every page anew."""
    for page, text in page_texts().items():
        page.write_text(text, encoding="utf-8")
    return 0


def _priors_table(rows: Sequence[Prior]) -> str:
    ordered = sorted(rows, key=lambda row: row.key)
    return _table(
        ("quantity", "circuit", "classes", "5 to 95 %", "unit", "basis", "source", "rests on"),
        (
            (
                f"`{row.key}`",
                row.family,
                ", ".join(row.classes) or "all others",
                f"{row.low:g} to {row.high:g}",
                row.unit or "-",
                row.basis.value,
                row.source,
                row.note or "-",
            )
            for row in ordered
        ),
    )


def _owners(kinds: Sequence[str]) -> str:
    every_part = [kind.value for kind in PartKind]
    others = [kind for kind in kinds if kind not in every_part]
    if set(every_part) <= set(kinds):
        return ", ".join(("every part", *others))
    return ", ".join(kinds)


def _kind_rank(kind: str) -> int:
    order = (*(part.value for part in PartKind), "line", "screw", "work", "lever test", "air")
    return order.index(kind)


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)


def _between_marks(page: str, mark: str, text: str) -> str:
    pattern = re.compile(rf"(<!-- {mark}: [^>]*-->\n).*?(\n<!-- end of {mark} -->)", re.DOTALL)
    if len(pattern.findall(page)) != 1:
        raise LookupError(f"the page has no pair of marks called {mark}")
    return pattern.sub(lambda found: f"{found[1]}\n{text}\n{found[2]}", page)


if __name__ == "__main__":
    sys.exit(main())
