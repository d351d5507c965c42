# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A measured machine: what is measured makes the plan narrower, and stays."""

import re

from playwright.sync_api import Page, expect

from e2e.conftest import Visits


def describe_a_twin_disc(page: Page) -> None:
    page.get_by_role("button", name=re.compile("^Naked")).click()
    page.get_by_role("button", name="Go on without a name").click()
    for card in ("Two", "On both sides of the disc", "At a splitter"):
        page.get_by_role("button", name=re.compile(f"^{card}")).click()
    page.get_by_role("button", name="Enough: leave the rest open").click()
    page.get_by_role("button", name="Keep this machine").click()


def band_width(page: Page) -> float:
    """How far apart the ends of the headline's band stand, as it is written."""
    written = page.locator(".plan-headline .figure-band").inner_text()
    low, high = (float(one) for one in re.findall(r"\d+(?:\.\d+)?", written))
    return high - low


def answer(page: Page, what: str, value: str) -> None:
    """Tell one measurement on the plan, and wait for the new plan."""
    page.get_by_role("button", name=re.compile(f"I know it.*{what}")).first.click()
    page.locator(".narrow").get_by_role("textbox").fill(value)
    page.get_by_role("button", name="Keep and plan again").click()
    told = page.locator(".narrow-told")
    expect(told).to_contain_text("Kept.")
    expect(told).not_to_contain_text("being worked out")


def test_what_is_measured_narrows_the_plan_and_stays(visits: Visits, size: tuple[int, int]) -> None:
    page = visits(size).open("#/new")
    describe_a_twin_disc(page)
    page.get_by_role("link", name="Plan the front flush").click()
    narrowing = page.get_by_role("heading", name="What would narrow this")
    expect(narrowing).to_be_visible()
    before = band_width(page)
    if not page.get_by_role("button", name="I know it").first.is_visible():
        narrowing.click()
    answer(page, "fluid in it that the flow does not sweep", "2")
    after = band_width(page)
    # independent of any figure: what is measured cannot widen, and the largest share of all narrows
    assert after < 0.7 * before
    page.reload()
    expect(page.locator(".plan-headline .figure-band")).to_be_visible()
    assert band_width(page) == after
