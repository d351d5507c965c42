# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""``firmlever level`` from the command line to the exit code, with real files and tables."""

import json
from importlib.resources import files
from io import StringIO
from pathlib import Path

import jsonschema
import pytest

from firmlever.cli.main import run
from firmlever.cli.screen import Screen

HEAD = "on,level_ml,topped_up_ml,km,pad_mm\n"
FIRST = "2025-10-01,26,,1200,4.9\n"
WORN = "2026-04-01,24.2,,3300,4.1\n"
GONE = "2026-04-01,15,,3300,4.8\n"
ON = ("--circuit", "rear", "--on", "2026-05-01")


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    demo = files("firmlever").joinpath("data", "demo", "skerry.toml").read_text("utf-8")
    (tmp_path / "skerry.toml").write_text(demo, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def level(bench: Path, table: str, *words: str) -> tuple[int, str, str]:
    (bench / "looks.csv").write_text(table, encoding="utf-8")
    out, err = StringIO(), StringIO()
    code = run(("level", "skerry.toml", "looks.csv", *words), Screen(out, err))
    return code, out.getvalue(), err.getvalue()


def test_wear_ends_with_0_and_a_leak_with_3(bench: Path) -> None:
    code, page, err = level(bench, HEAD + FIRST + WORN, *ON)
    assert (code, err) == (0, "")
    assert "Wear explains it" in page
    code, page, _ = level(bench, HEAD + FIRST + GONE, *ON)
    assert code == 3
    assert "Needs attention\n  ! A leak is likely: find it before the machine moves" in page
    assert "in 1000 km" in page


def test_a_first_look_says_what_comes_next(bench: Path) -> None:
    code, page, _ = level(bench, HEAD + FIRST, *ON)
    assert code == 0
    assert "A first look is kept." in page
    assert "What comes next" in page
    assert "Where it went" not in page
    assert "At MIN" not in page


def test_american_words(bench: Path) -> None:
    _, page, _ = level(bench, HEAD + FIRST + WORN, *ON, "--words", "us")
    assert "thickness the rotor loses" in " ".join(page.split())


def test_the_document_keeps_to_its_schema_and_its_bytes(bench: Path) -> None:
    out = StringIO()
    assert run(("schema", "level"), Screen(out, out)) == 0
    schema = json.loads(out.getvalue())
    for table in (HEAD + FIRST, HEAD + FIRST + WORN, HEAD + FIRST + GONE):
        _, document, _ = level(bench, table, *ON, "--json")
        jsonschema.validate(json.loads(document), schema)
        assert level(bench, table, *ON, "--json")[1] == document
    assert json.loads(document)["verdict"] == "more has gone than wear explains"


@pytest.mark.parametrize(
    ("table", "words", "complaint"),
    [
        (
            HEAD + FIRST + FIRST,
            ON,
            (
                "looks.csv: 1 thing to put right before it can be judged\n"
                "  line 3, on: 2025-10-01 again; one look a day: keep the better one\n"
            ),
        ),
        (
            HEAD + FIRST,
            (*ON, "--gauge", "thumb"),
            "--gauge cannot be “thumb”; give a number, as 0.95\n",
        ),
        (
            HEAD + FIRST,
            (*ON, "--ruler", "50"),
            "--ruler cannot be 50; it is in mm, 0.01 to 5\n",
        ),
        (
            HEAD + FIRST,
            ("--on", "2026-05-01"),
            (
                "--circuit cannot be left out; Skerry 1100 has front, rear, clutch: "
                "name one of them\n"
            ),
        ),
    ],
)
def test_a_complaint_says_what_would_do(
    bench: Path, table: str, words: tuple[str, ...], complaint: str
) -> None:
    assert level(bench, table, *words) == (2, "", complaint)


def test_a_missing_table_is_named(bench: Path) -> None:
    out, err = StringIO(), StringIO()
    assert run(("level", "skerry.toml", "lost.csv", *ON), Screen(out, err)) == 2
    assert err.getvalue() == "lost.csv: there is no such file; check the name and the folder\n"
