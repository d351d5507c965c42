# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Take the pictures of the app's screens for the docs from the real app.

The demo workshop is served on a fixed day. Every screen is taken on a phone and at a desk,
by light and by dark; with ``--docs`` only those that the docs show, into their folder.
Run: python -m tools.make_screenshots --docs, or python -m tools.make_screenshots FOLDER
"""

import sys
from collections.abc import Mapping
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, Page

from tools.browser import headless
from tools.serve_on import ROOT, served

PICTURES = ROOT / "docs" / "pictures" / "screens"
SIZES = {"phone": (360, 740), "desk": (1280, 800)}
THEMES = ("light", "dark")
DOCS = (
    "machines-desk-light",
    "machines-phone-light",
    "new-phone-light",
    "talk-desk-light",
    "machine-desk-light",
    "machine-phone-dark",
    "questions-phone-light",
    "questions-desk-dark",
    "plan-desk-light",
    "plan-desk-dark",
    "plan-phone-light",
    "plan-steps-phone-dark",
    "print-desk-light",
    "settings-phone-light",
)
# what a screen shows once it is done with asking the server
_DONE = "() => document.querySelector('h1') && !document.querySelector('[aria-busy=true], .wait')"


def routes(page: Page, address: str) -> Mapping[str, str]:
    """Return the address of each screen, on the demo machine of which most is known."""
    machines = page.request.get(f"{address}/api/machines").json()["machines"]
    known = {one["id"]: sum(each["known"] for each in one["circuits"]) for one in machines}
    machine = f"#/m/{max(known, key=lambda key: known[key])}"
    return {
        "machines": "#/",
        "new": "#/new",
        "talk": "#/new",
        "machine": machine,
        "questions": f"{machine}/describe/front",
        "plan": f"{machine}/plan/front",
        "plan-steps": f"{machine}/plan/front",
        "print": f"{machine}/plan/front/print",
        "settings": "#/settings",
    }


def stand_at(page: Page, screen: str) -> None:
    """Go on from where a screen opens to what the picture is to show."""
    page.wait_for_function(_DONE)
    if screen == "talk":
        page.get_by_role("button", name="Naked").first.click()
        page.get_by_role("button", name="Go on without a name").click()
        page.get_by_role("heading", name="How many discs").wait_for()
    if screen.startswith("plan"):
        page.locator(".plan-headline").wait_for()
    if screen == "plan-steps":
        page.locator(".plan-column").evaluate("(column) => column.scrollIntoView()")
    page.wait_for_load_state("networkidle")
    # a blinking cursor or a focus ring differs from run to run
    page.evaluate("() => document.activeElement?.blur()")
    page.wait_for_timeout(300)


def take(browser: Browser, address: str, folder: Path, name: str) -> None:
    """Take one picture; its name says the screen, the size and the theme."""
    screen, size, theme = name.rsplit("-", 2)
    width, height = SIZES[size]
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if theme == "dark" else "light",
        reduced_motion="reduce",
    )
    context.set_default_timeout(60_000)
    page = context.new_page()
    page.goto(f"{address}/{routes(page, address)[screen]}")
    stand_at(page, screen)
    page.screenshot(path=folder / f"{name}.png")
    sys.stdout.write(f"{name}.png\n")
    sys.stdout.flush()
    context.close()


def main() -> None:
    """Take all pictures into a folder, or those of the docs into theirs."""
    if len(sys.argv) != 2:
        raise SystemExit(__doc__)
    is_docs = sys.argv[1] == "--docs"
    folder = PICTURES if is_docs else Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory() as home, served(Path(home)) as address, headless() as browser:
        screens = list(routes(browser.new_page(), address))
        every = ["-".join(parts) for parts in product(screens, SIZES, THEMES)]
        for name in DOCS if is_docs else every:
            take(browser, address, folder, name)


if __name__ == "__main__":
    main()
