# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The pictures of the screens: those that the script takes are there, shown, and small."""

import re
import tomllib
from pathlib import Path

import pytest

from tools.make_screenshots import DOCS, SIZES

PAGE = Path("docs", "tutorial", "the-app.md")
# what all of them together may weigh in the repository (the limit was given with the task)
MOST_BYTES = 1_500_000
PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"


def pictures(root: Path) -> dict[str, bytes]:
    folder = root / "docs" / "pictures" / "screens"
    return {path.stem: path.read_bytes() for path in folder.glob("*.png")}


def test_the_script_takes_the_pictures_that_are_there_and_the_page_shows_each_once(
    root: Path,
) -> None:
    shown = re.findall(r"screens/([\w-]+)\.png", (root / PAGE).read_text(encoding="utf-8"))
    assert sorted(pictures(root)) == sorted(DOCS) == sorted(shown)


def test_all_pictures_together_are_small(root: Path) -> None:
    assert sum(map(len, pictures(root).values())) <= MOST_BYTES


@pytest.mark.parametrize("name", DOCS)
def test_a_picture_is_as_large_as_its_name_says(root: Path, name: str) -> None:
    # derived: a PNG file starts with its signature and a header of width and height
    content = pictures(root)[name]
    assert content[:8] == PNG_SIGNATURE
    size = int.from_bytes(content[16:20]), int.from_bytes(content[20:24])
    assert size == SIZES[name.rsplit("-", 2)[1]]


def test_all_that_an_archive_of_the_sources_is_to_hold_is_there(root: Path) -> None:
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    build = project["tool"]["hatch"]["build"]
    named = [*build["targets"]["sdist"]["include"], f"/{build['hooks']['custom']['path']}"]
    assert [name for name in named if not (root / name[1:]).exists()] == []
    # the tests of an archive import these
    assert {"/src", "/tests", "/benchmarks", "/tools", "/run.py"} <= set(named)
