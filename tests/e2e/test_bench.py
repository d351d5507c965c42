# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A job at the bench on a phone: from the gates to the first set, and no tap lost."""

import re

from playwright.sync_api import Page, expect

from e2e.app import PHONE, Server
from e2e.conftest import Visits
from e2e.routes import ask

BAR = ".bar-main"


def bar_says(page: Page, words: str) -> None:
    expect(page.locator(BAR).first).to_contain_text(re.compile(words))


def press_bar(page: Page, words: str) -> None:
    bar_says(page, words)
    page.locator(BAR).first.click()


def start_a_job(page: Page) -> str:
    """Start at the front brake that is known best; give the job's name on the server."""
    page.get_by_label("Who works?").fill("Bo")
    press_bar(page, "Start the job")
    page.wait_for_url(re.compile("#/job/"))
    return page.url.rpartition("/")[2]


def to_the_first_screw(page: Page) -> None:
    bar_says(page, "Yes")
    while page.locator(BAR).first.inner_text().strip().endswith("Yes"):
        asked = page.locator("main").inner_text()
        press_bar(page, "Yes")
        expect(page.locator("main")).not_to_have_text(asked)
        bar_says(page, "Yes|Drawn down")
    press_bar(page, "Drawn down")
    press_bar(page, "Filled to MAX")
    press_bar(page, "At the left caliper")
    page.get_by_role("button", name="No sample here").click()
    bar_says(page, "Lead 5 strokes")


def a_set_of_five(page: Page) -> None:
    press_bar(page, "Lead")
    press_bar(page, "Pause")
    page.get_by_text("+5", exact=True).click()
    press_bar(page, "5")


def kinds_kept(server: Server, job: str) -> list[str]:
    events = ask(server.address, f"/jobs/{job}")["events"]
    assert isinstance(events, list)
    assert len({event["id"] for event in events}) == len(events)
    return [event["kind"] for event in events]


def test_a_job_from_the_gates_to_a_set_outlives_a_stopped_server(
    visits: Visits, server: Server
) -> None:
    machines = ask(server.address, "/machines")["machines"]
    assert isinstance(machines, list)
    machine = next(one["id"] for one in machines if one["name"].startswith("Skerry"))
    page = visits(PHONE).open(f"#/m/{machine}/bench/front")
    job = start_a_job(page)
    to_the_first_screw(page)
    expect(page.get_by_text("every tap kept")).to_be_visible()
    before = kinds_kept(server, job)
    assert before.count("gate") <= 6
    assert before[-1] == "at_screw"

    server.stop()
    a_set_of_five(page)
    press_bar(page, "in the cup")
    page.get_by_role("button", name="dark here").click()
    expect(page.get_by_text("Laptop not reachable · 3 taps wait here")).to_be_visible()
    server.start()

    expect(page.get_by_text("every tap kept")).to_be_visible(timeout=30_000)
    after = kinds_kept(server, job)
    assert after[len(before) :] == ["set_done", "caught", "mark"]
    page.reload()
    expect(page.get_by_text("5", exact=True).first).to_be_visible()
    assert kinds_kept(server, job) == after
