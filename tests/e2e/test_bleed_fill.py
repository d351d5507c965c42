# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A fill from its first gate to its record."""

import json
from urllib.request import Request, urlopen

from playwright.sync_api import expect

from e2e.app import Server
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import bar_says, press_bar
from e2e.test_ends import Walk


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
    page.get_by_role("textbox").first.fill("Bo")
    press_bar(page, "Go on")
    press_bar(page, "Go on from here")
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
