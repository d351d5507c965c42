# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Looks at a level over the interface: kept once, judged, and taken back; figures invented."""

from typing import Any

import pytest
from fastapi.testclient import TestClient

from web.test_api_snapshots import keep_form
from web.web_bench import client, steady_workshop

AT = "/api/machines/id-4/circuits/rear"


def an_id(number: int) -> str:
    return f"0197a3c0-{number:04x}-7000-8000-00000000abcd"


def look(number: int, on: str, below_mm: float, pad_mm: float, **more: Any) -> dict[str, Any]:
    return {
        "id": an_id(number),
        "who": "Ann",
        "on": on,
        "measure": "below_max_mm",
        "level": below_mm,
        "pads": {"rear caliper": {"thin_mm": pad_mm}},
        **more,
    }


FIRST = look(1, "2025-10-01", 1.5, 4.9)
WORN = look(2, "2026-03-01", 3.0, 4.1)
LEAKED = look(3, "2026-04-30", 9.5, 4.0)


@pytest.fixture
def browser() -> TestClient:
    return client(steady_workshop())


def send(browser: TestClient, sent: dict[str, Any]) -> Any:
    return browser.post(f"{AT}/looks", json=sent)


def judged(browser: TestClient, asked: str = "?marks_mm=16") -> Any:
    return browser.get(f"{AT}/level{asked}").json()["document"]


def problems(answer: Any) -> list[tuple[int, str, str]]:
    assert answer.status_code == 422, answer.text
    return sorted((one["line"], one["place"], one["found"]) for one in answer.json()["problems"])


def test_wear_then_a_leak_then_taken_back(browser: TestClient) -> None:
    assert judged(browser) is None
    assert send(browser, LEAKED).status_code == 201
    assert judged(browser)["verdict"] == "one look"
    # the order of sending does not matter, that of the days does
    for one in (WORN, FIRST):
        assert send(browser, one).json() == {"id": one["id"]}
    said = judged(browser)
    assert said["verdict"] == "more has gone than wear explains"
    assert [one["end"] for one in said["between"]] == ["2026-03-01", "2026-04-30"]
    keep_form("level-leak", said)
    back = f"{AT}/looks/{an_id(3)}/taken-back"
    for _ in range(2):
        assert browser.post(back, json={"who": "Ben"}).json() == {"id": an_id(3)}
    assert judged(browser)["verdict"] == "wear explains it"
    listed = browser.get(f"{AT}/looks").json()
    assert [one["id"] for one in listed["looks"]] == [an_id(1), an_id(2), an_id(3)]
    assert [one["taken_back"] and one["taken_back"]["who"] for one in listed["looks"]] == [
        None,
        None,
        "Ben",
    ]
    keep_form("looks", listed)


def test_the_interface_and_the_command_line_say_the_same(browser: TestClient) -> None:
    """Regression: the document that `firmlever level` prints, by its own way in."""
    from firmlever.domain.level import LevelRequest
    from firmlever.domain.looks import looks_of
    from firmlever.report.level_json import level_json
    from firmlever.services.levelling import judge
    from firmlever.services.machines import bike_of

    for one in (FIRST, WORN):
        send(browser, one)
    workshop = steady_workshop()
    bike = bike_of(workshop.shelf, workshop.machines.get("id-4"))
    circuit = next(one for one in bike.circuits if one.name == "rear")
    on = workshop.clock.today()
    table = "on,below_max_mm,pad_mm\n2025-10-01,1.5,4.9\n2026-03-01,3,4.1\n"
    asked = LevelRequest(on, looks_of("looks.csv", table, circuit, on), marks_mm=16.0)
    document = level_json(judge(bike, circuit, asked, workshop.tables))
    assert browser.get(f"{AT}/level?marks_mm=16").text == f'{{"document":{document}}}'


def test_a_look_sent_twice_is_kept_once(browser: TestClient) -> None:
    assert [send(browser, FIRST).status_code for _ in range(2)] == [201, 201]
    assert len(browser.get(f"{AT}/looks").json()["looks"]) == 1


def test_another_look_does_not_take_an_id(browser: TestClient) -> None:
    send(browser, FIRST)
    answer = send(browser, {**FIRST, "level": 2.0})
    assert answer.status_code == 409
    assert answer.json()["message"] == (
        f"another look is kept under “{an_id(1)}” and stays as it is; this one was not kept: "
        "keep it under an id of its own"
    )


def test_every_fault_is_named_at_once_and_nothing_kept(browser: TestClient) -> None:
    faulty = look(1, "2027-01-01", 300, 99, km=-1)
    assert problems(send(browser, faulty)) == [
        (1, "below_max_mm", "“300.0”"),
        (1, "km", "“-1.0”"),
        (1, "on", "2027-01-01"),
        (1, "pad_mm rear caliper", "“99.0”"),
    ]
    assert browser.get(f"{AT}/looks").json() == {"looks": []}


def test_looks_must_go_together(browser: TestClient) -> None:
    send(browser, FIRST)
    again = look(2, "2025-10-01", 2, 4.9)
    assert problems(send(browser, again)) == [(2, "on", "2025-10-01 again")]
    send(browser, look(3, "2025-12-01", 4, 2.0))
    grown = look(2, "2026-01-01", 2, 4.9)
    assert [place for _, place, _ in problems(send(browser, grown))] == ["pad_mm rear caliper"]
    assert send(browser, {**grown, "new_pads": True}).status_code == 201


@pytest.mark.parametrize(
    ("pads", "expected"),
    [
        ({}, [(1, "pads", "no pads")]),
        (
            {"rear calliper": {"thin_mm": 3}},
            [(1, "pad_mm rear calliper", "“pad_mm rear calliper”")],
        ),
    ],
    ids=["none", "of no caliper"],
)
def test_pads_are_those_of_the_calipers(
    browser: TestClient, pads: dict[str, Any], expected: list[tuple[int, str, str]]
) -> None:
    assert problems(send(browser, {**FIRST, "pads": pads})) == expected


@pytest.mark.parametrize(
    "wrong",
    [
        {"id": "mine"},
        {"who": " "},
        {"measure": "pints"},
        {"level": "3"},
        {"on": "yesterday"},
        {"extra": 1},
        {"stand": "none"},
    ],
    ids=lambda wrong: next(iter(wrong)),
)
def test_only_what_is_known_may_be_sent(browser: TestClient, wrong: dict[str, Any]) -> None:
    assert send(browser, {**FIRST, **wrong}).status_code == 422
    assert browser.get(f"{AT}/looks").json() == {"looks": []}


def test_what_is_not_there_is_named(browser: TestClient) -> None:
    answer = browser.post(f"{AT}/looks/{an_id(9)}/taken-back", json={"who": "Ben"})
    assert answer.status_code == 404
    assert answer.json()["message"] == (
        f"there is no look “{an_id(9)}” at the level of this circuit here: "
        "look at its list of looks"
    )
    send(browser, FIRST)
    other = "/api/machines/id-4/circuits/front"
    back = browser.post(f"{other}/looks/{an_id(1)}/taken-back", json={"who": "Ben"})
    assert back.status_code == 404


def test_a_ruler_that_cannot_be_is_refused(browser: TestClient) -> None:
    send(browser, FIRST)
    assert browser.get(f"{AT}/level?ruler_mm=9").status_code == 422
    assert browser.get(f"{AT}/level?marks_mm=nan").status_code == 422
