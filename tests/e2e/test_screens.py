# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every screen and state, on a phone and a desk, in paper and ink: what each must hold to."""

import pytest
from playwright.sync_api import Page, expect

from e2e.app import PHONE, ROOT, Server
from e2e.conftest import Visits
from e2e.routes import SCREENS, Screen, demo_screens

AXE = ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
NARROW_PX = 320
LEAST_PX = 44

# Bounding boxes of what can be pressed; a box or radio counts with the label around it,
# a link inside a sentence is let off as WCAG 2.5.8 does (published: WCAG 2.2).
SMALL_TARGETS = """least => [...document.querySelectorAll(
    'a[href], button, input, select, textarea, summary, [role=button]')]
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

# What may move at all: a duration asked for in a rule that reduced motion does not take away.
WOULD_MOVE = """() => [...document.querySelectorAll('*')]
  .filter(one => { const style = getComputedStyle(one);
      const longest = all => Math.max(...all.split(',').map(parseFloat));
      return longest(style.transitionDuration) > 0.01 ||
          (style.animationName !== 'none' && longest(style.animationDuration) > 0.01); })
  .map(one => `${one.tagName}.${one.className}`)"""

AXE_FINDS = """async () => (await axe.run()).violations.flatMap(one =>
    one.nodes.map(node => `${one.id}: ${node.target.join(' ')}`))"""


def faults_of(page: Page) -> dict[str, list[str]]:
    """All that this page does wrong, by what was looked at."""
    found: dict[str, list[str]] = {}
    # Told to the page from outside, axe needs no leave from the content policy.
    page.evaluate(AXE.read_text(encoding="utf-8"))
    page.emulate_media(reduced_motion="reduce")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
        found[f"axe, {scheme}"] = page.evaluate(AXE_FINDS)
    found["small"] = page.evaluate(SMALL_TARGETS, LEAST_PX)
    found["moving"] = page.evaluate(MOVING) + page.evaluate(WOULD_MOVE)
    page.set_viewport_size({"width": NARROW_PX, "height": PHONE[1]})
    wide = page.evaluate("document.documentElement.scrollWidth")
    found["sideways"] = [f"{wide} px"] if wide > NARROW_PX else []
    return {looked: faults for looked, faults in found.items() if faults}


def whole(page: Page, screen: Screen) -> Page:
    expect(page.get_by_text(screen.shows).locator("visible=true").first).to_be_visible()
    return page


@pytest.fixture(scope="module")
def screens(server: Server) -> dict[str, Screen]:
    found = demo_screens(server.address)
    assert set(found) == set(SCREENS)
    return found


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_holds_to_the_rules(
    visits: Visits, size: tuple[int, int], screens: dict[str, Screen], name: str
) -> None:
    """The fixture also hears the console, where policy breaches are told, and each request."""
    assert faults_of(whole(visits(size).open(screens[name].route), screens[name])) == {}


def test_everything_unfolded_holds_to_the_rules(
    visits: Visits, size: tuple[int, int], screens: dict[str, Screen]
) -> None:
    page = whole(visits(size).open(screens["plan"].route), screens["plan"])
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    page.get_by_role("button", name="I know it").first.click()
    expect(page.get_by_role("button", name="Keep and plan again")).to_be_visible()
    assert faults_of(page) == {}


def test_an_empty_workshop_holds_to_the_rules(visits: Visits, size: tuple[int, int]) -> None:
    someone = visits(size)
    someone.context.route("**/api/machines", lambda route: route.fulfill(json={"machines": []}))
    page = someone.open()
    expect(page.get_by_role("link", name="Start with your machine")).to_be_visible()
    assert faults_of(page) == {}


@pytest.mark.parametrize("name", ["machines", "machine", "questions", "plan", "print"])
def test_a_screen_without_its_server_says_so(
    visits: Visits, screens: dict[str, Screen], name: str
) -> None:
    someone = visits(PHONE)
    someone.context.route("**/api/**", lambda route: route.abort())
    page = someone.open(screens[name].route)
    expect(page.get_by_text("The server is not reachable").first).to_be_visible()
    assert faults_of(page) == {}


def test_a_faulty_file_holds_to_the_rules(visits: Visits, size: tuple[int, int]) -> None:
    page = visits(size).open()
    page.get_by_label("Bring in a circuit file").set_input_files(
        {"name": "faulty.toml", "mimeType": "text/plain", "buffer": b"[bike]\nclass = 3\n"}
    )
    expect(page.get_by_role("alert").first).to_be_visible()
    assert faults_of(page) == {}
