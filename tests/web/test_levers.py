# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Lever tests over the interface: judged, kept once, compared, and marked as the good state."""

from typing import Any

import pytest
from fastapi.testclient import TestClient

from firmlever.bootstrap import KeptWorkshop
from firmlever.errors import NotWrittenError
from snapshot import FOLDER
from web.test_api_snapshots import keep_form
from web.web_bench import client, keep_job, steady_workshop

AT = "/api/machines/id-4/circuits/front"
FORCE = [8.0, 12.0, 20.0, 40.0, 80.0]
SOFT: dict[str, Any] = {"kind": "first", "force_n": FORCE, "travel_mm": [9, 17, 24, 29, 34]}
PUMPED: dict[str, Any] = {"kind": "pumped", "force_n": FORCE, "travel_mm": [8, 11, 14, 18, 22]}
FIRM: dict[str, Any] = {"kind": "first", "force_n": FORCE, "travel_mm": [9, 15, 20, 23, 25]}


def an_id(number: int) -> str:
    return f"0197a3c0-{number:04x}-7000-8000-00000000abcd"


def kept_as(number: int, **more: Any) -> dict[str, Any]:
    return {"before": [SOFT, PUMPED], "id": an_id(number), "who": "Ann", **more}


@pytest.fixture
def workshop() -> KeptWorkshop:
    return steady_workshop()


@pytest.fixture
def browser(workshop: KeptWorkshop) -> TestClient:
    return client(workshop)


def judged(browser: TestClient, **sent: Any) -> Any:
    return browser.post(f"{AT}/lever-test", json=sent)


def listed(browser: TestClient, at: str = AT) -> Any:
    return browser.get(f"{at}/lever-tests").json()


def test_readings_are_judged_and_not_kept(browser: TestClient) -> None:
    answer = judged(browser, before=[SOFT, PUMPED])
    assert answer.status_code == 200, answer.text
    said = answer.json()
    assert (said["kind"], said["circuit"], said["on"]) == ("lever test", "front", "2026-05-01")
    assert said["left_ml"] is None
    assert {one["kind"] for one in said["next_sets"]} <= {"first", "pumped", "wedged"}
    assert listed(browser) == {"tests": [], "baseline": None, "baselines": []}
    keep_form("lever-once", said)


def test_the_interface_and_the_command_line_say_the_same(browser: TestClient) -> None:
    """Regression: the document that `firmlever feel` prints, by its own way in."""
    from firmlever.domain.readings import readings_of
    from firmlever.report.json import lever_json
    from firmlever.services.feeling import LeverRequest, judge_lever
    from firmlever.services.machines import bike_of

    workshop = steady_workshop()
    bike = bike_of(workshop.shelf, workshop.machines.get("id-4"))
    rows = zip(FORCE, SOFT["travel_mm"], strict=True)
    table = "set,force_n,travel_mm\n" + "".join(f"first,{f},{t}\n" for f, t in rows)
    circuit = next(one for one in bike.circuits if one.name == "front")
    asked = LeverRequest(workshop.clock.today(), readings_of("pull.csv", table).sets, 0.5, 300.0)
    document = lever_json(judge_lever(bike, circuit, asked, workshop.tables))
    assert judged(browser, before=[SOFT], ruler_mm=0.5, altitude_m=300).text == document


def test_before_and_after_tell_what_left(browser: TestClient) -> None:
    said = judged(browser, before=[SOFT], after=[FIRM]).json()
    left = said["left_ml"]
    assert 0 < left["p05"] < left["p50"] < left["p95"]
    assert said["air_after_ml"]["p50"] < said["air_ml"]["p50"]
    keep_form("lever-after", said)


STEADY: dict[str, Any] = {
    "pace": "slow",
    "force_n": 60,
    "seconds": [0, 10, 20, 30, 45, 60],
    "travel_mm": [25, 25, 26, 26, 26, 26],
}
SINKING: dict[str, Any] = {**STEADY, "pace": "fast", "travel_mm": [25, 27, 29, 31, 34, 37]}


def test_a_hold_tells_a_lever_that_sinks(browser: TestClient) -> None:
    said = judged(browser, before=[SOFT], after=[FIRM], holds=[STEADY, SINKING]).json()
    assert [(one["pace"], one["sinks"]) for one in said["holds"]] == [
        ("slow", False),
        ("fast", True),
    ]
    keep_form("lever-hold", said)


FAULTS: dict[str, tuple[dict[str, Any], list[dict[str, Any]]]] = {
    "rows of both, counted through": (
        {
            "before": [SOFT, {**PUMPED, "force_n": [8, 12, 20, 40, 4000]}],
            "after": [{**FIRM, "travel_mm": [9, -1, 20, 23]}],
        },
        [
            {
                "line": 10,
                "place": "force_n",
                "found": "“4000.0”",
                "allowed": "a number from 0.5 to 400",
            },
            {
                "line": 12,
                "place": "travel_mm",
                "found": "“-1.0”",
                "allowed": "a number from 0 to 200",
            },
            {
                "line": 15,
                "place": "travel_mm",
                "found": "“”",
                "allowed": "a number from 0 to 200",
            },
        ],
    ),
    "a repeat by its number": (
        {"before": [SOFT, {**SOFT, "travel_mm": [9, 17, 24, 20, 34]}]},
        [
            {
                "line": 9,
                "place": "first 2",
                "found": "the travel goes back from 24 to 20 mm",
                "allowed": "more force moves a lever further",
            }
        ],
    ),
    "a hold, counted after the sets": (
        {
            "before": [SOFT],
            "holds": [{**STEADY, "seconds": [0, 10, 20, 15, 45, 60]}, {**STEADY, "seconds": []}],
        },
        [
            {
                "line": line,
                "place": "seconds",
                "found": "“”",
                "allowed": "a number from 0 to 600",
            }
            for line in range(12, 18)
        ],
    ),
    "a clock that goes back": (
        {"before": [SOFT], "holds": [{**STEADY, "seconds": [0, 10, 20, 15, 45, 60]}]},
        [
            {
                "line": 9,
                "place": "hold",
                "found": "the clock goes from 20 to 15 s",
                "allowed": "seconds go up; a repeat is a hold of its own",
            }
        ],
    ),
    "a hold by itself": (
        {"before": [], "holds": [STEADY]},
        [
            {
                "line": 0,
                "place": "the table",
                "found": "holds only",
                "allowed": "a slow pull beside it, set first; a hold tells of sinking, not of air",
            }
        ],
    ),
    "kilograms": (
        {"before": [{**SOFT, "force_n": [0.8, 1.2, 2, 4, 8]}]},
        [
            {
                "line": 1,
                "place": "first",
                "found": "34 mm with at most 8 N",
                "allowed": "that looks like kilograms; newtons are ten times as many",
            }
        ],
    ),
    "nothing": (
        {"before": []},
        [
            {
                "line": 0,
                "place": "the table",
                "found": "no readings",
                "allowed": "at least one set of readings",
            }
        ],
    ),
    "too many": (
        {"before": [{"kind": "first", "force_n": [1.0] * 400, "travel_mm": [1.0] * 400}] * 2},
        [{"line": 0, "place": "the table", "found": "800 rows", "allowed": "500 at most"}],
    ),
}


@pytest.mark.parametrize("name", FAULTS)
@pytest.mark.parametrize("where", ["lever-test", "lever-tests"])
def test_every_fault_of_readings_is_told_by_its_row(
    browser: TestClient, name: str, where: str
) -> None:
    sent, problems = FAULTS[name]
    more = {} if where == "lever-test" else {"id": an_id(1), "who": "Ann"}
    answer = browser.post(f"{AT}/{where}", json={**sent, **more})
    assert (answer.status_code, answer.json()["error"]) == (422, "readings")
    assert answer.json()["problems"] == problems
    assert listed(browser)["tests"] == []


MISFITS: dict[str, dict[str, Any]] = {
    "no sets": {},
    "unknown key": {"before": [SOFT], "speed": 3},
    "unknown kind": {"before": [{**SOFT, "kind": "second"}]},
    "text for a number": {"before": [{**SOFT, "travel_mm": ["9"]}]},
    "not a number": {"before": [{**SOFT, "travel_mm": [None]}]},
    "501 in a set": {"before": [{**SOFT, "force_n": [1.0] * 501}]},
    "another pace": {"before": [SOFT], "holds": [{**STEADY, "pace": "quick"}]},
    "31 holds": {"before": [SOFT], "holds": [STEADY] * 31},
    "31 sets": {"before": [SOFT] * 31},
    "no list": {"before": SOFT},
}


@pytest.mark.parametrize("name", MISFITS)
def test_what_does_not_fit_is_refused(browser: TestClient, name: str) -> None:
    answer = judged(browser, **MISFITS[name])
    assert (answer.status_code, answer.json()["error"]) == (422, "not-understood")


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ({"ruler_mm": 0}, "ruler cannot be 0; it is in mm, 0.01 to 5"),
        ({"altitude_m": 9000}, "altitude cannot be 9000; it is in m, -400 to 6000"),
    ],
)
def test_a_ruler_and_an_altitude_that_cannot_be(
    browser: TestClient, more: dict[str, Any], message: str
) -> None:
    answer = judged(browser, before=[SOFT], **more)
    assert (answer.status_code, answer.json()["message"]) == (422, message)


def test_a_clutch_is_refused(browser: TestClient) -> None:
    at = AT.replace("front", "clutch")
    answer = browser.post(f"{at}/lever-test", json={"before": [SOFT]})
    assert answer.status_code == 422
    assert answer.json()["message"] == (
        "circuit cannot be clutch; a clutch lever feels its spring; the test is for brakes"
    )


def test_a_test_is_kept_once_with_its_readings(workshop: KeptWorkshop, browser: TestClient) -> None:
    keep_job(workshop)
    sent = kept_as(1, job_id="job-1")
    for _ in range(2):
        answer = browser.post(f"{AT}/lever-tests", json=sent)
        assert (answer.status_code, answer.json()) == (201, {"id": an_id(1)})
    (line,) = listed(browser)["tests"]
    said = judged(browser, before=[SOFT, PUMPED]).json()
    assert (line["who"], line["job_id"], line["air_ml"]) == ("Ann", "job-1", said["air_ml"])
    one = browser.get(f"{AT}/lever-tests/{an_id(1)}").json()
    assert one["document"] == said
    assert one["readings"] == {
        "before": [SOFT, PUMPED],
        "after": None,
        "ruler_mm": 1.0,
        "altitude_m": 0.0,
        "holds": [],
    }
    assert one["made_at"] == line["made_at"]


@pytest.mark.parametrize("other", [{"who": "Ben"}, {"before": [SOFT]}, {"job_id": "j2"}])
def test_another_test_under_the_same_id_is_refused(
    workshop: KeptWorkshop, browser: TestClient, other: dict[str, Any]
) -> None:
    keep_job(workshop, "j2")
    browser.post(f"{AT}/lever-tests", json=kept_as(1))
    answer = browser.post(f"{AT}/lever-tests", json={**kept_as(1), **other})
    assert (answer.status_code, answer.json()["error"]) == (409, "other-lever-test")
    (line,) = listed(browser)["tests"]
    assert line["who"] == "Ann"


@pytest.mark.parametrize(
    ("circuit", "job", "status", "error", "message"),
    [
        (
            "front",
            "job-9",
            404,
            "unknown-job",
            "there is no job “job-9” here: go back to the list of jobs",
        ),
        (
            "rear",
            "job-1",
            409,
            "others-job",
            (
                "the job “job-1” is at another circuit, “front” of its own machine; the test was "
                "not kept: open the lever test from the bench of the right job"
            ),
        ),
    ],
)
def test_a_test_for_a_job_that_is_not_this_circuits_is_refused(
    workshop: KeptWorkshop,
    browser: TestClient,
    circuit: str,
    job: str,
    status: int,
    error: str,
    message: str,
) -> None:
    keep_job(workshop)
    at = AT.replace("front", circuit)
    answer = browser.post(f"{at}/lever-tests", json=kept_as(1, job_id=job))
    assert (answer.status_code, answer.json()["error"]) == (status, error)
    assert answer.json()["message"] == message
    assert listed(browser, at)["tests"] == []


@pytest.mark.parametrize(
    "broken",
    [{"id": "1"}, {"id": an_id(1).upper()}, {"who": "  "}, {"who": "x" * 61}, {"id": None}],
)
def test_a_test_without_a_name_or_an_id_is_refused(
    browser: TestClient, broken: dict[str, Any]
) -> None:
    answer = browser.post(f"{AT}/lever-tests", json={**kept_as(1), **broken})
    assert (answer.status_code, answer.json()["error"]) == (422, "not-understood")


def test_one_test_is_the_good_state_and_its_history_stays(browser: TestClient) -> None:
    for number in (1, 2):
        browser.post(f"{AT}/lever-tests", json=kept_as(number))

    def mark(number: int, who: str) -> int:
        at = f"{AT}/lever-tests/{an_id(number)}/baseline"
        return browser.put(at, json={"who": who}).status_code

    assert [mark(1, "Ann"), mark(1, "Ben"), mark(2, "Ben")] == [200, 200, 200]
    kept = listed(browser)
    assert kept["baseline"] == an_id(2)
    assert [(one["test"], one["who"]) for one in kept["baselines"]] == [
        (an_id(1), "Ann"),
        (an_id(2), "Ben"),
    ]
    keep_form("levers", kept)
    keep_form("kept-lever", browser.get(f"{AT}/lever-tests/{an_id(1)}").json())


def test_a_test_of_another_circuit_is_not_there(browser: TestClient) -> None:
    browser.post(f"{AT}/lever-tests", json=kept_as(1))
    rear = AT.replace("front", "rear")
    answers = [
        browser.get(f"{rear}/lever-tests/{an_id(1)}"),
        browser.put(f"{rear}/lever-tests/{an_id(1)}/baseline", json={"who": "Ann"}),
        browser.get(f"{AT}/lever-tests/{an_id(2)}"),
    ]
    for answer in answers:
        assert (answer.status_code, answer.json()["error"]) == (404, "unknown-lever-test")
    assert listed(browser, rear)["tests"] == []
    nowhere = [
        browser.post(f"{AT.replace('front', 'fornt')}/lever-test", json={"before": [SOFT]}),
        browser.get(f"{AT.replace('id-4', 'gone')}/lever-tests"),
    ]
    assert [answer.status_code for answer in nowhere] == [404, 404]


def test_what_cannot_be_written_is_not_acknowledged(
    browser: TestClient, workshop: KeptWorkshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_anything: object) -> None:
        raise NotWrittenError("machines.db", "database or disk is full")

    with monkeypatch.context() as broken:
        broken.setattr(workshop.levers, "keep", full)
        assert browser.post(f"{AT}/lever-tests", json=kept_as(1)).status_code == 507
    assert listed(browser)["tests"] == []


def test_another_origin_keeps_nothing(browser: TestClient) -> None:
    headers = {"origin": "http://evil.example"}
    answer = browser.post(f"{AT}/lever-tests", json=kept_as(1), headers=headers)
    assert (answer.status_code, answer.json()["error"]) == (403, "not-from-here")
    large = browser.post(f"{AT}/lever-test", content=b" " * 64_001)
    assert large.status_code == 413
    assert listed(browser)["tests"] == []


def test_the_pages_have_answers_to_check_theirs_against() -> None:
    for name in ("lever-once", "lever-after", "levers", "kept-lever"):
        assert (FOLDER / "api" / f"{name}.json").is_file()
