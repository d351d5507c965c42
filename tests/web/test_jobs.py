# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Jobs over the interface: started, watched, fed with events that are kept once or refused."""

import json
from typing import Any

import pytest
from fastapi.testclient import TestClient

from firmlever.bootstrap import KeptWorkshop
from firmlever.errors import NotWrittenError
from web.web_bench import client, keep_job, steady_workshop

START = {"who": "Ann", "device": "red phone", "posture": "level"}
ANOTHER = "0197a3c0-0009-7000-8000-00000000abcd"


@pytest.fixture(scope="module")
def furnished() -> KeptWorkshop:
    """One workshop for all: each test starts jobs of its own."""
    return steady_workshop()


@pytest.fixture
def browser(furnished: KeptWorkshop) -> TestClient:
    return client(furnished)


@pytest.fixture(scope="module")
def started(furnished: KeptWorkshop) -> dict[str, Any]:
    answer = client(furnished).post("/api/machines/id-4/circuits/rear/jobs", json=START)
    assert answer.status_code == 201, answer.text
    return dict(answer.json())


@pytest.fixture
def job(furnished: KeptWorkshop, started: dict[str, Any]) -> dict[str, Any]:
    """A job without its own plan: a planned one under another name."""
    from dataclasses import replace

    kept = furnished.jobs.get(started["id"])
    own = replace(kept, id=furnished.new_id())
    furnished.jobs.start(own, ())
    return {"id": own.id}


def event(number: int, **more: Any) -> dict[str, Any]:
    stamp = {
        "id": f"0197a3c0-{number:04x}-7000-8000-{number:012x}",
        "at": "2026-05-01T09:30:00.000Z",
        "who": "Ann",
        "device": "red phone",
        "kind": "paused",
    }
    return {**stamp, **more}


def send(browser: TestClient, job: dict[str, Any], *events: Any) -> Any:
    return browser.post(f"/api/jobs/{job['id']}/events", json={"events": list(events)})


def kept(browser: TestClient, job: dict[str, Any], after: int = 0) -> Any:
    return browser.get(f"/api/jobs/{job['id']}/events?after={after}").json()


def test_a_job_starts_with_its_sheet_and_who_started_it(
    browser: TestClient, started: dict[str, Any]
) -> None:
    assert (started["machine_id"], started["machine_revision"]) == ("id-4", 1)
    sheet = started["sheet"]
    assert (sheet["kind"], sheet["bike"], sheet["circuit"]) == ("job sheet", "Skerry 1100", "rear")
    (first,) = started["events"]
    assert (first["kind"], first["who"], first["device"], first["posture"]) == (
        "started",
        "Ann",
        "red phone",
        "level",
    )
    assert browser.get(f"/api/jobs/{started['id']}").json() == started


def test_a_plan_that_cannot_be_starts_no_job(browser: TestClient) -> None:
    before = browser.get("/api/jobs").json()
    at = "/api/machines/id-4/circuits/rear/jobs"
    assert browser.post(at, json={**START, "fluid": "DOT 5"}).status_code == 422
    assert browser.post(at, json={**START, "posture": "upside down"}).status_code == 422
    assert browser.post(at, json={**START, "who": "  "}).status_code == 422
    assert browser.post(at, json={**START, "device": "x" * 41}).status_code == 422
    assert browser.post(at.replace("rear", "raer"), json=START).status_code == 404
    assert browser.post(at.replace("id-4", "gone"), json=START).status_code == 404
    assert browser.get("/api/jobs").json() == before


def test_events_are_kept_once_and_watched_by_another_device(
    browser: TestClient, job: dict[str, Any]
) -> None:
    first = send(browser, job, event(0x101), event(0x102, kind="resumed"))
    assert first.status_code == 200
    said = first.json()
    assert said["accepted"] == [event(0x101)["id"], event(0x102)["id"]]
    assert said["refused"] == []
    again = send(browser, job, event(0x102, kind="resumed"), event(0x101)).json()
    assert again["accepted"] == [event(0x102)["id"], event(0x101)["id"]]
    assert again["arrival"] == said["arrival"]
    seen = kept(browser, job)
    assert seen == {
        "events": [event(0x101), event(0x102, kind="resumed")],
        "arrival": said["arrival"],
    }
    later = send(browser, job, event(0x103)).json()
    assert kept(browser, job, seen["arrival"]) == {
        "events": [event(0x103)],
        "arrival": later["arrival"],
    }
    assert kept(browser, job, later["arrival"]) == {"events": [], "arrival": later["arrival"]}


def test_other_content_under_a_kept_id_is_refused_and_the_kept_one_stays(
    browser: TestClient, job: dict[str, Any]
) -> None:
    send(browser, job, event(0x201))
    said = send(browser, job, event(0x201, who="Ben"), event(0x202)).json()
    assert said["accepted"] == [event(0x202)["id"]]
    assert said["refused"] == [{"id": event(0x201)["id"], "why": "other content", "problems": []}]
    assert kept(browser, job)["events"] == [event(0x201), event(0x202)]


BROKEN: dict[str, dict[str, Any]] = {
    "unknown kind": {"kind": "exploded"},
    "unknown key": {"speed": 3},
    "no posture": {"kind": "started"},
    "wrong type": {"kind": "set_done", "point": 0, "count": True},
    "text for a number": {"kind": "set_done", "point": 0, "count": "5"},
    "half a count": {"kind": "set_done", "point": 0, "count": 1.5},
    "too many": {"kind": "set_done", "point": 0, "count": 5001},
    "no reason": {"kind": "gate", "gate": "paint", "answer": "overridden", "reason": None},
    "long note": {"kind": "note", "text": "x" * 501},
    "no name": {"who": ""},
    "long name": {"who": "x" * 61},
    "another time": {"at": "2026-05-01 09:30"},
    "no such day": {"at": "2026-02-30T09:30:00.000Z"},
    "list": {"kind": "note", "text": ["x"]},
}


@pytest.mark.parametrize("name", BROKEN)
def test_an_event_that_cannot_be_used_keeps_no_other_back(
    browser: TestClient, job: dict[str, Any], name: str
) -> None:
    good, bad = list(BROKEN).index(name) * 2 + 0x300, list(BROKEN).index(name) * 2 + 0x301
    said = send(browser, job, event(bad, **BROKEN[name]), event(good)).json()
    assert said["accepted"] == [event(good)["id"]]
    (refused,) = said["refused"]
    assert (refused["id"], refused["why"]) == (event(bad)["id"], "not understood")
    assert all(problem["found"] and problem["allowed"] for problem in refused["problems"])
    assert refused["problems"]
    assert kept(browser, job)["events"] == [event(good)]


RAW = {
    "not a number": '"kind":"set_done","point":0,"count":NaN',
    "endless": '"kind":"caught","point":0,"ml":1e999',
    "a huge whole number": f'"kind":"set_done","point":0,"count":1{"0" * 400}',
    "half a letter": '"kind":"note","text":"\\ud83d"',
}


@pytest.mark.parametrize("name", RAW)
def test_what_json_can_say_and_nobody_means(
    browser: TestClient, job: dict[str, Any], name: str
) -> None:
    stamp = event(0x400 + list(RAW).index(name))
    del stamp["kind"]
    body = f'{{"events":[{json.dumps(stamp)[:-1]},{RAW[name]}}}]}}'
    answer = browser.post(f"/api/jobs/{job['id']}/events", content=body)
    if answer.status_code == 200:
        (refused,) = answer.json()["refused"]
        assert refused["why"] == "not understood"
    else:
        assert (answer.status_code, answer.json()["error"]) == (422, "not-understood")
    assert kept(browser, job)["events"] == []


@pytest.mark.parametrize(
    "sent",
    [
        {},
        {"events": []},
        {"events": [event(number) for number in range(201)]},
        {"events": [{**event(1), "id": event(1)["id"].upper()}]},
        {"events": [{**event(1), "id": "0197a3c0-0001-4000-8000-000000000001"}]},
        {"events": [{key: value for key, value in event(1).items() if key != "id"}]},
        {"events": ["tap"]},
        {"events": event(1)},
        {"events": [event(1)], "more": 1},
        [event(1)],
    ],
    ids=[
        "nothing",
        "no events",
        "201",
        "upper case",
        "another kind of id",
        "no id",
        "text",
        "no list",
        "more",
        "bare list",
    ],
)
def test_a_batch_of_another_shape_is_refused_whole(
    browser: TestClient, job: dict[str, Any], sent: Any
) -> None:
    answer = browser.post(f"/api/jobs/{job['id']}/events", json=sent)
    assert (answer.status_code, answer.json()["error"]) == (422, "not-understood")
    assert kept(browser, job)["events"] == []


def test_a_batch_that_is_too_large_is_refused_whole(
    browser: TestClient, job: dict[str, Any]
) -> None:
    notes = [event(number, kind="note", text="x" * 500) for number in range(150)]
    answer = send(browser, job, *notes)
    assert (answer.status_code, answer.json()["error"]) == (413, "too-large")
    assert kept(browser, job)["events"] == []


def test_two_hundred_events_are_taken(browser: TestClient, job: dict[str, Any]) -> None:
    said = send(browser, job, *(event(0x600 + number) for number in range(200))).json()
    assert len(said["accepted"]) == 200


@pytest.mark.parametrize("after", ["-1", "x", "1.5", str(2**53), "true"])
def test_an_arrival_is_a_whole_number(browser: TestClient, job: dict[str, Any], after: str) -> None:
    assert browser.get(f"/api/jobs/{job['id']}/events?after={after}").status_code == 422


def test_a_job_that_is_not_there_is_named(browser: TestClient) -> None:
    nowhere = {"id": "gone"}
    answers = [
        browser.get("/api/jobs/gone"),
        browser.get("/api/jobs/gone/events"),
        send(browser, nowhere, event(0x700)),
    ]
    for answer in answers:
        assert (answer.status_code, answer.json()["error"]) == (404, "unknown-job")


def test_jobs_are_listed_with_where_they_stand(
    browser: TestClient, started: dict[str, Any]
) -> None:
    lines = browser.get("/api/machines/id-4/jobs").json()["jobs"]
    line = next(line for line in lines if line["id"] == started["id"])
    assert line == {
        "id": started["id"],
        "machine_id": "id-4",
        "bike": "Skerry 1100",
        "circuit": "rear",
        "made_at": started["made_at"],
        "phase": "before opening",
        "open": ["gates", "screws", "first stop", "follow-ups", "not signed"],
    }
    assert lines == browser.get("/api/jobs").json()["jobs"]
    assert browser.get("/api/machines/id-1/jobs").json() == {"jobs": []}


def test_the_record_is_told_from_the_log(furnished: KeptWorkshop, browser: TestClient) -> None:
    keep_job(furnished, "worked")
    record = browser.get("/api/jobs/worked/record").json()
    sheet = browser.get("/api/jobs/worked").json()["sheet"]
    assert (record["kind"], record["bike"]) == ("record", sheet["bike"])
    assert [screw["at"] for screw in record["screws"]] == [point["at"] for point in sheet["points"]]
    before = record["notes"]
    note = event(0x900, id="ffffffff-ffff-7000-8000-000000000001", kind="note", text="cap dry")
    assert send(browser, {"id": "worked"}, note).json()["accepted"] == [note["id"]]
    after = browser.get("/api/jobs/worked/record").json()["notes"]
    assert len(after) == len(before) + 1
    assert browser.get("/api/jobs/gone/record").status_code == 404


def test_a_removed_machine_leaves_its_jobs() -> None:
    workshop = steady_workshop()
    browser = client(workshop)
    job = browser.post("/api/machines/id-4/circuits/rear/jobs", json=START).json()
    assert browser.delete("/api/machines/id-4?read_revision=1").status_code == 204
    assert browser.get(f"/api/jobs/{job['id']}").json() == job
    assert send(browser, job, event(1)).json()["accepted"] == [event(1)["id"]]
    assert [line["id"] for line in browser.get("/api/machines/id-4/jobs").json()["jobs"]] == [
        job["id"]
    ]


def test_what_cannot_be_written_is_not_acknowledged(
    browser: TestClient,
    job: dict[str, Any],
    furnished: KeptWorkshop,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def full(*_anything: object) -> None:
        raise NotWrittenError("machines.db", "database or disk is full")

    with monkeypatch.context() as broken:
        broken.setattr(furnished.jobs, "take", full)
        answer = send(browser, job, event(0x800))
    assert answer.status_code == 507
    assert answer.json() == {
        "error": "not-written",
        "message": "machines.db was not written (database or disk is full); what was there before "
        "is unchanged",
        "problems": [],
    }
    assert kept(browser, job)["events"] == []
