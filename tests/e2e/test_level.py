# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at a level on a phone: wear, then a leak, then taken back; figures are invented."""

import os
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from e2e.app import ROOT, Server
from e2e.conftest import Visits
from e2e.routes import ask

NARROW = (360, 740)
WIDE = (1280, 900)
LEAST = (320, 640)
RUN_AXE = """
async () => {
  const found = await axe.run(document);
  return found.violations.flatMap((fault) =>
    fault.nodes.map((node) => `${fault.id}: ${node.html.slice(0, 200)}`));
}
"""

SMALL = """
() => [...document.querySelectorAll("main button, main input:not([type=radio]), main summary")]
  .filter((one) => one.getBoundingClientRect().height < 44)
  .map((one) => one.outerHTML.slice(0, 200))
"""


@pytest.fixture(scope="module")
def machine(server: Server) -> str:
    machines: Any = ask(server.address, "/machines")["machines"]
    return str(next(one["id"] for one in machines if one["name"].startswith("Skerry")))


def look(page: Page, on: str, below_mm: str, pad_mm: str) -> None:
    page.get_by_label("Day").fill(on)
    page.get_by_role("radio", name="Depth below MAX").check(force=True)
    page.get_by_label("Below MAX", exact=True).fill(below_mm)
    page.get_by_label("Thinnest pad").fill(pad_mm)
    page.get_by_label("Your name").fill("Ada Fenn")
    page.get_by_role("button", name="Keep this look").click()


def no_sideways(page: Page) -> None:
    wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert wide <= 0


def test_wear_then_a_leak_then_taken_back(visits: Visits, machine: str) -> None:
    page = visits(NARROW).open(f"#/m/{machine}/level/rear")
    expect(page.get_by_text("No looks are kept yet")).to_be_visible()
    look(page, "2025-10-01", "1.5", "4.9")
    expect(page.get_by_text("One look has nothing to compare with")).to_be_visible()
    look(page, "2026-03-01", "3", "4.1")
    expect(page.get_by_role("status").get_by_text("Wear explains it")).to_be_visible()
    page.get_by_label("From MIN to MAX, if measured").fill("16")
    look(page, "2026-04-30", "9.5", "4.0")
    stop = page.get_by_role("alert").filter(has_text="More has gone than wear explains")
    expect(stop).to_contain_text("find it before the machine moves")
    expect(page.get_by_role("list", name="From look to look")).to_be_visible()
    no_sideways(page)
    page.set_viewport_size({"width": LEAST[0], "height": LEAST[1]})
    no_sideways(page)
    assert "safe to ride" not in page.locator("body").inner_text().lower()
    page.reload()
    expect(page.get_by_label("From MIN to MAX, if measured")).to_have_value("16")
    page.get_by_role("button", name="Take back the look of 30 April 2026").click()
    expect(page.get_by_text("taken back by Ada Fenn")).to_be_visible()
    expect(page.get_by_role("status").get_by_text("Wear explains it")).to_be_visible()


def test_a_half_typed_look_outlives_a_reload(visits: Visits, machine: str) -> None:
    page = visits(NARROW).open(f"#/m/{machine}/level/clutch")
    page.get_by_role("radio", name="Depth below MAX").check(force=True)
    page.get_by_label("Below MAX", exact=True).fill("2.5")
    page.get_by_label("Poured in since the look before").fill("3")
    page.reload()
    expect(page.get_by_label("Below MAX", exact=True)).to_have_value("2.5")
    expect(page.get_by_label("Poured in since the look before")).to_have_value("3")
    expect(page.get_by_role("switch", name="New pads since the look before")).to_have_count(0)
    no_sideways(page)


def test_the_glass_is_set_by_keys(visits: Visits, machine: str) -> None:
    page = visits(NARROW).open(f"#/m/{machine}")
    page.get_by_role("link", name="Level").first.click()
    slider = page.get_by_role("slider", name="Level between MIN and MAX")
    slider.focus()
    page.keyboard.press("ArrowUp")
    expect(slider).to_have_attribute("aria-valuetext", "55 % of the way from MIN to MAX")
    page.keyboard.press("Home")
    expect(slider).to_have_attribute("aria-valuetext", "below MIN")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [NARROW, WIDE], ids=["phone", "desk"])
def test_axe_finds_nothing(
    visits: Visits, machine: str, size: tuple[int, int], scheme: Any
) -> None:
    page = visits(size).open(f"#/m/{machine}/level/rear")
    page.emulate_media(color_scheme=scheme)
    expect(page.get_by_role("heading", name="What comes next")).to_be_visible()
    script = (ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js").read_text("utf-8")
    page.evaluate(script)
    assert page.evaluate(RUN_AXE) == []
    small = page.evaluate(SMALL)
    assert small == []
    if folder := os.environ.get("FIRMLEVER_SHOTS"):
        page.screenshot(path=f"{folder}/level-{size[0]}-{scheme}.png", full_page=True)
