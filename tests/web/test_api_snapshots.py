# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Answers kept under tests/snapshots/api (regression); the pages check theirs against them."""

import json
from typing import Any

import pytest
from fastapi.testclient import TestClient

from firmlever import __version__
from snapshot import FOLDER, same_as_kept
from web.web_bench import client, steady_workshop

LOOKS = {
    "name": "Fulmar 600",
    "bike_class": "sport",
    "front_discs": 2,
    "front_layout": "opposed",
    "fork": "caliper to caliper",
    "abs_unit": False,
    "rear_disc": True,
    "hydraulic_clutch": None,
    "fluid": "DOT 4",
}


@pytest.fixture(scope="module")
def browser() -> TestClient:
    return client(steady_workshop())


@pytest.fixture(scope="module")
def ids(browser: TestClient) -> dict[str, str]:
    machines = browser.get("/api/machines").json()["machines"]
    return {machine["name"].split()[0].lower(): machine["id"] for machine in machines}


def keep(name: str, answer: Any) -> None:
    """Compare an answer with the kept one; what changes by itself is masked."""
    text = json.dumps(answer, indent=1, ensure_ascii=False) + "\n"
    same_as_kept(f"api/{name}.json", text.replace(json.dumps(__version__), '"0.0.0"'))


def keep_form(name: str, answer: Any) -> None:
    """Compare only keys and kinds of value: the figures have tests of their own."""
    kept = FOLDER / "api" / f"{name}.json"
    if not kept.exists() or form(answer) != form(json.loads(kept.read_text("utf-8"))):
        keep(name, answer)


def form(value: Any) -> Any:
    """What is left of a value without its figures and words.

    >>> form({"a": [1, 2.5, None]}) == form({"a": [None, 3, 1.5]})
    True
    >>> form({"a": 1}) == form({"a": "1"})
    False
    """
    match value:
        case dict():
            return tuple(sorted((key, form(entry)) for key, entry in value.items()))
        case list():
            return "list", frozenset(map(form, value))
        case bool() | None:
            return str(value is None)
        case int() | float():
            return "number"
    return type(value).__name__


@pytest.mark.parametrize("name", ["status", "techniques", "fluids", "machines"])
def test_lists(browser: TestClient, name: str) -> None:
    keep(name, browser.get(f"/api/{name}").json())


@pytest.mark.parametrize("name", ["skerry", "dunlin", "limpet", "marram"])
def test_machine(browser: TestClient, ids: dict[str, str], name: str) -> None:
    keep(f"machine-{name}", browser.get(f"/api/machines/{ids[name]}").json())


CIRCUITS = [
    ("skerry", "front"),
    ("skerry", "clutch"),
    ("dunlin", "front"),
    ("limpet", "front"),
    ("marram", "rear"),
]


def test_preview(browser: TestClient) -> None:
    before = browser.get("/api/machines").json()
    answer = browser.post("/api/preview", json={"outline": LOOKS})
    assert [one["circuit"] for one in answer.json()["scenes"]] == ["front", "rear"]
    assert browser.get("/api/machines").json() == before
    keep_form("preview", answer.json())


@pytest.mark.parametrize(("name", "circuit"), CIRCUITS)
def test_scene(browser: TestClient, ids: dict[str, str], name: str, circuit: str) -> None:
    answer = browser.get(f"/api/machines/{ids[name]}/circuits/{circuit}/scene")
    keep_form(f"scene-{name}-{circuit}", answer.json())


@pytest.mark.parametrize(("name", "circuit"), CIRCUITS)
def test_plan(browser: TestClient, ids: dict[str, str], name: str, circuit: str) -> None:
    answer = browser.post(f"/api/machines/{ids[name]}/circuits/{circuit}/plan", json={})
    keep_form(f"plan-{name}-{circuit}", answer.json())


@pytest.mark.parametrize(("name", "circuit"), [("skerry", "front"), ("marram", "rear")])
def test_fill(browser: TestClient, ids: dict[str, str], name: str, circuit: str) -> None:
    at = f"/api/machines/{ids[name]}/circuits/{circuit}/plan"
    keep_form(f"plan-fill-{name}-{circuit}", browser.post(at, json={"work": "fill"}).json())


def test_plan_with_every_wish(browser: TestClient, ids: dict[str, str]) -> None:
    wish = {
        "method": "vacuum",
        "technique": "hand pump",
        "target": 0.9,
        "pistons_home": True,
        "fluid": "DOT 5.1",
        "workshop_degc": 12,
        "seed": 7,
    }
    at = f"/api/machines/{ids['skerry']}/circuits/front/plan"
    keep_form("plan-wish", browser.post(at, json=wish).json())


@pytest.mark.parametrize(("name", "circuit"), CIRCUITS)
def test_questions(browser: TestClient, ids: dict[str, str], name: str, circuit: str) -> None:
    answer = browser.get(f"/api/machines/{ids[name]}/circuits/{circuit}/questions")
    keep_form(f"questions-{name}-{circuit}", answer.json())


def test_machine_started_from_its_looks() -> None:
    answer = client(steady_workshop(furnished=False)).post("/api/machines", json={"outline": LOOKS})
    keep("machine-started", answer.json())


def test_kept_plans() -> None:
    browser = client(steady_workshop())
    kept = browser.post("/api/machines/id-4/circuits/rear/plans", json={}).json()
    document = browser.get(f"/api/plans/{kept['id']}").json()
    assert document == browser.post("/api/machines/id-4/circuits/rear/plan", json={}).json()["plan"]
    plans = browser.get("/api/machines/id-4/plans").json()["plans"]
    assert [plan["id"] for plan in plans] == [kept["id"]]
    keep_form("plans", {"plans": plans})


BROKEN = 'format = 1\n[bike]\nname = "Fulmar"\nclass = "sprot"\nmass_kg = -1\n'
LATE = {"read_revision": 9, "changes": [{"key": "front/master/bore_mm", "value": 14}]}
REFUSALS: dict[str, tuple[str, str, dict[str, Any]]] = {
    "file": ("POST", "/machines/file", {"content": BROKEN}),
    "gone": ("GET", "/machines/nobody", {}),
    "late": ("PATCH", "/machines/id-4", {"json": LATE}),
    "misfit": ("POST", "/machines", {"json": {"outline": {**LOOKS, "front_discs": 3}, "x": 1}}),
    "circuit": ("GET", "/machines/id-4/circuits/frnt/scene", {}),
    "fluid": ("POST", "/machines/id-4/circuits/rear/plan", {"json": {"fluid": "DOT 5"}}),
    "large": ("POST", "/machines/file", {"content": b"#" * 1_000_001}),
    "page": ("GET", "/nothing", {}),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_refusal(browser: TestClient, name: str) -> None:
    method, path, sent = REFUSALS[name]
    keep(f"refusal-{name}", browser.request(method, f"/api{path}", **sent).json())
