# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Starting a machine: its drawing beforehand refuses what starting does, and an empty file."""

from collections.abc import Mapping

import pytest
from fastapi.testclient import TestClient

from web.web_bench import client, steady_workshop

SOUND = {"name": "Fulmar 600", "bike_class": "sport"}
BAD: tuple[Mapping[str, object], ...] = (
    {"fluid": "DOT 7"},
    {"name": ""},
    {"name": "x" * 701},
    {"name": "a\nb"},
    {"name": "tab\there \x00"},
    {"front_discs": 3},
    {"front_discs": 0, "rear_disc": False, "hydraulic_clutch": False},
    {"front_layout": "sideways"},
    {"fork": "somehow"},
    {"bike_class": "hovercraft"},
    {"abs_unit": "perhaps"},
    {"wings": 2},
)


@pytest.fixture
def browser() -> TestClient:
    return client(steady_workshop())


@pytest.mark.parametrize("bad", BAD, ids="-".join)
def test_it_refuses_in_the_same_words_as_starting(
    browser: TestClient, bad: Mapping[str, object]
) -> None:
    before = browser.get("/api/machines").json()
    sent = {"outline": {**SOUND, **bad}}
    preview, started = (
        browser.post("/api/preview", json=sent),
        browser.post("/api/machines", json=sent),
    )
    assert started.status_code == 422
    assert (preview.status_code, preview.json()) == (started.status_code, started.json())
    assert browser.get("/api/machines").json() == before


def test_it_draws_what_starting_would_keep(browser: TestClient) -> None:
    drawn = browser.post("/api/preview", json={"outline": SOUND}).json()["scenes"]
    machine = browser.post("/api/machines", json={"outline": SOUND}).json()["id"]
    for one in drawn:
        kept = browser.get(f"/api/machines/{machine}/circuits/{one['circuit']}/scene").json()
        assert kept == one["scene"]


def test_an_empty_file_is_told_what_a_file_begins_with(browser: TestClient) -> None:
    answer = browser.post("/api/machines/file", content=b"")
    assert (answer.status_code, answer.json()["error"]) == (422, "circuit-file")
    assert answer.json()["message"].endswith(
        "format: it is missing; the file starts with format = 1"
    )
