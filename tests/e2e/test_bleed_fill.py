# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A fill and a bleed from their first gate to their record."""

import json
from urllib.request import Request, urlopen

from playwright.sync_api import Page, expect

from e2e.app import PHONE, Server
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import BAR, a_set_of_five, bar_says, press_bar
from e2e.test_ends import Walk
from firmlever.bootstrap import open_kept_workshop
from firmlever.services.jobs import Starter, start
from unit.plan_example import front
from unit.test_bench_sheet import TECHNIQUES, bleed


def taken_over(page: Page) -> None:
    """Say who works here and lead the job that another device began."""
    page.get_by_role("textbox").first.fill("Bo")
    press_bar(page, "Go on")
    press_bar(page, "Go on from here")


def started_bleed(server: Server) -> str:
    """A bleed from a plan made by hand, kept beside the running server."""
    workshop = open_kept_workshop(str(server.home))
    machine = next(one for one in workshop.machines.all() if one.name.startswith("Skerry"))
    starter = Starter("Bo", "laptop", "level")
    return start(workshop.bench, machine, front(), bleed(), TECHNIQUES, starter).id


def started_fill(server: Server) -> str:
    """A fill of the tourer's clutch, begun by another device."""
    machines = ask(server.address, "/machines")["machines"]
    assert isinstance(machines, list)
    machine = next(one["id"] for one in machines if one["name"].startswith("Skerry"))
    body = {"work": "fill", "who": "Bo", "device": "laptop", "posture": "level"}
    request = Request(
        f"{server.address}/api/machines/{machine}/circuits/clutch/jobs",
        data=json.dumps(body).encode(),
        headers={"Content-Type": "application/json", "Origin": server.address},
        method="POST",
    )
    with urlopen(request) as answer:
        job: str = json.load(answer)["id"]
    return job


def test_a_fill_is_led_step_by_step_to_its_record(
    visits: Visits, server: Server, size: tuple[int, int]
) -> None:
    job = started_fill(server)
    page = visits(size).open(f"#/job/{job}")
    taken_over(page)
    walk = Walk(page, size)
    walk.until("I see it")
    page.get_by_role("button", name="Nothing comes").click()
    expect(page.get_by_role("status").filter(has_text="stop")).to_be_visible()
    bar_says(page, "I see it")
    walk.look("nothing comes")
    walk.until("Ready to roll")
    walk.press("Ready to roll")
    expect(page.get_by_text("every tap kept")).to_be_visible()
    assert walk.faults == {}

    record = ask(server.address, f"/jobs/{job}/record")
    assert record["work"] == "fill"
    gates = record["gates"]
    assert isinstance(gates, list)
    steps = [gate for gate in gates if gate["id"].startswith("step ")]
    assert len(steps) >= 2
    assert {gate["answer"] for gate in steps} == {"yes"}
    page.goto(f"{server.address}/#/job/{job}/record")
    expect(page.get_by_role("heading", name="Asked at the screws")).to_be_visible()


def test_a_bleed_asks_its_posture_and_marks_where_air_was(visits: Visits, server: Server) -> None:
    job = started_bleed(server)
    page = visits(PHONE).open(f"#/job/{job}")
    taken_over(page)
    walk = Walk(page, PHONE)
    walk.until("Filled to MAX")
    expect(page.get_by_role("link", name="Lever test first, to compare")).to_be_visible()
    walk.press("Filled to MAX")
    page.get_by_role("button", name="2 left caliper").click()
    expect(page.get_by_text("For this screw: caliper off, screw up.")).to_be_visible()
    walk.look("posture")
    # the keyboard answers it, and takes the answer back
    page.locator(BAR).first.focus()
    page.keyboard.press("Enter")
    bar_says(page, "Lead 5 strokes")
    page.keyboard.press("PageUp")
    expect(page.get_by_text("For this screw: caliper off, screw up.")).to_be_visible()
    walk.press("Yes")
    a_set_of_five(page)
    press_bar(page, "Topped up")
    press_bar(page, "in the cup")
    page.get_by_role("button", name="bubbles").first.click()
    expect(page.get_by_text("Air: 1 of 2 places still open")).to_be_visible()
    page.get_by_text("Air: 1 of 2 places still open").click()
    walk.look("air list")
    walk.until("Ready to roll")
    walk.press("Ready to roll")
    expect(page.get_by_text("every tap kept")).to_be_visible()
    assert walk.faults == {}

    record = ask(server.address, f"/jobs/{job}/record")
    assert record["work"] == "bleed"
    assert record["air"] == [
        {"id": "arch", "words": "w", "says": "seen out"},
        {"id": "switch", "words": "w", "says": "open"},
    ]
    page.goto(f"{server.address}/#/job/{job}/record")
    expect(page.get_by_text("By the plan's volume")).to_be_visible()
    expect(page.get_by_text("By the look")).to_have_count(0)
    expect(page.get_by_text("For this screw: caliper off, screw up.")).to_be_visible()
