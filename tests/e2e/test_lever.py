# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A lever test on a phone: read, judged, kept, compared with; and what it gives the bench."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from e2e.app import DESK, PHONE, ROOT, Server
from e2e.conftest import Visits
from e2e.routes import ask
from e2e.test_bench import BAR, start_a_job
from e2e.test_ends import Walk, one_screw

# invented readings of one brake, soft and then bled
SOFT = [(8, 9), (12, 17), (20, 24), (40, 29), (80, 34)]
PUMPED = [(8, 8), (12, 11), (20, 14), (40, 18), (80, 22)]
FIRM = [(8, 9), (12, 15), (20, 20), (40, 23), (80, 25)]
SINKING = [(0, 25), (10, 27), (20, 29), (30, 31), (45, 34), (60, 37)]
RUN_AXE = """
async () => {
  const found = await axe.run(document);
  return found.violations.flatMap((fault) =>
    fault.nodes.map((node) => `${fault.id}: ${node.html.slice(0, 200)}`));
}
"""


@pytest.fixture(scope="module")
def machine(server: Server) -> str:
    machines: Any = ask(server.address, "/machines")["machines"]
    return str(next(one["id"] for one in machines if one["name"].startswith("Skerry")))


def enter(page: Page, rows: list[tuple[int, int]]) -> None:
    for number, (force, travel) in enumerate(rows, 1):
        page.get_by_label(f"Force {number}, N").fill(f"{force}")
        page.get_by_label(f"Travel {number}, mm").fill(f"{travel}")


def start(page: Page) -> None:
    page.get_by_role("button", name="Start reading").click()


def choose(page: Page, kind: str) -> None:
    page.get_by_role("radio", name=kind).check(force=True)


def work_out(page: Page) -> None:
    page.get_by_role("button", name="Work it out").click()


def keep(page: Page, name: str) -> None:
    page.get_by_label("Your name").fill(name)
    page.get_by_role("button", name="Keep this test").click()
    expect(page.get_by_text("This test is kept")).to_be_visible()


def no_sideways(page: Page) -> None:
    wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert wide <= 0


def test_a_test_is_read_kept_and_compared_with_on_a_phone(
    visits: Visits, server: Server, machine: str
) -> None:
    visitor = visits(PHONE)
    page = visitor.open(f"#/m/{machine}/lever/front")
    start(page)
    enter(page, SOFT)
    choose(page, "Pumped")
    enter(page, PUMPED[:2])
    page.reload()
    choose(page, "Pumped")
    expect(page.get_by_label("Travel 2, mm")).to_have_value("11")
    enter(page, PUMPED)
    no_sideways(page)
    work_out(page)
    # what the figures are has tests of its own; here they are a middle with its band
    expect(page.locator(".figure")).to_have_text(
        re.compile(r"^[\d.]+ ml \([\d.]+ to [\d.]+\) of air, as far as these readings tell\.$")
    )
    expect(page.get_by_role("table", name="Parts of the travel").get_by_role("row")).to_have_count(
        8
    )
    no_sideways(page)
    keep(page, "Ada Fenn")
    page.get_by_role("button", name="Make it the good state").click()
    expect(page.get_by_text("It is this machine's good state")).to_be_visible()

    page.reload()
    expect(page.get_by_text("Ada Fenn, the good state")).to_be_visible()
    start(page)
    enter(page, FIRM)
    page.get_by_label("Compare with an earlier test").select_option(index=1)
    work_out(page)
    expect(page.locator(".figure")).to_have_text(
        re.compile(r"^[\d.]+ ml \([\d.]+ to [\d.]+\) of air left the brake\.$")
    )
    expect(page.get_by_role("table", name="Air before and after the work")).to_be_visible()
    keep(page, "Ada Fenn")
    expect(page.get_by_role("img", name=re.compile("Air from test to test"))).to_be_visible()
    no_sideways(page)

    kept: Any = ask(server.address, f"/machines/{machine}/circuits/front/lever-tests")
    first, second = kept["tests"]
    assert kept["baseline"] == first["id"]
    assert first["left_ml"] is None
    assert second["left_ml"]["p05"] > 0
    assert "safe to ride" not in page.locator("body").inner_text().lower()


def test_a_fault_stands_at_its_row(visits: Visits, machine: str) -> None:
    page = visits(PHONE).open(f"#/m/{machine}/lever/rear")
    start(page)
    enter(page, [(8, 9), (20, 15), (15, 20), (40, 23)])
    work_out(page)
    row = page.get_by_role("listitem").filter(has=page.get_by_label("Force 3, N"))
    expect(row).to_contain_text("The force goes from 20 to 15 N; readings go up only")
    expect(page.get_by_label("Force 3, N")).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_label("Force 1, N")).to_have_attribute("aria-invalid", "false")
    page.get_by_role("button", name="Remove row 3").click()
    work_out(page)
    expect(page.get_by_text("3 readings; at least 4, from a light pull")).to_be_visible()
    enter(page, [(8, 9), (20, 15), (40, 23), (80, 26)])
    work_out(page)
    expect(page.get_by_role("heading", name="Where the travel goes")).to_be_visible()


def test_a_lever_that_sinks_stops_the_work(visits: Visits, machine: str) -> None:
    page = visits(PHONE).open(f"#/m/{machine}/lever/front")
    start(page)
    enter(page, SOFT)
    choose(page, "Quick hold")
    for number, (second, travel) in enumerate(SINKING, 1):
        page.get_by_label(f"Seconds {number}", exact=True).fill(f"{second}")
        page.get_by_label(f"Travel {number}, mm").fill(f"{travel}")
    work_out(page)
    expect(page.get_by_role("alert")).to_contain_text("Stop work: the lever sinks")
    no_sideways(page)


def test_the_firm_gate_is_answered_by_a_person_after_a_test(visits: Visits, server: Server) -> None:
    machine, circuit = one_screw(server)
    page = visits(PHONE).open(f"#/m/{machine}/bench/{circuit}")
    job = start_a_job(page)
    offer = page.get_by_role("link", name="Answer it with a lever test")
    Walk(page, PHONE).until_seen(offer)
    offer.click()
    start(page)
    enter(page, FIRM)
    work_out(page)
    expect(page.get_by_label("Your name")).to_have_value("Bo")
    keep(page, "Bo")
    page.get_by_role("link", name="Back to the bench").click()
    expect(
        page.get_by_text(re.compile("The last lever test found .* of air, at most"))
    ).to_be_visible()
    answered = [one["id"] for one in gates(server, job) if one["answer"] is not None]
    assert "firm" not in answered
    page.locator(BAR).first.click()
    expect(page.get_by_text("The last lever test found")).to_have_count(0)
    expect(page.get_by_text("every tap kept")).to_be_visible()
    assert {one["id"]: one["answer"] for one in gates(server, job)}["firm"] == "yes"
    record: Any = ask(server.address, f"/jobs/{job}/record")
    assert [(one["what"], one["unit"]) for one in record["measured"]] == [
        ("air left, at most", "ml"),
        ("air left", "ml"),
    ]
    kept: Any = ask(server.address, f"/machines/{machine}/circuits/{circuit}/lever-tests")
    assert [one["job_id"] for one in kept["tests"]] == [job]


def gates(server: Server, job: str) -> list[dict[str, Any]]:
    record: Any = ask(server.address, f"/jobs/{job}/record")
    return list(record["gates"])


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_no_faults_by_axe_and_targets_are_large(
    visits: Visits, machine: str, size: tuple[int, int], theme: str
) -> None:
    page = visits(size, theme=theme, bypass_csp=True).open(f"#/m/{machine}/lever/front")
    script = (ROOT / "frontend" / "node_modules" / "axe-core" / "axe.min.js").read_text("utf-8")

    def look() -> None:
        page.evaluate(script)
        assert page.evaluate(RUN_AXE) == []
        small = page.eval_on_selector_all(
            "main :is(button, select, input:not([type=radio]), a.button, summary)",
            """found => found.filter(one => one.checkVisibility()
                 && one.getBoundingClientRect().height < 43.9).map(one => one.outerHTML)""",
        )
        assert small == []

    page.get_by_role("button", name="Start reading").wait_for()
    look()
    start(page)
    enter(page, [(8, 9), (20, 15), (15, 20), (40, 23)])
    work_out(page)
    expect(page.get_by_label("Force 3, N")).to_have_attribute("aria-invalid", "true")
    look()
    enter(page, SOFT)
    work_out(page)
    page.get_by_role("heading", name="Where the travel goes").wait_for()
    look()
