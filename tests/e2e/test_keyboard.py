# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The whole path by keyboard alone: from the first page to the plan on paper."""

from playwright.sync_api import Page, expect

from e2e.conftest import Visits

MOST_STOPS = 90

# What has the focus, what it is called, and whether it shows it (a hidden radio: its label does).
FOCUSED = """() => {
  const one = document.activeElement;
  const shown = [one, one.closest('label')].filter(Boolean).some(at => {
      const style = getComputedStyle(at);
      return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2; });
  return { tag: one.tagName, shown, name: (one.ariaLabel ?? one.textContent ?? '').trim() }; }"""


class Keys:
    """Somebody with a keyboard only; each key must leave a visible place on the page."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def press(self, key: str) -> str:
        self.page.keyboard.press(key)
        return self.place(key)

    def place(self, after: str) -> str:
        at = self.page.evaluate(FOCUSED)
        assert at["tag"] != "BODY", f"{after} lost the focus on {self.page.url}"
        # A heading that takes the focus says where one is; there is nothing on it to press.
        assert at["shown"] or at["tag"] in ("H1", "MAIN"), f"{after}: no outline on {at}"
        return str(at["name"])

    def go_to(self, name: str, key: str = "Tab") -> None:
        seen = []
        for _ in range(MOST_STOPS):
            seen.append(self.press(key))
            if name in seen[-1]:
                return
        raise AssertionError(f"{name} is not reached by {key}: {seen}")

    def arrives(self, title: str) -> None:
        """A new page has opened, and its heading has the focus."""
        expect(self.page.get_by_role("heading", level=1, name=title)).to_be_focused()


def test_from_the_first_page_to_the_paper(visits: Visits, size: tuple[int, int]) -> None:
    page = visits(size).open()
    expect(page.get_by_role("heading", name="The demo workshop")).to_be_visible()
    keys = Keys(page)
    assert keys.press("Tab") == "To the content"
    assert "firmlever" in keys.press("Tab")
    assert keys.press("Shift+Tab") == "To the content"
    keys.go_to("New")
    keys.page.keyboard.press("Enter")
    keys.arrives("What kind of machine is it?")
    for card in ("Small", "Commuter", "Scooter", "Naked"):
        assert card in keys.press("ArrowDown")
    page.keyboard.press("Enter")
    keys.arrives("What do you call it?")
    page.keyboard.press("Enter")
    keys.arrives("How many discs are on the front wheel?")
    keys.go_to("Enough: leave the rest open")
    page.keyboard.press("Enter")
    keys.arrives("Is it like this?")
    keys.go_to("Keep this machine")
    page.keyboard.press("Space")
    keys.arrives("is kept")
    keys.go_to("See the machine")
    page.keyboard.press("Enter")
    expect(page.get_by_role("link", name="Plan the front flush")).to_be_visible()
    assert keys.place("Enter") != ""
    keys.go_to("Plan the front flush")
    page.keyboard.press("Enter")
    keys.arrives("Flush the front circuit")
    expect(page.get_by_text("What would narrow this")).to_be_visible()
    keys.go_to("One page to print")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_enabled()
    assert keys.place("Enter") != ""
    keys.go_to("Print")
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_focused()
