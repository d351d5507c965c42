# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every route: what it does, what it refuses, and that nothing is lost on the way."""

import json
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from fastapi.testclient import TestClient

from firmlever.bootstrap import KeptWorkshop
from firmlever.report.json import plan_schema
from web.web_bench import client, steady_workshop

SKERRY = files("firmlever").joinpath("data", "demo", "skerry.toml").read_text("utf-8")
BORE = "front/master/bore_mm"


@pytest.fixture
def workshop() -> KeptWorkshop:
    return steady_workshop()


@pytest.fixture
def browser(workshop: KeptWorkshop) -> TestClient:
    return client(workshop)


def changes(revision: int, *pairs: tuple[str, Any]) -> dict[str, Any]:
    sent = [{"key": key, "value": value} for key, value in pairs]
    return {"read_revision": revision, "changes": sent}


def refused(answer: Any, status: int, error: str) -> str:
    """Check a refusal, and return what it says."""
    assert (answer.status_code, answer.json()["error"]) == (status, error), answer.text
    return str(answer.json()["message"])


# Machines


def test_a_machine_from_its_looks_to_a_plan(browser: TestClient) -> None:
    answer = browser.post(
        "/api/machines", json={"outline": {"name": "Fulmar 600", "bike_class": "sport"}}
    )
    assert answer.status_code == 201
    machine = answer.json()
    assert (machine["name"], machine["revision"], machine["is_demo"]) == ("Fulmar 600", 1, False)
    assert [circuit["name"] for circuit in machine["circuits"]] == ["front", "rear"]
    assert browser.get("/api/machines").json()["machines"][0]["id"] == machine["id"]
    plan = browser.post(f"/api/machines/{machine['id']}/circuits/front/plan", json={})
    assert plan.status_code == 200
    assert plan.json()["plan"]["bike"] == "Fulmar 600"


def test_a_file_goes_in_and_comes_out_to_the_last_byte(browser: TestClient) -> None:
    text = "\ufeff" + SKERRY.replace("\n", "\r\n") + "# 摩 🛵 \r\n"
    answer = browser.post("/api/machines/file", content=text.encode("utf-8"))
    assert answer.status_code == 201
    out = browser.get(f"/api/machines/{answer.json()['id']}/file")
    assert out.content == text.encode("utf-8")
    assert out.headers["content-type"] == "text/plain; charset=utf-8"
    assert out.headers["content-disposition"] == 'attachment; filename="skerry-1100.toml"'


def test_all_faults_of_a_file_come_by_line(browser: TestClient) -> None:
    broken = SKERRY.replace('class = "tourer"', 'class = "tuorer"').replace("bore_mm = ", "bor = ")
    answer = browser.post("/api/machines/file", content=broken)
    refused(answer, 422, "circuit-file")
    problems = answer.json()["problems"]
    assert len(problems) > 3
    lines = broken.splitlines()
    assert all(
        "tuorer" in lines[one["line"] - 1] or "bor" in lines[one["line"] - 1] for one in problems
    )
    assert len(browser.get("/api/machines").json()["machines"]) == 4


def test_a_file_that_is_no_text_says_the_line(browser: TestClient) -> None:
    answer = browser.post("/api/machines/file", content=b"format = 1\n# caf\xe9\n")
    message = refused(answer, 422, "not-understood")
    assert "line 2, the file: it is not UTF-8 text; save it as plain text in UTF-8" in message


def test_several_values_are_kept_or_none(browser: TestClient) -> None:
    before = browser.get("/api/machines/id-4").json()
    sent = changes(1, (BORE, 14), ("front/left caliper/pad_mm", {"low": 2, "high": 3}))
    answer = browser.patch("/api/machines/id-4", json=sent)
    assert answer.status_code == 200
    parts = {part["id"]: part for part in answer.json()["bike"]["circuits"][0]["parts"]}
    assert parts["master"]["given"]["bore_mm"] == 14
    assert parts["left caliper"]["given"]["pad_mm"] == {"low": 2, "high": 3}
    assert answer.json()["revision"] == 2
    sent = changes(2, (BORE, 15), ("front/left caliper/pad_mm", -1))
    refused(browser.patch("/api/machines/id-4", json=sent), 422, "circuit-file")
    assert browser.get("/api/machines/id-4").json() == answer.json() != before


def test_pistons_are_set_as_a_list_and_values_are_forgotten(browser: TestClient) -> None:
    sizes = ("front/left caliper/pistons_mm", {"list": [30, 27.5]})
    answer = browser.patch("/api/machines/id-4", json=changes(1, sizes, (BORE, None)))
    parts = {part["id"]: part for part in answer.json()["bike"]["circuits"][0]["parts"]}
    assert parts["left caliper"]["pistons_mm"] == [30, 27.5]
    assert "bore_mm" not in parts["master"]["given"]
    assert answer.json()["circuits"][0]["known"] == 42


def test_an_unknown_key_is_named(browser: TestClient) -> None:
    answer = browser.patch("/api/machines/id-4", json=changes(1, ("frnt/master/bore_mm", 14)))
    assert "did you mean “front”?" in refused(answer, 422, "unknown-name")


def test_who_comes_second_overwrites_nothing(browser: TestClient) -> None:
    assert browser.patch("/api/machines/id-4", json=changes(1, (BORE, 14))).status_code == 200
    late = {"read_revision": 1, "text": SKERRY}
    for answer in (
        browser.patch("/api/machines/id-4", json=changes(1, (BORE, 15))),
        browser.put("/api/machines/id-4/file", json=late),
        browser.delete("/api/machines/id-4?read_revision=1"),
    ):
        message = refused(answer, 409, "changed-meanwhile")
        assert "you read revision 1, it is now at 2" in message
    assert browser.get("/api/machines/id-4").json()["revision"] == 2


def test_another_file_takes_the_place(browser: TestClient) -> None:
    text = SKERRY.replace("Skerry 1100", "Skerry 1200")
    sent = {"read_revision": 1, "text": text}
    answer = browser.put("/api/machines/id-4/file", json=sent)
    assert (answer.status_code, answer.json()["name"]) == (200, "Skerry 1200")
    assert answer.json()["text"] == text
    sent = {"read_revision": 2, "text": "format = 1"}
    refused(browser.put("/api/machines/id-4/file", json=sent), 422, "circuit-file")
    assert browser.get("/api/machines/id-4/file").text == text


GONE: list[tuple[str, str, dict[str, Any]]] = [
    ("GET", "", {}),
    ("PATCH", "", {"json": changes(1, (BORE, 14))}),
    ("PUT", "/file", {"json": {"read_revision": 1, "text": SKERRY}}),
    ("DELETE", "?read_revision=1", {}),
    ("GET", "/file", {}),
    ("GET", "/plans", {}),
    ("GET", "/circuits/front/scene", {}),
    ("GET", "/circuits/front/questions", {}),
    ("POST", "/circuits/front/plan", {"json": {}}),
    ("POST", "/circuits/front/plans", {"json": {}}),
]


@pytest.mark.parametrize(("method", "path", "sent"), GONE, ids=lambda value: str(value)[:24])
def test_a_removed_machine_is_gone_everywhere(
    browser: TestClient, method: str, path: str, sent: dict[str, Any]
) -> None:
    assert browser.delete("/api/machines/id-4?read_revision=1").status_code == 204
    answer = browser.request(method, f"/api/machines/id-4{path}", **sent)
    assert "“id-4”" in refused(answer, 404, "unknown-machine")


def test_a_machine_whose_text_is_not_sound_hides_no_other(workshop: KeptWorkshop) -> None:
    """As an older text may be, read by newer rules."""
    from dataclasses import replace

    spoilt = replace(workshop.machines.get("id-4"), text="format = 1", revision=2)
    workshop.machines.change(spoilt, 1)
    browser = client(workshop)
    listed = {one["id"]: one for one in browser.get("/api/machines").json()["machines"]}
    assert len(listed) == 4
    assert (listed["id-4"]["name"], listed["id-4"]["circuits"]) == ("Skerry 1100", [])
    refused(browser.get("/api/machines/id-4"), 422, "circuit-file")
    assert browser.get("/api/machines/id-4/file").text == "format = 1"
    mended = {"read_revision": 2, "text": SKERRY}
    assert browser.put("/api/machines/id-4/file", json=mended).status_code == 200


def test_the_demo_comes_back_as_it_was(browser: TestClient) -> None:
    before = {one["id"]: one for one in browser.get("/api/machines").json()["machines"]}
    browser.delete("/api/machines/id-1?read_revision=1")
    browser.patch("/api/machines/id-4", json=changes(1, (BORE, 14)))
    answer = browser.post("/api/demo")
    assert answer.status_code == 200
    after = {one["name"]: one for one in answer.json()["machines"]}
    assert sorted(after) == sorted(one["name"] for one in before.values())
    assert (after["Skerry 1100"]["id"], after["Skerry 1100"]["revision"]) == ("id-4", 3)
    assert after["Limpet 125"]["revision"] == 1
    assert browser.get("/api/machines/id-4/file").text == SKERRY


# Circuits


def test_a_plan_is_the_document_of_the_contract(browser: TestClient) -> None:
    answer = browser.post("/api/machines/id-4/circuits/front/plan", json={"seed": 3}).json()
    jsonschema.Draft202012Validator(plan_schema()).validate(answer["plan"])
    assert answer["scene"] == browser.get("/api/machines/id-4/circuits/front/scene").json()
    owners = {part["owner"] for part in answer["scene"]["parts"]}
    assert {"pot", "master", "left caliper"} <= owners


def test_a_fill_is_planned_like_any_other_work(browser: TestClient) -> None:
    answer = browser.post("/api/machines/id-4/circuits/front/plan", json={"work": "fill"}).json()
    jsonschema.Draft202012Validator(plan_schema()).validate(answer["plan"])
    assert [step["id"] for step in answer["plan"]["fill"]["steps"]][:2] == [
        "fill pot",
        "joint master",
    ]
    assert answer["plan"]["beyond"][0] in answer["plan"]["findings"]


@pytest.mark.parametrize(
    ("wish", "status", "error", "said"),
    [
        ({"target": 0.2}, 422, "impossible-option", "target cannot be 0.2"),
        ({"technique": "magic"}, 422, "unknown-name", "no lever technique called “magic”"),
        ({"fluid": "DOT 5"}, 422, "fluid-refused", "DOT 5 must not go into"),
        ({"method": "reverse"}, 422, "method-refused", "a reverse flush is refused here"),
        (
            {"method": "reverse", "work": "fill"},
            422,
            "method-refused",
            "a reverse fill is refused here: it pushes what lies in the caliper up into the ABS",
        ),
        ({"work": "wash"}, 422, "not-understood", "work: 'wash'"),
        ({"method": "pray"}, 422, "not-understood", "method: 'pray'"),
        ({"seed": -1}, 422, "not-understood", "seed: -1"),
        ({"seed": 1.5}, 422, "not-understood", "seed: 1.5"),
        ({"pistons_home": 1}, 422, "not-understood", "pistons_home: 1"),
        ({"speed": 1}, 422, "not-understood", "speed: 1; Extra inputs are not permitted"),
        ([], 422, "not-understood", "the body: []"),
    ],
    ids=str,
)
def test_a_wish_that_cannot_be_met(
    browser: TestClient, wish: Any, status: int, error: str, said: str
) -> None:
    answer = browser.post("/api/machines/id-4/circuits/front/plan", json=wish)
    assert said in refused(answer, status, error)


@pytest.mark.parametrize("path", ["scene", "questions", "plan", "plans"])
def test_a_circuit_that_is_not_there(browser: TestClient, path: str) -> None:
    method = "POST" if path.startswith("plan") else "GET"
    sent: dict[str, Any] = {"json": {}} if method == "POST" else {}
    answer = browser.request(method, f"/api/machines/id-4/circuits/frnt/{path}", **sent)
    assert "did you mean “front”?" in refused(answer, 404, "unknown-name")


def test_questions_come_best_first(browser: TestClient) -> None:
    asked = browser.get("/api/machines/id-2/circuits/front/questions").json()["questions"]
    hasty = [one["per_cent"] for one in asked if "unswept_ml" not in one["key"]]
    assert hasty[:3] == sorted(hasty[:3], reverse=True)
    assert asked[0]["per_cent"] > 5
    answered = browser.patch(
        "/api/machines/id-2", json=changes(1, (asked[0]["key"], asked[0]["low"] + 0.1))
    )
    assert answered.status_code == 200
    again = browser.get("/api/machines/id-2/circuits/front/questions").json()["questions"]
    assert again[0]["key"] != asked[0]["key"]


def test_every_question_can_be_answered_by_its_key(browser: TestClient) -> None:
    """Independent: the middle of the bounds goes in under the very key of the question."""
    for circuit in ("front", "rear"):
        at = f"/api/machines/id-1/circuits/{circuit}/questions"
        for one in browser.get(at).json()["questions"]:
            for key in (one["key"], *one["also"]):
                answer = browser.patch("/api/machines/id-1", json=changes(1, (key, 1e9)))
                message = refused(answer, 422, "circuit-file")
                assert "too high" in message or "pistons_mm" in key


def test_a_kept_plan_outlives_changes_and_goes_with_its_machine(browser: TestClient) -> None:
    kept = browser.post("/api/machines/id-4/circuits/rear/plans", json={"target": 0.9})
    assert kept.status_code == 201
    plan_id = kept.json()["id"]
    document = browser.get(f"/api/plans/{plan_id}")
    assert document.json()["target"] == 0.9
    browser.patch("/api/machines/id-4", json=changes(1, ("rear/pot/max_ml", 30)))
    assert browser.get(f"/api/plans/{plan_id}").text == document.text
    listed = browser.get("/api/machines/id-4/plans").json()["plans"]
    assert [(one["id"], one["machine_revision"]) for one in listed] == [(plan_id, 1)]
    browser.delete("/api/machines/id-4?read_revision=2")
    assert plan_id in refused(browser.get(f"/api/plans/{plan_id}"), 404, "unknown-plan")


# Bodies that are no bodies


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b'{"outline": {"name": "caf\xe9", "bike_class": "sport"}}',
        b'{"outline": {"name": "\\ud800", "bike_class": "sport"}}',
        b"[" * 30_000,
        b"null",
        b'{"outline": {"name": "A", "bike_class": "sport", "front_discs": NaN}}',
        b'{"outline": {"name": "A", "bike_class": "sport", "front_discs": 1e999}}',
        b'{"outline": {"name": "A", "bike_class": "sport", "front_discs": true}}',
        b'{"outline": {"name": "A", "bike_class": "sport", "front_discs": "2"}}',
        b'{"outline": {"name": "A", "bike_class": "sport", "front_discs": ' + b"9" * 5000 + b"}}",
    ],
    ids=lambda body: str(body[:50]),
)
def test_a_body_that_cannot_be_used(browser: TestClient, body: bytes) -> None:
    headers = {"content-type": "application/json"}
    answer = browser.post("/api/machines", content=body, headers=headers)
    refused(answer, 422, "not-understood")
    json.dumps(answer.json())
    assert len(browser.get("/api/machines").json()["machines"]) == 4


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-1e999", '"14"', "true", "[]", "{}"])
def test_a_value_that_is_no_value(browser: TestClient, value: str) -> None:
    body = f'{{"read_revision": 1, "changes": [{{"key": "{BORE}", "value": {value}}}]}}'
    headers = {"content-type": "application/json"}
    answer = browser.patch("/api/machines/id-4", content=body, headers=headers)
    refused(answer, 422, "not-understood")


@pytest.mark.parametrize("revision", ["", "x", "-1", "1.5", "9" * 30])
def test_a_revision_that_is_none(browser: TestClient, revision: str) -> None:
    answer = browser.delete(f"/api/machines/id-4?read_revision={revision}")
    assert "read_revision" in refused(answer, 422, "not-understood")


def test_a_form_of_another_site_is_no_json(browser: TestClient) -> None:
    """A plain form needs no leave to be sent, so it must not count as JSON."""
    headers = {"content-type": "text/plain"}
    answer = browser.post("/api/machines/id-4/circuits/front/plan", content="{}", headers=headers)
    refused(answer, 422, "not-understood")
