# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The fill of a dry circuit, chosen and read on a narrow phone."""

import re

from playwright.sync_api import Page, expect

from e2e.app import Server
from e2e.conftest import Visits
from e2e.routes import demo_screens

NARROW = (360, 740)


def wide_by(page: Page) -> int:
    width: int = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    return width


def test_a_fill_is_chosen_and_read_without_sideways_scrolling(
    visits: Visits, server: Server
) -> None:
    page = visits(NARROW).open(demo_screens(server.address)["plan"].route)
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Flush the"))
    page.get_by_role("heading", name="What you can change").click()
    page.get_by_role("radio", name="Dry circuit").check(force=True)
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Fill the"))
    expect(page.get_by_text("Beyond this: stop")).to_be_visible()
    expect(page.get_by_text("You should see").first).to_be_visible()
    for part in ("A dry master cylinder", "Filling from below"):
        page.get_by_role("heading", name=part).click()
    expect(page.get_by_text("Clamp the cylinder level")).to_be_visible()
    assert wide_by(page) <= 0
    # the address keeps it
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Fill the"))
