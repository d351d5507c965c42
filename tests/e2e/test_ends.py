# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""One small job from the first gate through all three ends to its signed record on paper."""

import json
import re
from dataclasses import dataclass, field

from playwright.sync_api import Locator, Page, expect

from e2e.app import PHONE, Server
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import BAR, bar_says, kinds_kept, press_bar, start_a_job
from e2e.test_print import printed_pages
from e2e.test_screens import faults_of

# enough for any circuit with one screw; a walk that goes in circles ends here
MOST_STEPS = 120
OWNER = "owner will do it"


@dataclass
class Walk:
    """Follows the great bar through a job, and looks once at each kind of step it passes."""

    page: Page
    size: tuple[int, int]
    passed: list[str] = field(default_factory=list)
    faults: dict[str, object] = field(default_factory=dict)

    def until(self, words: str) -> None:
        for _ in range(MOST_STEPS):
            title = self.page.locator(f"{BAR} .bar-title").first.inner_text().strip()
            self.look(re.sub(r"\d+", "N", title))
            if re.search(words, title):
                return
            self._step(title)
        raise AssertionError(f"no {words} after {self.passed}")

    def until_seen(self, wanted: Locator) -> None:
        for _ in range(MOST_STEPS):
            if wanted.count():
                return
            self._step(self.page.locator(f"{BAR} .bar-title").first.inner_text().strip())
        raise AssertionError(f"not seen after {self.passed}")

    def look(self, name: str) -> None:
        """Judge what is on the page, the first time it is met."""
        if name in self.passed:
            return
        self.passed.append(name)
        found = faults_of(self.page)
        if found:
            self.faults[name] = found
        self.page.emulate_media(color_scheme="light", reduced_motion="reduce")
        self.page.set_viewport_size({"width": self.size[0], "height": self.size[1]})

    def _step(self, title: str) -> None:
        if title.startswith(("Lead", "Catch")):
            press_bar(self.page, "Lead|Catch")
            press_bar(self.page, "Pause")
            self.page.get_by_text("+5", exact=True).click()
            self.look("set over")
        before = self.page.locator("main").inner_text()
        self.page.locator(BAR).first.click()
        self._settle(before)

    def press(self, words: str) -> None:
        """Press the bar and wait until the next step stands there."""
        before = self.page.locator("main").inner_text()
        press_bar(self.page, words)
        self._settle(before)

    def _settle(self, before: str) -> None:
        self.page.wait_for_function(
            "before => document.querySelector('main').innerText !== before", arg=before
        )
        # a tap is painted in its target first, the rest of the screen a frame later
        self.page.evaluate(
            "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
        )


def one_screw(server: Server) -> tuple[str, str]:
    """A circuit whose plan has one screw and that strokes."""
    machines = ask(server.address, "/machines")["machines"]
    assert isinstance(machines, list)
    skerry = next(one for one in machines if one["name"].startswith("Skerry"))
    return skerry["id"], "rear"


def test_a_job_reaches_all_three_ends_and_is_signed_and_printed(
    visits: Visits, server: Server, size: tuple[int, int]
) -> None:
    machine, circuit = one_screw(server)
    page = visits(size).open(f"#/m/{machine}/bench/{circuit}")
    job = start_a_job(page)
    walk = Walk(page, size)
    walk.until("Ready to roll")
    walk.press("Ready to roll")
    walk.until("First stop done")
    walk.press("First stop done")
    expect(page.get_by_text("Look again, hot and the next morning.")).to_be_visible()
    assert page.locator(BAR).count() == 0  # closed only when the rechecks are answered
    walk.look("rechecks")
    answer_rechecks(walk, is_waived=size != PHONE)
    walk.until("Close the job")
    walk.press("Close the job")
    walk.until("Sign the record")
    walk.press("Sign the record")
    expect(page.get_by_text("Signed by Bo.")).to_be_visible()
    expect(page.get_by_text("every tap kept")).to_be_visible()
    walk.look("signed")
    assert walk.faults == {}

    kinds = kinds_kept(server, job)
    assert kinds.count("ended") == 3
    assert kinds[-1] == "signed"
    page.get_by_role("link", name="Take the record").click()
    told = page.locator(".record")
    expect(told).to_contain_text("Closed. Nothing of it is open.")
    expect(told).to_contain_text(re.compile("Signed by Bo, "))
    assert told.get_by_text(re.compile(f"waived, {OWNER}")).count() == (size != PHONE)
    assert "safe to ride" not in page.locator("body").inner_text().lower()
    assert printed_pages(page) == 1
    with page.expect_download() as download:
        page.get_by_role("link", name="Keep as JSON").click()
    assert download.value.suggested_filename == "record-skerry-1100-rear.json"
    record = json.loads(download.value.path().read_text(encoding="utf-8"))
    assert (record["phase"], record["open"], record["signed_by"]) == ("closed", [], "Bo")
    assert [end["end"] for end in record["ends"]] == ["ready to roll", "first stop done", "closed"]
    assert len(record["screws"]) == 1
    assert record["screws"][0]["is_done"]
    assert faults_of(page) == {}


def answer_rechecks(walk: Walk, *, is_waived: bool) -> None:
    """The hot one firm after it was soft; the next morning's firm, or waived with a reason."""
    hot, morning = (walk.page.locator(".recheck").nth(place) for place in (0, 1))
    hot.get_by_role("button", name="Soft").click()
    expect(hot).to_contain_text("Soft: do not ride")
    walk.look("soft")
    hot.get_by_role("button", name="Firm").click()
    expect(hot).to_contain_text("answered: firm")
    if not is_waived:
        morning.get_by_role("button", name="Firm").click()
        return
    morning.get_by_role("button", name="Waive").click()
    walk.look("waive")
    walk.page.get_by_role("button", name=OWNER).click()
    walk.press("Waive it")
    expect(morning).to_contain_text(f"answered: waived ({OWNER})")


def test_a_job_given_up_says_why_in_its_record(visits: Visits, server: Server) -> None:
    machine, circuit = one_screw(server)
    page = visits(PHONE).open(f"#/m/{machine}/bench/{circuit}")
    job = start_a_job(page)
    bar_says(page, "Yes")
    page.get_by_role("button", name="Cautions, more").click()
    page.get_by_role("button", name="Give the job up").click()
    page.get_by_role("button", name="a part is missing").click()
    press_bar(page, "Give it up")
    bar_says(page, "Sign the record")
    expect(page.get_by_text("every tap kept")).to_be_visible()
    page.goto(f"{server.address}/#/job/{job}/record")
    told = page.locator(".record")
    expect(told).to_contain_text("Given up. Still open:")
    expect(told).to_contain_text("a part is missing")
    expect(told).to_contain_text("Not signed.")
    assert printed_pages(page) == 1
