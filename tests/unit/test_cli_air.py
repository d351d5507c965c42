# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""``firmlever air`` from the command line to the exit code, with real files and tables."""

import json
from importlib.resources import files
from io import StringIO
from pathlib import Path

import jsonschema
import pytest

from firmlever.cli.main import run
from firmlever.cli.screen import Screen
from snapshot import same_as_kept

FRONT = ("--circuit", "front", "--on", "2026-05-01")


@pytest.fixture(autouse=True)
def _bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    demo = files("firmlever").joinpath("data", "demo", "skerry.toml").read_text("utf-8")
    (tmp_path / "skerry.toml").write_text(demo, encoding="utf-8")
    monkeypatch.chdir(tmp_path)


def air(*words: str) -> tuple[int, str, str]:
    out, err = StringIO(), StringIO()
    code = run(("air", "skerry.toml", *words), Screen(out, err))
    return code, out.getvalue(), err.getvalue()


def test_the_page_of_the_demo_tourer() -> None:
    code, page, err = air(*FRONT)
    assert (code, err) == (0, "")
    same_as_kept("air.txt", page)


def test_the_document_of_the_demo_tourer_fits_its_schema() -> None:
    out = StringIO()
    assert run(("schema", "air"), Screen(out, out)) == 0
    code, document, _ = air(*FRONT, "--json")
    assert code == 0
    jsonschema.validate(json.loads(document), json.loads(out.getvalue()))
    assert air(*FRONT, "--json")[1] == document
    same_as_kept("air.json", document)


def test_a_posture_is_said_and_followed() -> None:
    words = ("--bars", "-20", "--lean", "10", "--lift", "master=80", "--screw-up", "left caliper")
    _, page, _ = air(*FRONT, *words)
    assert "Bars turned 20° to the right, leaned 10° to the left, master lifted 80" in " ".join(
        page.split()
    )
    assert "left caliper off, its screw on top" in " ".join(page.split())
    _, upright, _ = air(*FRONT)
    assert "master > abs unit at 300 mm" in upright
    _, lifted, _ = air(*FRONT, "--lift", "master=200", "--lift", "pot=200")
    assert "Peak of a line" not in lifted


def test_american_words() -> None:
    _, page, _ = air("--circuit", "clutch", "--on", "2026-05-01", "--words", "us")
    assert "a spacer of the rotor's thickness" in " ".join(page.split())


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (
            ("--lift", "master"),
            "--lift cannot be master; it is a part and millimetres, as master=150\n",
        ),
        (("--lift", "master=high"), "--lift cannot be “high”; give a number, as 0.95\n"),
        (("--bars", "60"), "--bars cannot be 60; it is in °, -45 to 45\n"),
    ],
)
def test_a_complaint_says_what_would_do(words: tuple[str, ...], complaint: str) -> None:
    assert air(*FRONT, *words) == (2, "", complaint)
