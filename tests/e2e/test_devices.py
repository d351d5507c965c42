# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Several devices, a bad network and a server that comes and goes: every tap once, none lost."""

import json
import re
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from benchmarks.tap_speed import job_at_the_first_screw
from e2e.app import PHONE, Server, Visitor, visitor
from e2e.routes import ask

STROKE = "One stroke done"
EVENTS = re.compile(r"/api/jobs/[^/]+/events")
# derived: five strokes stand in the log that every job here starts from
BEFORE = 5
# a poll every two seconds, on a machine that may be busy
SOON_MS = 15_000


@dataclass
class Device:
    """One phone with the job open, every stroke tapped by hand."""

    page: Page
    visitor: Visitor

    def tap(self, name: str | re.Pattern[str] = STROKE) -> None:
        self.page.get_by_role("button", name=name).first.click()

    def counts(self, strokes: int) -> None:
        figure = self.page.locator(".rhythm-figure")
        expect(figure).to_have_text(f"{strokes}", timeout=SOON_MS)

    def says(self, words: str) -> None:
        expect(self.page.locator(".standing")).to_contain_text(words, timeout=2 * SOON_MS)

    def shows(self) -> dict[str, str]:
        """What the state comes to on its screen."""
        parts = (".rhythm-figure", ".rhythm-total", ".pot-words", ".pot-ml", ".sight-words")
        return {part: self.page.locator(part).inner_text() for part in parts}


Phones = Callable[..., Device]


@pytest.fixture
def job(server: Server) -> str:
    return job_at_the_first_screw(server.address)


@pytest.fixture
def phones(browser: Browser, server: Server, job: str) -> Iterator[Phones]:
    """Phones at the job; none of their pages may have complained."""
    made: list[Device] = []

    def phone(name: str = "phone", who: str = "Bo") -> Device:
        holder = visitor(browser, server, PHONE)
        kept = {"bench who": who, "bench device": name, "bench tap each stroke": True}
        for key, value in kept.items():
            words = json.dumps(json.dumps(value))
            holder.context.add_init_script(f"localStorage.setItem({json.dumps(key)}, {words})")
        device = Device(holder.open(f"#/job/{job}"), holder)
        made.append(device)
        device.says("every tap kept")
        return device

    yield phone
    for one in made:
        one.visitor.context.close()
    assert [words for one in made for words in one.visitor.watch.complaints] == []
    assert [url for one in made for url in one.visitor.watch.elsewhere] == []


def kinds(server: Server, job: str) -> list[str]:
    """What the server keeps of the job since it began, each event once."""
    events = ask(server.address, f"/jobs/{job}/events?after=0")["events"]
    assert isinstance(events, list)
    assert len({event["id"] for event in events}) == len(events)
    start = next(place for place, event in enumerate(events) if event["kind"] == "caught")
    return [event["kind"] for event in events[start + 1 :]]


def comes_to(phone: Device, server: Server, job: str, wanted: list[str]) -> None:
    """Wait until the server keeps these, and see that a little later it still keeps no more."""
    patience = time.monotonic() + SOON_MS / 1000
    while kinds(server, job) != wanted and time.monotonic() < patience:
        phone.page.wait_for_timeout(200)
    phone.page.wait_for_timeout(500)
    assert kinds(server, job) == wanted


def test_two_devices_at_one_job(phones: Phones, server: Server, job: str) -> None:
    one, other = phones(), phones("phone two", "Ann")
    one.tap()
    one.tap()
    one.counts(BEFORE + 2)
    other.counts(BEFORE + 2)
    expect(other.page.locator(".watching")).to_contain_text("phone leads")

    # both at once: one taps and the other takes the job over before it can have heard of it
    one.tap()
    other.tap(re.compile("Go on from here"))
    other.tap()
    other.tap()
    for device in (one, other):
        device.counts(BEFORE + 5)
    expect(one.page.locator(".watching")).to_contain_text("phone two leads")

    # what one tapped last, the other takes back
    one.tap(re.compile("^.*Undo: "))
    for device in (one, other):
        device.counts(BEFORE + 4)
        device.says("every tap kept")
    assert one.shows() == other.shows()
    found = kinds(server, job)
    assert sorted(found) == sorted(["set_done"] * 5 + ["resumed", "undone"])


@pytest.mark.parametrize("is_taken", [True, False], ids=["answer lost", "never arrived"])
def test_a_network_cut_in_the_middle_of_sending(
    phones: Phones, server: Server, job: str, *, is_taken: bool
) -> None:
    phone = phones()
    cuts: list[str] = []
    is_cut = True

    def cutting(route: Route) -> None:
        if not is_cut:
            route.continue_()
            return
        if is_taken:
            route.fetch()
        cuts.append(route.request.method)
        route.abort()

    phone.page.route(EVENTS, cutting)
    for _ in range(3):
        phone.tap()
    phone.counts(BEFORE + 3)
    phone.says("Laptop not reachable · 3 taps wait here")
    assert "POST" in cuts
    comes_to(phone, server, job, ["set_done"] * 3 if is_taken else [])
    is_cut = False

    phone.says("every tap kept")
    phone.tap()
    phone.counts(BEFORE + 4)
    comes_to(phone, server, job, ["set_done"] * 4)
    phone.says("every tap kept")


def test_a_server_killed_in_the_middle_of_tapping(phones: Phones, server: Server, job: str) -> None:
    phone = phones()
    for number in range(1, 13):
        phone.tap()
        phone.counts(BEFORE + 1)
        phone.tap(re.compile("Undo: "))
        phone.counts(BEFORE)
        if number == 4:
            server.kill()
        if number == 8:
            server.start()
    phone.says("every tap kept")
    comes_to(phone, server, job, ["set_done", "undone"] * 12)


def test_loaded_again_while_the_server_is_away(phones: Phones, server: Server, job: str) -> None:
    phone = phones()
    phone.page.evaluate("() => navigator.serviceWorker.ready.then(() => 0)")
    phone.tap()
    phone.says("every tap kept")
    server.stop()
    phone.tap()
    phone.tap()
    phone.says("Laptop not reachable · 2 taps wait here")

    phone.page.reload()
    phone.says("Laptop not reachable · 2 taps wait here")
    phone.counts(BEFORE + 3)
    phone.tap()
    phone.says("Laptop not reachable · 3 taps wait here")
    phone.page.reload()
    phone.counts(BEFORE + 4)
    server.start()

    phone.says("every tap kept")
    comes_to(phone, server, job, ["set_done"] * 4)
    kept = phone.page.evaluate(
        """async () => (await Promise.all((await caches.keys()).map(async (name) =>
            (await (await caches.open(name)).keys()).map((one) => new URL(one.url).pathname)
        ))).flat()"""
    )
    assert "/" in kept
    assert [path for path in kept if path.startswith("/api")] == []


@pytest.mark.skipif(sys.platform != "linux", reason="NOT RUN: limits of a running process")
def test_a_disk_without_room(phones: Phones, server: Server, job: str) -> None:
    import resource  # Linux has it, other systems need not

    phone = phones()
    usual = resource.prlimit(server.process_id, resource.RLIMIT_FSIZE)
    resource.prlimit(server.process_id, resource.RLIMIT_FSIZE, (0, usual[1]))
    phone.tap()
    notice = phone.page.get_by_text("The laptop could not keep the taps")
    expect(notice).to_be_visible(timeout=SOON_MS)
    expect(phone.page.locator(".said")).to_contain_text("was not written")
    expect(phone.page.get_by_text("They stay here and are sent again.")).to_be_visible()
    phone.tap()
    phone.says("Sending · 2 taps wait here")
    phone.counts(BEFORE + 2)
    comes_to(phone, server, job, [])

    resource.prlimit(server.process_id, resource.RLIMIT_FSIZE, usual)
    phone.says("every tap kept")
    expect(notice).not_to_be_visible()
    comes_to(phone, server, job, ["set_done"] * 2)
