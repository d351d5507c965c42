# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A job handed out as one page: whole, asking nobody, and closed to what a name may hold."""

import json
from base64 import b64encode
from dataclasses import replace
from datetime import date
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from firmlever.report.carried_page import PageParts, carried_name, carried_page
from web.web_bench import client, keep_job, steady_workshop

SCRIPT = 'document.title="ä" // made for this test\n'
STYLE = 'body::after { content: "ß" }\n'
HOSTILE = "</script><script>alert(1)</script><!-- \"\u2028 & \u2029 '><b>"
PAGE = "/api/jobs/job-1/page"


class Elements(HTMLParser):
    """Elements in their order, each with its attributes and the text right inside it."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None], str]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs), ""))

    def handle_data(self, data: str) -> None:
        if self.found:
            tag, attributes, text = self.found[-1]
            self.found[-1] = (tag, attributes, text + data)

    def handle_endtag(self, tag: str) -> None:
        self.found.append(("", {}, ""))

    def all(self, tag: str) -> list[tuple[dict[str, str | None], str]]:
        return [(attributes, text) for name, attributes, text in self.found if name == tag]


@pytest.fixture
def browser(tmp_path: Path) -> TestClient:
    """An app whose pages are built, with a job under way."""
    workshop = steady_workshop()
    keep_job(workshop)
    carried = tmp_path / "carried"
    carried.mkdir()
    (carried / "page.js").write_text(SCRIPT, encoding="utf-8", newline="\n")
    (carried / "page.css").write_text(STYLE, encoding="utf-8", newline="\n")
    return client(workshop, tmp_path)


def carried_document(elements: Elements) -> Any:
    (found,) = [text for said, text in elements.all("script") if said.get("id") == "carried-job"]
    return json.loads(found)


def test_the_page_is_a_file_to_keep_with_the_job_as_it_is_told_elsewhere(
    browser: TestClient,
) -> None:
    answer = browser.get(PAGE)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert answer.headers["content-disposition"] == (
        'attachment; filename="job-skerry-1100-front-2026-05-01.html"'
    )
    assert answer.headers["cache-control"] == "no-store"
    # opened at the app's own address it could do nothing: no script inside a page runs there
    assert "script-src 'self';" in answer.headers["content-security-policy"]
    elements = Elements(answer.text)
    assert answer.text.startswith("<!doctype html>\n")
    assert elements.all("html")[0][0] == {"lang": "en-GB"}
    assert elements.all("title")[0][1] == "Skerry 1100 · front · firmlever"
    assert {"name": "viewport", "content": "width=device-width, initial-scale=1"} in [
        attributes for attributes, _ in elements.all("meta")
    ]
    said = carried_document(elements)
    assert (said["kind"], said["format"]) == ("carried job", 1)
    assert said["job"] == browser.get("/api/jobs/job-1").json()
    levels = browser.get("/api/serving").json()["levels"]
    assert said["level"] == next(one for one in levels if one["name"] == "carried page")


def test_the_policy_lets_this_script_and_this_style_through_and_nothing_else(
    browser: TestClient,
) -> None:
    elements = Elements(browser.get(PAGE).text)
    (policy,) = [
        said["content"] or ""
        for said, _ in elements.all("meta")
        if said.get("http-equiv") == "Content-Security-Policy"
    ]
    (script,) = [text for said, text in elements.all("script") if not said]
    (style,) = [text for _, text in elements.all("style")]
    assert (script, style) == (SCRIPT, STYLE)
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert rules == {
        "default-src": "'none'",
        "script-src": f"'sha256-{b64encode(sha256(SCRIPT.encode()).digest()).decode()}'",
        "style-src": f"'sha256-{b64encode(sha256(STYLE.encode()).digest()).decode()}'",
        "img-src": "data:",
        "connect-src": "'none'",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    assert not [name for name, _, _ in elements.found if name in ("link", "img", "iframe")]
    assert not [said for _, said, _ in elements.found if {"src", "href"} & set(said)]


def test_no_name_breaks_out_of_its_place(tmp_path: Path) -> None:
    workshop = steady_workshop()
    keep_job(workshop, "job-0")
    plain = workshop.jobs.get("job-0")
    sheet = {**json.loads(plain.sheet), "bike": HOSTILE, "circuit": HOSTILE}
    text = json.dumps(sheet, ensure_ascii=False)
    assert "\u2028" in text
    workshop.jobs.start(replace(plain, id="job-1", circuit=HOSTILE, sheet=text), ())
    carried = tmp_path / "carried"
    carried.mkdir()
    (carried / "page.js").write_text(SCRIPT, encoding="utf-8", newline="\n")
    (carried / "page.css").write_text(STYLE, encoding="utf-8", newline="\n")
    answer = client(workshop, tmp_path).get(PAGE)
    assert answer.headers["content-disposition"] == (
        'attachment; filename="job-script-script-alert-1-script-b-'
        'script-script-alert-1-script-b-2026-05-01.html"'
    )
    elements = Elements(answer.text)
    assert [said for said, _ in elements.all("script")] == [
        {"type": "application/json", "id": "carried-job"},
        {},
    ]
    assert elements.all("b") == []
    assert "\u2028" not in answer.text.partition("<body>")[2]
    assert "<!--" not in answer.text
    assert elements.all("title")[0][1] == f"{HOSTILE} · {HOSTILE} · firmlever"
    assert carried_document(elements)["job"]["sheet"]["bike"] == HOSTILE


def test_a_document_is_written_so_that_only_json_reads_it() -> None:
    page = carried_page(PageParts("", ""), "x", json.dumps([HOSTILE], ensure_ascii=False))
    inside = page.partition('id="carried-job">')[2].partition("</script>")[0]
    assert inside == (
        r'["\u003c/script>\u003cscript>alert(1)\u003c/script>\u003c!-- \"\u2028 & \u2029 '
        "'>\\u003cb>\"]"
    )
    assert json.loads(inside) == [HOSTILE]


@pytest.mark.parametrize(
    ("bike", "circuit", "name"),
    [
        ("Skerry 1100", "front", "job-skerry-1100-front-2026-05-01.html"),
        ("Grève Été", "rear/left", "job-greve-ete-rear-left-2026-05-01.html"),
        ("../../..", "\\\\", "job-2026-05-01.html"),
        ("山", "front", "job-front-2026-05-01.html"),
        ('a"; x=\r\n', "b", "job-a-x-b-2026-05-01.html"),
        ("long" * 50, "c", f"job-{'long' * 10}-c-2026-05-01.html"),
    ],
)
def test_a_file_name_is_plain_whatever_the_bike_is_called(
    bike: str, circuit: str, name: str
) -> None:
    assert carried_name(bike, circuit, date(2026, 5, 1)) == name


def test_a_job_that_is_not_there_and_pages_that_are_not_built_are_told(
    browser: TestClient,
) -> None:
    gone = browser.get("/api/jobs/no-such/page")
    assert (gone.status_code, gone.json()["error"]) == (404, "unknown-job")
    workshop = steady_workshop()
    keep_job(workshop)
    bare = client(workshop).get(PAGE)
    assert (bare.status_code, bare.json()["error"]) == (404, "no-pages")


@pytest.mark.parametrize(
    "headers", [{"host": "elsewhere.example"}, {"origin": "http://elsewhere.example"}]
)
def test_who_does_not_come_from_here_gets_no_page(
    browser: TestClient, headers: dict[str, str]
) -> None:
    answer = browser.get(PAGE, headers=headers)
    assert (answer.status_code, answer.json()["error"]) == (403, "not-from-here")
    assert browser.post(PAGE).status_code == 405
