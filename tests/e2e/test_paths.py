# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whole paths through the app, as somebody at the bench walks them."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from e2e.app import Server
from e2e.conftest import Visits

TOML = Path(__file__).resolve().parents[1] / "data" / "workshop_1.toml"
MB = 1_000_000


def bring_in(page: Page, name: str, text: bytes) -> None:
    page.get_by_label("Bring in a circuit file").set_input_files(
        {"name": name, "mimeType": "text/plain", "buffer": text}
    )


def own_machine(page: Page) -> str:
    """Bring the example machine in and answer its address."""
    bring_in(page, "mine.toml", TOML.read_bytes())
    page.wait_for_url(re.compile(r"#/m/"))
    page.get_by_role("heading", level=2).first.wait_for()
    return page.url.split("#")[1]


def describe_by_class(page: Page) -> None:
    """The shortest talk: the kind, then leave the rest open."""
    page.get_by_role("link", name="Start with your machine").or_(
        page.get_by_role("link", name="Describe another machine")
    ).first.click()
    page.get_by_role("button", name=re.compile("Naked")).click()
    expect(page.get_by_role("heading", level=1, name="What do you call it?")).to_be_visible()
    page.get_by_role("button", name="Enough: leave the rest open").click()
    page.get_by_role("button", name="Keep this machine").click()


def test_a_machine_known_by_its_class_gets_a_plan_to_print(
    visits: Visits, size: tuple[int, int]
) -> None:
    page = visits(size).open()
    describe_by_class(page)
    page.get_by_role("link", name="Plan the front flush").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Flush the front circuit")
    expect(page.get_by_text(re.compile("stays old")).first).to_be_visible()
    address = page.url
    page.goto(f"{address}/print")
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_enabled()
    expect(page.get_by_role("img", name="box to tick").first).to_be_visible()


def test_a_file_goes_in_and_comes_out_the_same(visits: Visits, size: tuple[int, int]) -> None:
    page = visits(size).open()
    own_machine(page)
    with page.expect_download() as got:
        page.get_by_role("link", name=re.compile("file", re.IGNORECASE)).first.click()
    assert Path(got.value.path()).read_bytes() == TOML.read_bytes()


def test_every_fault_of_a_file_is_shown_by_its_line(visits: Visits, size: tuple[int, int]) -> None:
    text = TOML.read_text(encoding="utf-8")
    lines = text.splitlines()
    faulty = [at for at, line in enumerate(lines) if line.strip().startswith(("class", "bore_mm"))]
    for at in faulty:
        lines[at] = f"{lines[at].split('=')[0]}= -4"
    page = visits(size).open()
    bring_in(page, "faulty.toml", "\n".join(lines).encode())
    shown = page.get_by_role("alert")
    expect(shown).to_contain_text(f"{len(faulty)} things to put right")
    for at in faulty:
        expect(shown.get_by_role("button", name=f"line {at + 1}", exact=True)).to_be_visible()
    expect(page.get_by_label("What stands in faulty.toml")).to_have_value("\n".join(lines))


def test_a_file_of_five_megabytes_is_refused_in_words(
    visits: Visits, size: tuple[int, int]
) -> None:
    page = visits(size).open()
    bring_in(page, "large.toml", b"#" * 5_000_000)
    expect(page.get_by_text("large.toml has 5.0 MB, and at most 1 MB is taken")).to_be_visible()


def test_a_link_to_a_removed_machine_says_so(visits: Visits, size: tuple[int, int]) -> None:
    someone = visits(size)
    page = someone.open()
    route = own_machine(page)
    page.get_by_role("button", name="Remove this machine").click()
    page.get_by_role("button", name=re.compile("^Remove .* now$")).click()
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    late = someone.open(f"#{route}")
    expect(late.get_by_role("heading", level=1)).to_have_text("This machine is not here any more")


def edit_file(page: Page, remark: str) -> str:
    """Write a remark at the end of the machine's file without saving it."""
    box = page.get_by_label(re.compile("^The file of "))
    if not box.is_visible():
        page.get_by_text("Change the file by hand").click()
    text = f"{box.input_value()}# {remark}\n"
    box.fill(text)
    return text


def test_who_saves_second_meets_a_named_conflict_and_loses_nothing(
    visits: Visits, size: tuple[int, int]
) -> None:
    first = visits(size).open()
    route = own_machine(first)
    second = visits(size).open(f"#{route}")
    edit_file(first, "the first was here")
    edit_file(second, "the second was here")
    first.get_by_role("button", name="Save the file").click()
    expect(first.get_by_text("Saved", exact=True)).to_be_visible()
    second.get_by_role("button", name="Save the file").click()
    expect(second.get_by_text("Somebody saved this machine first")).to_be_visible()
    apart = second.get_by_role("list", name="Where the two texts differ")
    expect(apart).to_contain_text("the first was here")
    expect(apart).to_contain_text("the second was here")
    box = second.get_by_label(re.compile("^The file of "))
    expect(box).to_have_value(re.compile("the second was here"))
    second.get_by_role("button", name="Save yours over theirs").click()
    expect(second.get_by_text("Saved", exact=True)).to_be_visible()
    second.reload()
    second.get_by_text("Change the file by hand").click()
    expect(second.get_by_label(re.compile("^The file of "))).to_have_value(
        re.compile("the second was here")
    )


@pytest.mark.parametrize("is_reloaded", [False, True], ids=["kept open", "reloaded"])
def test_an_edit_outlives_a_stopped_server(
    visits: Visits, size: tuple[int, int], server: Server, is_reloaded: bool
) -> None:
    page = visits(size).open()
    own_machine(page)
    written = edit_file(page, "written while it was away")
    server.stop()
    try:
        page.get_by_role("button", name="Save the file").click()
        expect(page.get_by_text("The server is not reachable").first).to_be_visible()
        expect(page.get_by_label(re.compile("^The file of "))).to_have_value(written)
    finally:
        server.start()
    if is_reloaded:
        page.reload()
        expect(page.get_by_text("was not saved yet")).to_be_visible()
    page.get_by_role("button", name="Save the file").click()
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    page.reload()
    page.get_by_text("Change the file by hand").click()
    expect(page.get_by_label(re.compile("^The file of "))).to_have_value(written)
