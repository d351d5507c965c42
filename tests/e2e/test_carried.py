# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A job carried out as one file, worked from there, and brought home: every event once."""

import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from e2e.app import PHONE, Server, Watch
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import (
    BAR,
    a_set_of_five,
    kinds_kept,
    press_bar,
    start_a_job,
    to_the_first_screw,
)
from e2e.test_screens import faults_of

TAKE = "Take the taps home"
# our own limits for the page with its job: as it may travel, and as it lies on the phone
MOST_COMPRESSED_KB, MOST_KB = 100, 300


class Away:
    """A browser elsewhere: it has a file, and no network to ask."""

    def __init__(self, browser: Browser, file: Path) -> None:
        self.file = file
        width, height = PHONE
        self.context: BrowserContext = browser.new_context(
            viewport={"width": width, "height": height}, offline=True, accept_downloads=True
        )
        self.context.set_default_timeout(20_000)
        self.watch = Watch("file://")

    def open(self) -> Page:
        page = self.context.new_page()
        self.watch.follow(page)
        page.goto(self.file.as_uri())
        page.get_by_role("heading", level=1).wait_for()
        return page


@pytest.fixture
def away(browser: Browser, tmp_path: Path) -> Iterator[Away]:
    """Whoever carries a page; it never complained and never asked anybody for anything."""
    one = Away(browser, tmp_path / "page.html")
    yield one
    one.context.close()
    assert one.watch.complaints == []
    assert one.watch.elsewhere == []


def machine_named(server: Server, name: str) -> str:
    machines = ask(server.address, "/machines")["machines"]
    assert isinstance(machines, list)
    return str(next(one["id"] for one in machines if one["name"].startswith(name)))


def take_page(page: Page, file: Path) -> str:
    """Take the job out of the app through the browser; give the name it comes under."""
    page.get_by_role("button", name="Cautions, more").click()
    page.get_by_text("Carry the job out of reach").click()
    with page.expect_download() as coming:
        page.get_by_role("link", name="Take the job as one page").click()
    coming.value.save_as(file)
    return coming.value.suggested_filename


def taps_listed(page: Page) -> int:
    """How many taps count; one that was taken back does not, nor does its undo."""
    found = re.search(r"\d+", page.get_by_text("Last taps").inner_text())
    assert found is not None
    return int(found[0])


def expect_to_take(page: Page, taps: int) -> None:
    expect(page.get_by_role("button", name=TAKE)).to_have_text(f"{TAKE} ({taps})")


def test_a_carried_page_comes_home_with_every_event_once(
    visits: Visits, server: Server, away: Away, tmp_path: Path
) -> None:
    machine = machine_named(server, "Skerry")
    at_home = visits(PHONE).open(f"#/m/{machine}/bench/front")
    job = start_a_job(at_home)
    name = take_page(at_home, away.file)
    assert re.fullmatch(r"job-skerry-1100-front-\d{4}-\d\d-\d\d\.html", name)
    assert kinds_kept(server, job) == ["started"]

    page = away.open()
    expect(page.get_by_text("Nothing is sent while you work.")).to_be_visible()
    page.get_by_label("Name").fill("Cy")
    press_bar(page, "Go on")
    press_bar(page, "Go on from here")
    to_the_first_screw(page)
    a_set_of_five(page)
    press_bar(page, "in the cup")
    page.get_by_role("button", name="dark here").click()
    page.get_by_role("button", name="Undo: dark here").click()
    expect(page.get_by_role("button", name="Undo: dark here")).to_have_count(0)
    tapped = taps_listed(page) + len(["the mark", "its undo"])
    expect_to_take(page, tapped)
    shown = page.locator("main").inner_text()

    page.reload()
    expect(page.get_by_text(re.compile(r"^\s*of 36"))).to_be_visible()
    expect_to_take(page, tapped)
    page.close()
    page = away.open()
    expect_to_take(page, tapped)
    assert page.locator("main").inner_text() == shown

    with page.expect_download() as coming:
        page.get_by_role("button", name=TAKE).click()
    expect(page.get_by_text(f"was saved with {tapped} taps")).to_be_visible()
    home_file = tmp_path / coming.value.suggested_filename
    coming.value.save_as(home_file)
    carried = json.loads(home_file.read_text(encoding="utf-8"))["events"]
    assert len({event["id"] for event in carried}) == len(carried) == tapped
    assert {event["who"] for event in carried} == {"Cy"}

    at_home.get_by_label("Bring a carried page home").set_input_files(home_file)
    expect(at_home.get_by_text(f"Skerry 1100 · front: {tapped} new taps")).to_be_visible()
    kept = ask(server.address, f"/jobs/{job}/events")["events"]
    assert isinstance(kept, list)
    assert kept[1:] == carried
    assert kinds_kept(server, job)[-4:] == ["set_done", "caught", "mark", "undone"]

    at_home.get_by_label("Bring a carried page home").set_input_files(home_file)
    expect(at_home.get_by_text(f"nothing new, all {tapped} were here already")).to_be_visible()
    assert ask(server.address, f"/jobs/{job}/events")["events"] == kept


def test_taps_of_another_job_are_shown_the_way(
    visits: Visits, server: Server, away: Away, tmp_path: Path
) -> None:
    machine = machine_named(server, "Skerry")
    wish = {"who": "Bo", "device": "a phone", "posture": "level"}
    front = str(ask(server.address, f"/machines/{machine}/circuits/front/jobs", wish)["id"])
    rear = str(ask(server.address, f"/machines/{machine}/circuits/rear/jobs", wish)["id"])
    tap = {
        "id": "0197a3c0-0009-7000-8000-00000000abcd",
        "at": "2026-05-01T09:30:00.000Z",
        "who": "Cy",
        "device": "phone",
    }
    events = [{**tap, "kind": "paused"}, {**tap, "kind": "exploded"}]
    file = tmp_path / "taps.json"
    file.write_text(json.dumps({"kind": "bench queue", "format": 1, "job": rear, "events": events}))

    page = visits(PHONE).open(f"#/job/{front}")
    page.get_by_label("Name").fill("Bo")
    press_bar(page, "Go on")
    page.get_by_role("button", name="Cautions, more").click()
    page.get_by_text("Carry the job out of reach").click()
    page.get_by_label("Bring a carried page home").set_input_files(file)
    expect(page.get_by_text("These taps belong to another job")).to_be_visible()
    page.get_by_role("link", name="To Skerry 1100 · rear").click()
    page.wait_for_url(re.compile(rear))
    assert kinds_kept(server, front) == kinds_kept(server, rear) == ["started"]

    page = visits(PHONE).open("#/jobs")
    page.get_by_label("Bring a carried page home").set_input_files(file)
    expect(page.get_by_text("Skerry 1100 · rear: 1 new tap")).to_be_visible()
    expect(page.get_by_text("1 tap refused")).to_be_visible()
    expect(page.get_by_text("Not understood")).to_be_visible()
    assert kinds_kept(server, rear) == ["started", "paused"]
    assert faults_of(page) == {}


def carry_started(server: Server, file: Path, machine: str | None = None) -> None:
    """Take a page by the interface itself; how the browser does it is tried above."""
    machine = machine or machine_named(server, "Skerry")
    wish = {"who": "Bo", "device": "a phone", "posture": "level"}
    job = ask(server.address, f"/machines/{machine}/circuits/front/jobs", wish)["id"]
    with urlopen(f"{server.address}/api/jobs/{job}/page") as answer:
        file.write_bytes(answer.read())


def test_a_carried_page_holds_to_the_rules_and_is_light(server: Server, away: Away) -> None:
    carry_started(server, away.file)
    content = away.file.read_bytes()
    kilobytes = len(gzip.compress(content)) / 1000
    assert 20 < kilobytes < MOST_COMPRESSED_KB
    assert len(content) / 1000 < MOST_KB
    page = away.open()
    assert faults_of(page) == {}
    page.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    page.get_by_label("Name").fill("Cy")
    press_bar(page, "Go on")
    press_bar(page, "Go on from here")
    assert faults_of(page) == {}
    page.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    page.get_by_text("Carried page: nothing is sent").click()
    page.get_by_role("button", name="Cautions, more").click()
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert faults_of(page) == {}


def test_a_browser_that_keeps_nothing_says_so(server: Server, away: Away) -> None:
    """Opened without an origin of its own, as some phones open a file: no memory is given."""
    carry_started(server, away.file)
    around = away.file.with_name("around.html")
    around.write_text(
        f'<h1>around</h1><iframe sandbox="allow-scripts" src="{away.file.name}"'
        ' width="360" height="900"></iframe>'
    )
    away.file = around
    page = away.open().frame_locator("iframe")
    page.get_by_label("Name").fill("Cy")
    page.locator(BAR).click()
    expect(page.locator(BAR)).to_contain_text("Go on from here")
    page.locator(BAR).click()
    expect(page.get_by_text("This browser keeps nothing")).to_be_visible()
    page.get_by_role("link", name="Ten symptoms").click()
    page.get_by_role("link", name="Back to the job").click()
    expect(page.get_by_role("button", name=TAKE)).to_have_text(f"{TAKE} (1)")
    # the browser itself tells what such a page may not do
    own = ("error: Not allowed to load local resource", "error: Permissions policy violation")
    away.watch.complaints[:] = [one for one in away.watch.complaints if not one.startswith(own)]


def test_a_hostile_name_is_read_as_a_name(server: Server, away: Away) -> None:
    hostile = "</script><script>document.title='broken'</script><!--"
    text = str(ask(server.address, f"/machines/{machine_named(server, 'Skerry')}")["text"])
    assert text.count("Skerry 1100") == 1
    sent = Request(
        f"{server.address}/api/machines/file",
        text.replace("Skerry 1100", hostile).encode(),
        {"Content-Type": "text/plain; charset=utf-8"},
    )
    with urlopen(sent) as answer:
        machine = json.load(answer)["id"]
    carry_started(server, away.file, machine)
    page = away.open()
    expect(page.get_by_text(f"{hostile} · front")).to_be_visible()
    assert page.locator("script").count() == 2
    assert page.title() == "Who is at the bench? · firmlever"
