# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Who is answered, how much may be sent, what no answer lacks, and the built pages."""

import logging
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from web.web_bench import HOME, client, steady_workshop


@pytest.fixture
def dist(tmp_path: Path) -> Path:
    (tmp_path / "assets").mkdir()
    (tmp_path / "index.html").write_text("<!doctype html><title>firmlever</title>", "utf-8")
    (tmp_path / "assets" / "app-4f2a.js").write_text("export {};", "utf-8")
    return tmp_path


@pytest.fixture
def browser(dist: Path) -> TestClient:
    return client(steady_workshop(), dist)


@pytest.mark.parametrize("host", ["127.0.0.1:8017", "localhost:8017", "[::1]:8017"])
def test_this_machine_is_answered(browser: TestClient, host: str) -> None:
    headers = {"host": host, "origin": f"http://{host}"}
    assert browser.get("/api/status", headers=headers).status_code == 200


@pytest.mark.parametrize(
    "host",
    ["", "127.0.0.1", "127.0.0.1:80", "localhost:9000", "firmlever.example:8017", "0.0.0.0:8017"],
)
@pytest.mark.parametrize("path", ["/", "/api/machines", "/openapi.json"])
def test_another_host_is_refused(browser: TestClient, host: str, path: str) -> None:
    answer = browser.get(path, headers={"host": host})
    assert (answer.status_code, answer.json()["error"]) == (403, "not-from-here")
    assert answer.json()["message"] == (
        f"the host of this request is “{host}”, and only this machine is answered; open {HOME}/"
    )


@pytest.mark.parametrize(
    "origin",
    [
        "null",
        "http://evil.example",
        "http://127.0.0.1",
        "http://127.0.0.1:8018",
        "https://127.0.0.1:8017",
        "http://localhost:8017",
    ],
)
def test_another_origin_changes_nothing(browser: TestClient, origin: str) -> None:
    answer = browser.delete("/api/machines/id-1?read_revision=1", headers={"origin": origin})
    assert (answer.status_code, answer.json()["error"]) == (403, "not-from-here")
    assert browser.get("/api/machines/id-1").status_code == 200


def test_on_the_usual_port_the_host_has_none() -> None:
    bare = TestClient(client(steady_workshop()).app, base_url="http://127.0.0.1")
    assert bare.get("/api/status").status_code == 200


def chunks(size: int, count: int) -> Iterator[bytes]:
    for _ in range(count):
        yield b"#" * size


@pytest.mark.parametrize(
    ("path", "body", "most"),
    [
        ("/api/machines/file", b"#" * 5_000_000, "1 MB"),
        ("/api/machines/file", chunks(100_000, 50), "1 MB"),
        ("/api/machines", b'"' + b"x" * 64_000 + b'"', "64 kB"),
        ("/api/machines", chunks(1000, 65), "64 kB"),
        ("/api/demo", b"#" * 64_001, "64 kB"),
    ],
    ids=["file", "file in pieces", "JSON", "JSON in pieces", "no body wanted"],
)
def test_too_much_is_refused_unread(browser: TestClient, path: str, body: Any, most: str) -> None:
    answer = browser.post(path, content=body)
    assert (answer.status_code, answer.json()["error"]) == (413, "too-large")
    assert f"over {most}" in answer.json()["message"]
    assert len(browser.get("/api/machines").json()["machines"]) == 4


def test_a_file_of_just_one_megabyte_is_read(browser: TestClient) -> None:
    text = browser.get("/api/machines/id-4/file").content
    full = text + b"#" * (1_000_000 - len(text))
    assert browser.post("/api/machines/file", content=full).status_code == 201


@pytest.mark.parametrize(
    ("path", "status", "cache"),
    [
        ("/", 200, "no-cache"),
        ("/index.html", 200, "no-cache"),
        ("/assets/app-4f2a.js", 200, "public, max-age=31536000, immutable"),
        ("/assets/gone.js", 404, "no-store"),
        ("/api/machines", 200, "no-store"),
        ("/api/nothing", 404, "no-store"),
        ("/docs", 404, "no-store"),
        ("/redoc", 404, "no-store"),
        ("/../pyproject.toml", 404, "no-store"),
        ("/%2e%2e/%2e%2e/etc/hosts", 404, "no-store"),
        ("/openapi.json", 200, "no-cache"),
    ],
)
def test_headers_of_every_answer(browser: TestClient, path: str, status: int, cache: str) -> None:
    answer = browser.get(path)
    assert answer.status_code == status
    assert answer.headers["cache-control"] == cache
    policy = dict(
        part.split(" ", 1) for part in answer.headers["content-security-policy"].split("; ")
    )
    assert policy == {
        "default-src": "'self'",
        "style-src": "'self'",
        "script-src": "'self'",
        "worker-src": "'self'",
        "img-src": "'self' data:",
        "object-src": "'none'",
        "frame-ancestors": "'none'",
        "base-uri": "'none'",
        "form-action": "'self'",
    }
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert "access-control-allow-origin" not in answer.headers


def test_a_wrong_method_is_said(browser: TestClient) -> None:
    answer = browser.put("/api/status")
    assert answer.status_code == 405
    assert "GET" in answer.headers["allow"]
    assert answer.json()["message"] == "PUT /api/status leads nowhere; the app starts at /"


def test_the_pages_are_served(browser: TestClient) -> None:
    assert "<title>firmlever</title>" in browser.get("/").text
    assert client(steady_workshop()).get("/").status_code == 404


def test_nothing_in_the_description_comes_from_elsewhere(browser: TestClient) -> None:
    text = browser.get("/openapi.json").text
    assert "https://" not in text
    assert "http://" not in text


def test_a_fault_of_our_own_is_owned_up_to(
    browser: TestClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(_shelf: object) -> None:
        raise ZeroDivisionError("secret insides")

    monkeypatch.setattr("firmlever.services.machines.described", broken)
    with caplog.at_level(logging.ERROR):
        answer = browser.get("/api/machines")
    assert answer.status_code == 500
    assert answer.json() == {
        "error": "internal",
        "message": "firmlever met a fault of its own (ZeroDivisionError); nothing was changed, "
        "and what it was stands where the app was started",
        "problems": [],
    }
    assert answer.headers["cache-control"] == "no-store"
    assert "secret insides" in caplog.text
