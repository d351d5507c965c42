# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The plan on paper: one page, whatever the circuit and the screen it is printed from."""

import json
import re
from urllib.parse import quote
from urllib.request import Request, urlopen

from playwright.sync_api import Page, expect

from e2e.app import Server
from e2e.conftest import Visits

NARROWEST = 320
# A twin-disc front of which nothing is known but the class: the most cautions and assumptions.
BY_CLASS = {
    "name": "Known by its class",
    "bike_class": "naked",
    "front_discs": 2,
    "front_layout": None,
    "fork": None,
    "abs_unit": None,
    "rear_disc": None,
    "hydraulic_clutch": None,
    "fluid": None,
}


def ask(server: Server, path: str, body: object = None) -> dict[str, object]:
    sent = None if body is None else json.dumps(body).encode()
    request = Request(f"{server.address}/api{path}", sent, {"Content-Type": "application/json"})
    with urlopen(request) as answer:
        found: dict[str, object] = json.load(answer)
    return found


def sheets(server: Server) -> list[str]:
    """The page to print of every circuit there is."""
    machines = ask(server, "/machines")["machines"]
    assert isinstance(machines, list)
    return [
        f"#/m/{machine['id']}/plan/{quote(circuit['name'], safe='')}/print"
        for machine in machines
        for circuit in machine["circuits"]
    ]


def open_sheet(page: Page, address: str) -> None:
    page.goto(address)
    ticks = page.get_by_role("img", name="box to tick")
    # The first plan of a new server also loads the solver.
    expect(ticks.first).to_be_visible(timeout=30_000)


def printed_pages(page: Page) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(format="A4", print_background=True)))


def test_every_plan_prints_on_one_page(
    visits: Visits, server: Server, size: tuple[int, int]
) -> None:
    fullest = ask(server, "/machines", {"outline": BY_CLASS})["id"]
    # With the pistons home first there is one row more and one caution more.
    routes = [*sheets(server), f"#/m/{fullest}/plan/front/print?pistons_home=yes"]
    assert len(routes) > 8
    page = visits(size).open()
    found = {}
    for route in routes:
        open_sheet(page, f"{server.address}/{route}")
        expect(page.locator(".sheet .scene")).to_be_visible()
        found[route] = printed_pages(page)
    assert set(found.values()) == {1}, found


def test_the_page_to_print_fits_the_narrowest_phone(visits: Visits, server: Server) -> None:
    page = visits((NARROWEST, 640)).open()
    for route in sheets(server):
        open_sheet(page, f"{server.address}/{route}")
        assert page.evaluate("document.documentElement.scrollWidth") <= NARROWEST, route
