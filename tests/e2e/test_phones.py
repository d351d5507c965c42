# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A phone over the network: nothing unpaired, paired by a code, unpaired again, no tap lost."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from e2e.app import DESK, PHONE, Server
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import bar_says, kinds_kept, press_bar, start_a_job
from e2e.test_screens import faults_of
from firmlever.errors import ImpossibleOptionError
from firmlever.web.serve import lan_address

NAME = "the red one"


@pytest.fixture(scope="module")
def server(pages: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The app, answering phones at this machine's own private address."""
    assert pages.is_dir()
    try:
        lan = lan_address("")
    except ImpossibleOptionError as error:
        pytest.skip(f"phone tests NOT RUN: this machine is on no private network ({error})")
    running = Server(tmp_path_factory.mktemp("home"), lan)
    running.start()
    yield running
    running.stop()


def show_a_code(laptop: Page) -> str:
    """Ask the laptop for a code and read it off its screen."""
    laptop.get_by_role("button", name=re.compile("Show a code")).click()
    shown = laptop.locator(".code-letters [aria-hidden]")
    expect(shown).to_have_text(re.compile(r"^[2-9A-Z]{4} [2-9A-Z]{4}$"))
    return shown.inner_text()


def pair(phone: Page, code: str) -> None:
    phone.get_by_label("Code").fill(code)
    phone.get_by_label("A name for this phone").fill(NAME)
    phone.get_by_role("button", name="Pair").click()


def unpair(laptop: Page) -> None:
    laptop.get_by_role("button", name=f"Unpair {NAME}").click()
    laptop.get_by_role("button", name="Yes, unpair it").click()
    expect(laptop.get_by_text(f"Unpaired: {NAME}")).to_be_visible()


def status_of(page: Page, path: str) -> int:
    found: int = page.evaluate("path => fetch(path).then(answer => answer.status)", path)
    return found


def test_an_unpaired_phone_gets_the_pairing_page_and_nothing_else(
    visits: Visits, server: Server
) -> None:
    phone = visits(PHONE, over_network=True).open("#/jobs")
    expect(phone.get_by_role("heading", name="Pair this phone")).to_be_visible()
    assert phone.url.split("#")[0] == f"{server.lan_address}/pair"
    paths = ("/api/jobs", "/api/machines", "/api/phones", "/api/serving", "/index.html")
    assert {path: status_of(phone, path) for path in paths} == dict.fromkeys(paths, 401)
    pair(phone, "ABCD EFGH")
    expect(phone.get_by_role("alert")).to_contain_text("this code pairs nothing")


def test_the_square_code_fills_the_code_in(visits: Visits, server: Server) -> None:
    phone = visits(PHONE, over_network=True).context.new_page()
    phone.goto(f"{server.lan_address}/pair?code=abcd-efgh")
    expect(phone.get_by_label("Code")).to_have_value("ABCDEFGH")


def test_a_paired_phone_taps_until_it_is_unpaired_and_keeps_what_waits(
    visits: Visits, server: Server
) -> None:
    laptop = visits(DESK).open("#/phones")
    phone = visits(PHONE, over_network=True).open()
    pair(phone, show_a_code(laptop))
    expect(phone.get_by_role("heading", name="The demo workshop")).to_be_visible()
    expect(laptop.get_by_text(f"Paired: {NAME}")).to_be_visible()
    expect(laptop.locator(".code")).to_have_count(0)

    machines = ask(server.address, "/machines")["machines"]
    assert isinstance(machines, list)
    machine = next(one["id"] for one in machines if one["name"].startswith("Skerry"))
    phone.goto(f"{server.lan_address}/#/m/{machine}/bench/front")
    job = start_a_job(phone)
    press_bar(phone, "Yes")
    expect(phone.get_by_text("every tap kept")).to_be_visible()
    assert kinds_kept(server, job) == ["started", "gate"]

    unpair(laptop)
    asked = phone.locator(".ask h2").inner_text()
    press_bar(phone, "Yes")
    expect(phone.locator(".ask h2")).not_to_have_text(asked)
    said = phone.get_by_role("alert").filter(has_text="The laptop could not keep the taps")
    expect(said).to_contain_text("this phone is not paired")
    expect(said).to_contain_text("They stay here and are sent again")
    expect(phone.get_by_text("1 tap waits here")).to_be_visible()
    assert kinds_kept(server, job) == ["started", "gate"]
    assert status_of(phone, "/api/machines") == 401
    assert faults_of(phone) == {}
    phone.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})

    # the page cannot be loaded any more, but what waits outlives that
    phone.goto(f"{server.lan_address}/")
    expect(phone.get_by_role("heading", name="Pair this phone")).to_be_visible()
    pair(phone, show_a_code(laptop))
    expect(phone.get_by_role("heading", name="The demo workshop")).to_be_visible()
    phone.goto(f"{server.lan_address}/#/job/{job}")
    bar_says(phone, "Yes")
    expect(phone.get_by_text("every tap kept")).to_be_visible()
    assert kinds_kept(server, job) == ["started", "gate", "gate"]
    unpair(laptop)


def test_the_page_of_phones_holds_to_the_rules(
    visits: Visits, server: Server, size: tuple[int, int]
) -> None:
    laptop = visits(size).open("#/phones")
    code = show_a_code(laptop)
    # the picture is one that a browser can draw under the app's own policy
    assert laptop.locator(".code-picture").evaluate("one => one.naturalWidth") > 0
    assert faults_of(laptop) == {}
    phone = visits(size, over_network=True).open()
    pair(phone, code)
    expect(phone.get_by_role("heading", name="The demo workshop")).to_be_visible()
    expect(laptop.get_by_text(f"Paired: {NAME}")).to_be_visible()
    laptop.get_by_role("button", name=f"Unpair {NAME}").click()
    assert faults_of(laptop) == {}

    phone.goto(f"{server.lan_address}/#/phones")
    expect(phone.get_by_text("Phones are paired and taken off on the laptop")).to_be_visible()
    expect(phone.get_by_text("What is sent can be read by others")).to_be_visible()
    assert status_of(phone, "/api/phones") == 403
    assert faults_of(phone) == {}
    laptop.get_by_role("button", name="Yes, unpair it").click()
    expect(laptop.get_by_text("No phone is paired.")).to_be_visible()
