# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Whose words and measures are shown, on the plan and after a reload."""

import re

from playwright.sync_api import Page, expect

from e2e.app import Server
from e2e.conftest import Visits
from e2e.routes import demo_screens


def plan_speaks(page: Page, words: str, measure: str) -> None:
    body = page.locator("main")
    expect(body).to_contain_text(re.compile(rf"\b{words}s?\b", re.IGNORECASE))
    expect(body).to_contain_text(re.compile(rf"\d {measure}\b"))


def test_american_words_and_imperial_measures_stay(
    visits: Visits, server: Server, size: tuple[int, int]
) -> None:
    plan = demo_screens(server.address)["plan"].route
    page = visits(size).open(plan)
    plan_speaks(page, "spanner", "ml")
    page.goto(f"{server.address}/#/settings")
    page.get_by_role("radio", name=re.compile("American")).check()
    page.get_by_role("radio", name=re.compile("Imperial")).check()
    page.goto(f"{server.address}/{plan}")
    plan_speaks(page, "wrench(?:e)?", "fl oz")
    page.reload()
    plan_speaks(page, "wrench(?:e)?", "fl oz")
    said = page.locator("main").inner_text()
    # A bottle is sold in millilitres: "250 ml (8.8 fl oz)".
    assert re.findall(r".*(?:spanner|bleed nipple|\btyre|\d ml\b(?! \()|°C).*", said) == []
    assert page.locator("html").get_attribute("lang") == "en-US"
