# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What somebody with a browser waits for: first load, a plan's page and request, a tap.

The pages are opened in a real browser with an empty cache each time. The browser's
processor is slowed down by its own means; the server's is not.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, Page

from benchmarks import tap_speed
from benchmarks.figure import Figure
from benchmarks.request_times import circuits, demo_browser, seconds
from benchmarks.timing import timed
from tools.browser import headless
from tools.serve_on import served

SLOWED = 6
KB = 1000.0
_PHONE = 360, 740
# Waits in the page itself, so that talking to the browser takes no part in the time.
_WATCH = """
window.painted = (is) => new Promise((done) => {
  const look = () => is()
    ? requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now())))
    : requestAnimationFrame(look);
  look();
});
"""
_SETTINGS_STAND = """() => painted(() => document.querySelector(".settings"))"""
_HEADLINE_STANDS = """() => painted(() => document.querySelector(".plan-headline"))"""
_SWITCH_ANSWERS = """async () => {
  await painted(() => document.querySelector("[role=switch]"));
  const before = document.querySelector("[role=switch]").ariaChecked;
  document.querySelector("[role=switch]").click();
  return await painted(() => document.querySelector("[role=switch]").ariaChecked !== before);
}"""


def measure(repeats: int = 7) -> list[Figure]:
    """Open pages of the demo workshop and ask its server for plans."""
    return [*_pages(repeats), *_requests(repeats), *tap_speed.measure()]


@contextmanager
def opened() -> Iterator[tuple[Browser, str]]:
    """Give a browser and the address of the demo workshop."""
    with TemporaryDirectory() as home, served(Path(home)) as address, headless() as browser:
        yield browser, address


def weights(browser: Browser, address: str) -> list[Figure]:
    """Weigh everything the first screen asks for, as it came over the wire."""
    sent = _sent_bytes(browser, address)
    pages = sum(size for url, size in sent.items() if "/api/" not in url)
    return [
        Figure("first load, all that was sent", sum(sent.values()) / KB, "kB", at_most=150.0),
        Figure("first load without the answers of the interface", pages / KB, "kB"),
    ]


def _pages(repeats: int) -> list[Figure]:
    with opened() as (browser, address):
        weighed = weights(browser, address)
        plan = f"{address}/{_plan_route(browser, address)}"
        _plan_opened(browser, plan)  # the first plan of a new server does not count
        plans = [_plan_opened(browser, plan) for _ in range(repeats)]
        settings = [_settings_opened(browser, address) for _ in range(repeats)]
    headline, answered = (median(column) for column in zip(*plans, strict=True))
    return [
        *weighed,
        Figure(f"plan page, {SLOWED} times slower: headline painted", headline, "s"),
        Figure(f"plan page, {SLOWED} times slower: a switch answers", answered, "s", at_most=2.0),
        Figure("the same", answered / median(settings), "times", "the settings page, slowed alike"),
    ]


def _requests(repeats: int) -> list[Figure]:
    with demo_browser() as browser:
        every = circuits(browser)
        taken = {
            name: seconds(browser, "POST", f"{at}/plan", {}, repeats) for name, at in every.items()
        }
        slowest = max(taken, key=lambda name: taken[name])
        # the server works in this process, so its processor time can be read here
        work = timed(
            lambda: browser.post(f"/api{every[slowest]}/plan", json={}).raise_for_status(), repeats
        )
    return [
        Figure(f"plan request, the slowest: {slowest}", taken[slowest], "s", at_most=0.6),
        Figure("plan request, middle of all demo circuits", median(taken.values()), "s"),
        Figure("the slowest, process time", work.cpu_s, "s"),
        Figure("the slowest, process time", work.rounds, "rounds", "a round of fixed work"),
    ]


def _sent_bytes(browser: Browser, address: str) -> dict[str, int]:
    """Return the bytes on the wire of everything the first screen asks for, by address."""
    page = _page(browser)
    network = page.context.new_cdp_session(page)
    network.send("Network.enable")
    urls: dict[str, str] = {}
    sent: dict[str, int] = {}
    network.on(
        "Network.requestWillBeSent", lambda e: urls.update({e["requestId"]: e["request"]["url"]})
    )
    network.on(
        "Network.loadingFinished",
        lambda e: sent.update({urls[e["requestId"]]: int(e["encodedDataLength"])}),
    )
    page.goto(f"{address}/", wait_until="networkidle")
    page.get_by_role("link", name="Skerry").first.wait_for()
    page.context.close()
    return sent


def _plan_route(browser: Browser, address: str) -> str:
    page = _page(browser)
    machines = page.request.get(f"{address}/api/machines").json()["machines"]
    page.context.close()
    machine = next(machine for machine in machines if machine["name"].startswith("Skerry"))
    return f"#/m/{machine['id']}/plan/front"


def _plan_opened(browser: Browser, url: str) -> tuple[float, float]:
    """Return when the headline was painted and when a switch had answered (s)."""
    page = _slowed(browser, url)
    headline = page.evaluate(_HEADLINE_STANDS)
    answered = page.evaluate(_SWITCH_ANSWERS)
    page.context.close()
    return headline / 1e3, answered / 1e3


def _settings_opened(browser: Browser, address: str) -> float:
    page = _slowed(browser, f"{address}/#/settings")
    stands = float(page.evaluate(_SETTINGS_STAND))
    page.context.close()
    return stands / 1e3


def _slowed(browser: Browser, url: str) -> Page:
    page = _page(browser)
    page.add_init_script(_WATCH)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    page.goto(url, wait_until="commit")
    return page


def _page(browser: Browser) -> Page:
    width, height = _PHONE
    return browser.new_context(viewport={"width": width, "height": height}).new_page()
