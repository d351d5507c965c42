# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The drawer that keeps taps, on a real browser's database; the front end's own tests have none."""

import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page

from e2e.app import PHONE, ROOT
from e2e.conftest import Visits

WITH_DRAWER = """async ([code, work]) => {
  const module = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
  const { openDrawer } = await import(module);
  return await eval(work)(openDrawer);
}"""
ENTRY = """(id, job, refused = null) => ({ id, job, event: { id, kind: "paused" }, refused })"""


@pytest.fixture(scope="module")
def drawer_code(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The drawer as one module."""
    frontend = ROOT / "frontend"
    built = Path(tmp_path_factory.mktemp("drawer")) / "drawer.js"
    bundler = frontend / "node_modules" / "rolldown" / "bin" / "cli.mjs"
    words = ["node", f"{bundler}", "src/outbox/drawer.ts", "--format", "esm", "-o", f"{built}"]
    subprocess.run(words, cwd=frontend, check=True, capture_output=True)
    return built.read_text(encoding="utf-8")


@pytest.fixture
def page(visits: Visits) -> Page:
    return visits(PHONE, bypass_csp=True).open()


def with_drawer(page: Page, code: str, work: str) -> object:
    return page.evaluate(WITH_DRAWER, [code, work])


def test_what_is_put_in_outlives_a_reload_and_is_told_by_job(page: Page, drawer_code: str) -> None:
    put = f"""async (openDrawer) => {{
        const entry = {ENTRY}; const drawer = await openDrawer();
        await drawer.put([entry("b", "one"), entry("a", "one", "why"), entry("c", "two")]);
        await drawer.put([entry("b", "one")]);
        await drawer.putCopy("one", {{ sheet: 1 }});
        return drawer.lasts;
    }}"""
    assert with_drawer(page, drawer_code, put) is True
    page.reload()
    look = """async (openDrawer) => {
        const drawer = await openDrawer();
        const told = async (job) => (await drawer.all(job)).map(({ id, refused }) => [id, refused]);
        return [await told("one"), await told("two"), await told("three"),
                await drawer.copy("one"), (await drawer.copy("two")) ?? null];
    }"""
    assert with_drawer(page, drawer_code, look) == [
        [["a", "why"], ["b", None]],
        [["c", None]],
        [],
        {"sheet": 1},
        None,
    ]


def test_only_what_is_named_is_taken_out(page: Page, drawer_code: str) -> None:
    work = f"""async (openDrawer) => {{
        const entry = {ENTRY}; const drawer = await openDrawer();
        await drawer.put(["a", "b", "c"].map((id) => entry(id, "one")));
        await drawer.remove(["b", "nobody"]);
        return (await drawer.all("one")).map(({{ id }}) => id);
    }}"""
    assert with_drawer(page, drawer_code, work) == ["a", "c"]


def test_a_batch_goes_in_whole_or_not_at_all(page: Page, drawer_code: str) -> None:
    work = f"""async (openDrawer) => {{
        const entry = {ENTRY}; const drawer = await openDrawer();
        const bad = {{ ...entry("b", "one"), event: () => 0 }};
        const said = await drawer.put([entry("a", "one"), bad]).then(() => "put", () => "refused");
        return [said, (await drawer.all("one")).length];
    }}"""
    assert with_drawer(page, drawer_code, work) == ["refused", 0]


def test_two_pages_share_it(page: Page, drawer_code: str) -> None:
    other = page.context.new_page()
    other.goto(page.url)
    put = f"""async (openDrawer) => (await openDrawer()).put([({ENTRY})("a", "one")])"""
    with_drawer(page, drawer_code, put)
    look = """async (openDrawer) => (await (await openDrawer()).all("one")).map(({ id }) => id)"""
    assert with_drawer(other, drawer_code, look) == ["a"]


def test_without_a_database_it_says_that_nothing_lasts(page: Page, drawer_code: str) -> None:
    work = f"""async (openDrawer) => {{
        const refusing = {{ open: () => {{ throw new DOMException("no", "SecurityError"); }} }};
        const drawer = await openDrawer(refusing);
        await drawer.put([({ENTRY})("a", "one")]);
        return [drawer.lasts, (await drawer.all("one")).length];
    }}"""
    assert with_drawer(page, drawer_code, work) == [False, 1]
