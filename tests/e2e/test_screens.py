# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every screen, on a phone and a desk, in paper and ink: what each must hold to."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from e2e.app import DESK, PHONE, ROOT, Server, visitor
from e2e.conftest import Visits
from e2e.routes import SCREENS, demo_routes

AXE = ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
NARROW_PX = 320
LEAST_PX = 44

# Bounding boxes of what can be pressed; a box or radio counts with the label around it,
# a link inside a sentence is let off as WCAG 2.5.8 does (published: WCAG 2.2).
SMALL_TARGETS = """least => [...document.querySelectorAll(
    'a[href], button, input, select, textarea, summary, [role=button], [tabindex="0"]')]
  .filter(one => one.checkVisibility({ visibilityProperty: true }) && !one.matches('.skip'))
  .filter(one => !(one.matches('a') && one.closest('p, li, dd') &&
      getComputedStyle(one).display === 'inline' &&
      one.parentElement.textContent.trim() !== one.textContent.trim()))
  .map(one => [one, (one.closest('label') ?? one).getBoundingClientRect()])
  .filter(([, box]) => box.width > 0 && box.height > 0)
  .filter(([, box]) => box.height < least - 0.5 || box.width < least - 0.5)
  .map(([one, box]) => `${one.tagName} "${(one.ariaLabel ?? one.textContent ?? '').trim()
      .slice(0, 40)}" ${box.width.toFixed(0)} x ${box.height.toFixed(0)}`)"""

MOVING = """() => document.getAnimations()
  .filter(one => one.playState === 'running')
  .filter(one => Number(one.effect.getComputedTiming().duration) > 10)
  .map(one => one.animationName ?? one.transitionProperty)"""


@pytest.fixture(scope="module", params=SCREENS)
def screen(request: pytest.FixtureRequest, browser: Browser, server: Server) -> Iterator[Page]:
    """Each screen, opened once on a phone; the policy steps aside for axe alone."""
    someone = visitor(browser, server, PHONE, bypass_csp=True)
    yield settle(someone.open(demo_routes(server.address)[request.param]))
    someone.context.close()


def settle(page: Page) -> Page:
    page.wait_for_load_state("networkidle")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    return page


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing(screen: Page, theme: str) -> None:
    screen.emulate_media(color_scheme="dark" if theme == "dark" else "light")
    screen.add_script_tag(path=AXE)
    found = screen.evaluate(
        "async () => (await axe.run()).violations.flatMap(one =>"
        " one.nodes.map(node => `${one.id}: ${node.target.join(' ')}`))"
    )
    assert found == []


def test_what_is_pressed_is_large_enough(screen: Page) -> None:
    assert screen.evaluate(SMALL_TARGETS, LEAST_PX) == []


def test_nothing_runs_off_a_narrow_screen(screen: Page) -> None:
    screen.set_viewport_size({"width": NARROW_PX, "height": PHONE[1]})
    assert screen.evaluate("document.documentElement.scrollWidth") <= NARROW_PX
    screen.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})


def test_nothing_moves_where_motion_is_unwanted(screen: Page) -> None:
    screen.emulate_media(reduced_motion="reduce")
    assert screen.evaluate(MOVING) == []
    screen.emulate_media(reduced_motion="no-preference")


def test_no_screen_complains_or_asks_elsewhere(visits: Visits, server: Server) -> None:
    """The fixture looks at the console (policy breaches are told there) and at every request."""
    someone = visits(DESK)
    for route in demo_routes(server.address).values():
        settle(someone.open(route)).close()
