# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Over the network nothing answers unpaired; a code pairs one phone, which can be taken off."""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from firmlever.bootstrap import KeptWorkshop
from firmlever.web.app import create_app
from firmlever.web.guard import COOKIE
from web.web_bench import HOME, browser_at, steady_workshop

LAN = "http://192.168.7.5:8017"
REFUSED = (
    "this code pairs nothing: it is wrong, was used already, or has run out. Show a new code on "
    "the computer and use it within two minutes"
)


@dataclass
class SetClock:
    """A clock that a test sets."""

    time: datetime = field(default_factory=lambda: datetime(2026, 5, 1, 9, tzinfo=UTC))

    def today(self) -> date:
        return self.time.date()

    def now(self) -> datetime:
        return self.time


@dataclass
class Bench:
    """The computer, and phones that reach the same app over the network."""

    workshop: KeptWorkshop
    clock: SetClock
    computer: TestClient
    phone: TestClient
    other: TestClient

    def code(self) -> str:
        return str(self.computer.post("/api/pairing").json()["code"])

    def claim(self, code: str, phone: TestClient | None = None) -> Any:
        sent = {"code": code, "name": "the red one"}
        headers = {"origin": LAN}
        return (phone or self.phone).post("/api/pairing/claim", json=sent, headers=headers)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    # no request is ever given back, however slow the test
    monkeypatch.setattr("firmlever.web.guard.monotonic", lambda: 0.0)
    (tmp_path / "index.html").write_text("<!doctype html><title>firmlever</title>", "utf-8")
    clock = SetClock()
    workshop = steady_workshop(furnished=False, clock=clock)
    app = create_app(workshop, tmp_path, lan_home=f"{LAN}/")
    return Bench(workshop, clock, browser_at(HOME, app), browser_at(LAN, app), browser_at(LAN, app))


def refusal(answer: Any) -> tuple[int, str]:
    return answer.status_code, answer.json()["error"]


PATHS = (
    "/index.html",
    "/openapi.json",
    "/api/status",
    "/api/machines",
    "/api/machines/id-1",
    "/api/heartbeat",
    "/api/serving",
    "/api/jobs",
    "/api/phones",
    "/api/nothing",
    "/pair/",
    "/pair/../api/machines",
    "/api/pairing/claim/",
)


@pytest.mark.parametrize("method", ["GET", "HEAD", "OPTIONS", "POST", "PUT", "PATCH", "DELETE"])
def test_nothing_answers_unpaired(bench: Bench, method: str) -> None:
    for path in PATHS:
        answer = bench.phone.request(method, path, headers={"origin": LAN}, follow_redirects=False)
        assert answer.status_code == 401, path
        assert answer.headers["cache-control"] == "no-store"
        if method != "HEAD":
            assert answer.json() == {
                "error": "not-paired",
                "message": "this phone is not paired, or was taken off; what it has kept stays on "
                f"it. Ask for a code on the computer, then open {LAN}/pair",
                "problems": [],
            }


def test_whoever_opens_the_app_unpaired_is_led_to_the_pairing_page(bench: Bench) -> None:
    answer = bench.phone.get("/", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/pair")
    page = bench.phone.get("/")
    assert page.status_code == 200
    assert "<h1>Pair this phone</h1>" in page.text


def test_a_code_pairs_a_phone_which_is_answered_from_then_on(bench: Bench) -> None:
    answer = bench.claim(bench.code())
    assert (answer.status_code, answer.json()) == (200, {"id": "id-1", "name": "the red one"})
    cookie = answer.headers["set-cookie"]
    assert {"httponly", "samesite=strict", "path=/", "max-age=31536000"} <= {
        part.strip().lower() for part in cookie.split(";")
    }
    assert "domain" not in cookie.lower()
    assert bench.phone.get("/api/machines").status_code == 200
    assert bench.phone.get("/").text.startswith("<!doctype html><title>firmlever")
    assert bench.other.get("/api/machines").status_code == 401


def test_of_the_token_only_the_hash_is_kept(bench: Bench) -> None:
    bench.claim(bench.code())
    token = bench.phone.cookies[COOKIE]
    (phone,) = bench.workshop.phones.all()
    assert len(token) == 43
    assert token not in repr(phone)
    assert len(phone.token_hash) == 64


def test_the_picture_opens_the_page_with_the_code_filled_in(bench: Bench) -> None:
    offer = bench.computer.post("/api/pairing")
    assert offer.status_code == 201
    said = offer.json()
    assert said["address"] == f"{LAN}/pair"
    assert said["expires_at"] == "2026-05-01T09:02:00Z"
    assert said["qr_svg"].startswith("<svg xmlns=")
    page = bench.phone.get("/pair", params={"code": said["code"]})
    assert f'value="{said["code"]}"' in page.text


def test_the_page_pairs_without_a_script(bench: Bench) -> None:
    code = bench.code()
    form = {"code": f" {code[:4].lower()}-{code[4:]}", "name": "the red one"}
    answer = bench.phone.post("/pair", data=form, headers={"origin": LAN}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert bench.phone.get("/api/machines").status_code == 200


@pytest.mark.parametrize(
    ("form", "status", "words"),
    [
        ("code=22222222&name=the+%3Cred%3E+one", 403, REFUSED),
        ("code=22222222&name=+", 422, "the name: 0 characters; 1 to 60 characters"),
        (f"code=22222222&name={'x' * 61}", 422, "the name: 61 characters; 1 to 60 characters"),
        ("code=%80&name=x", 422, "the form: it is broken; the page&#x27;s own"),
        ("a=1&b=2&c=3&d=4&e=5", 422, "the form: it is broken; the page&#x27;s own"),
    ],
    ids=["wrong code", "no name", "long name", "not text", "many fields"],
)
def test_the_page_says_why_it_pairs_nothing(
    bench: Bench, form: str, status: int, words: str
) -> None:
    bench.code()
    answer = bench.phone.post("/pair", content=form.encode(), headers={"origin": LAN})
    assert answer.status_code == status
    assert '<p role="alert">' in answer.text
    assert words in answer.text
    assert "<red>" not in answer.text
    assert "set-cookie" not in answer.headers
    assert bench.workshop.phones.all() == ()


def test_nothing_that_is_no_code_gets_into_the_page(bench: Bench) -> None:
    page = bench.phone.get("/pair", params={"code": '"><script>alert(1)</script>'})
    assert 'name="code" value=""' in page.text
    assert "<script" not in page.text


def test_the_page_takes_its_one_style_and_nothing_else(bench: Bench) -> None:
    from base64 import b64encode
    from hashlib import sha256

    page = bench.phone.get("/pair")
    style = page.text.split("<style>")[1].split("</style>")[0]
    allowed = b64encode(sha256(style.encode()).digest()).decode()
    policy = page.headers["content-security-policy"]
    assert f"style-src 'sha256-{allowed}';" in policy
    assert "unsafe" not in policy
    # with no-referrer a browser would send the form with the origin "null"
    assert page.headers["referrer-policy"] == "same-origin"
    assert page.headers["cache-control"] == "no-store"


# Codes


def test_a_code_is_good_once(bench: Bench) -> None:
    code = bench.code()
    assert bench.claim(code).status_code == 200
    answer = bench.claim(code, bench.other)
    assert refusal(answer) == (403, "pairing-refused")
    assert answer.json()["message"] == REFUSED
    assert bench.other.get("/api/machines").status_code == 401
    assert len(bench.workshop.phones.all()) == 1


@pytest.mark.parametrize(("seconds", "status"), [(119, 200), (120, 403), (3600, 403)])
def test_a_code_is_good_for_two_minutes(bench: Bench, seconds: int, status: int) -> None:
    code = bench.code()
    bench.clock.time += timedelta(seconds=seconds)
    assert bench.claim(code).status_code == status


def test_a_new_code_ends_the_one_before(bench: Bench) -> None:
    first, second = bench.code(), bench.code()
    assert first != second
    assert bench.claim(first).status_code == 403
    assert bench.claim(second).status_code == 200


def test_after_five_wrong_tries_the_right_code_pairs_nothing(bench: Bench) -> None:
    code = bench.code()
    for _ in range(5):
        assert bench.claim("22222222").status_code == 403
    assert bench.claim(code).status_code == 403
    assert bench.claim(bench.code()).status_code == 200


def test_nothing_is_paired_before_a_code_was_asked_for(bench: Bench) -> None:
    for code in ("", "22222222", "None"):
        assert bench.claim(code).status_code == 403


def test_codes_are_long_and_of_plain_letters(bench: Bench) -> None:
    codes = {bench.code() for _ in range(50)}
    assert len(codes) == 50
    assert all(len(code) == 8 for code in codes)
    letters = set("".join(codes))
    assert not letters & set("01OI")
    assert len(letters) > 25


def test_codes_cannot_be_tried_fast(bench: Bench) -> None:
    answers = [bench.claim("22222222") for _ in range(12)]
    assert [answer.status_code for answer in answers].count(403) == 10
    assert refusal(answers[-1]) == (429, "too-often")
    assert answers[-1].headers["retry-after"] == "10"


def test_a_flood_of_requests_is_slowed(bench: Bench) -> None:
    answers = [bench.phone.get("/api/status").status_code for _ in range(230)]
    assert answers[:200] == [401] * 200
    assert answers[-1] == 429
    assert bench.computer.get("/api/status").status_code == 200


# Phones


def test_phones_are_listed_and_taken_off_at_the_computer(bench: Bench) -> None:
    bench.claim(bench.code())
    (phone,) = bench.computer.get("/api/phones").json()["phones"]
    assert phone == {
        "id": "id-1",
        "name": "the red one",
        "made_at": "2026-05-01T09:00:00Z",
        "seen_at": "2026-05-01T09:00:00Z",
    }
    assert bench.computer.delete("/api/phones/id-1").status_code == 204
    assert refusal(bench.phone.get("/api/machines")) == (401, "not-paired")
    assert bench.computer.get("/api/phones").json() == {"phones": []}
    assert refusal(bench.computer.delete("/api/phones/id-1")) == (404, "unknown-phone")


def test_when_a_phone_was_last_seen_is_noted_to_the_minute(bench: Bench) -> None:
    bench.claim(bench.code())
    seen = []
    for seconds in (59, 1, 30):
        bench.clock.time += timedelta(seconds=seconds)
        bench.phone.get("/api/status")
        seen.append(bench.workshop.phones.all()[0].seen_at.second + 60 * (seconds == 1))
    assert [phone.seen_at.minute for phone in bench.workshop.phones.all()] == [1]
    assert seen == [0, 60, 0]


@pytest.mark.parametrize(
    ("method", "path"),
    [("POST", "/api/pairing"), ("GET", "/api/phones"), ("DELETE", "/api/phones/id-1")],
)
def test_a_paired_phone_pairs_no_other_and_takes_none_off(
    bench: Bench, method: str, path: str
) -> None:
    bench.claim(bench.code())
    answer = bench.phone.request(method, path, headers={"origin": LAN})
    assert refusal(answer) == (403, "only-here")
    assert len(bench.workshop.phones.all()) == 1


def test_without_a_network_no_code_is_shown() -> None:
    alone = browser_at(HOME, create_app(steady_workshop(), Path("no pages")))
    answer = alone.post("/api/pairing")
    assert refusal(answer) == (422, "no-network")


# Where a request comes from


@pytest.mark.parametrize(
    "host",
    ["", "127.0.0.1:8017", "localhost:8017", "192.168.7.5", "192.168.7.5:80", "evil.example:8017"],
)
def test_another_host_is_refused_even_of_a_paired_phone(bench: Bench, host: str) -> None:
    bench.claim(bench.code())
    cookie = f"{COOKIE}={bench.phone.cookies[COOKIE]}"
    answer = bench.phone.get("/api/machines", headers={"host": host, "cookie": cookie})
    assert refusal(answer) == (403, "not-from-here")
    assert bench.phone.get("/pair", headers={"host": host}).status_code == 403


@pytest.mark.parametrize(
    "origin",
    ["null", "http://evil.example", HOME, "http://192.168.7.5", "https://192.168.7.5:8017"],
)
@pytest.mark.parametrize("path", ["/api/demo", "/pair", "/api/pairing/claim"])
def test_a_post_from_another_site_changes_nothing(bench: Bench, origin: str, path: str) -> None:
    code = bench.code()
    bench.claim(code)
    answer = bench.phone.post(
        path, data={"code": bench.code(), "name": "x"}, headers={"origin": origin}
    )
    assert refusal(answer) == (403, "not-from-here")
    assert len(bench.workshop.phones.all()) == 1


def test_a_change_that_does_not_say_where_it_comes_from_is_refused(bench: Bench) -> None:
    bench.claim(bench.code())
    assert refusal(bench.phone.post("/api/demo")) == (403, "not-from-here")
    assert bench.phone.get("/api/machines").status_code == 200


@pytest.mark.parametrize("cookie", ["", "x", "\N{LATIN SMALL LETTER E WITH ACUTE}", "a" * 5000])
def test_a_made_up_cookie_opens_nothing(bench: Bench, cookie: str) -> None:
    bench.claim(bench.code())
    sent = f"{COOKIE}={cookie}".encode("latin-1")
    answer = bench.other.get("/api/machines", headers={b"cookie": sent})
    assert refusal(answer) == (401, "not-paired")


def test_an_unpaired_body_is_not_even_weighed(bench: Bench) -> None:
    answer = bench.phone.post("/api/demo", content=b"#" * 5_000_000, headers={"origin": LAN})
    assert answer.status_code == 401
    huge = bench.phone.post("/pair", content=b"#" * 64_001, headers={"origin": LAN})
    assert refusal(huge) == (413, "too-large")


# What is said of it


def test_each_way_of_serving_says_what_it_lacks(bench: Bench) -> None:
    here = bench.computer.get("/api/serving").json()
    assert (here["level"], here["lan_address"]) == ("this computer", f"{LAN}/")
    bench.claim(bench.code())
    there = bench.phone.get("/api/serving").json()
    assert there["level"] == "open page"
    lacks = {level["name"]: [lack["code"] for lack in level["lacks"]] for level in there["levels"]}
    assert lacks == {
        "this computer": [],
        "open page": [
            "no reload without the computer",
            "screen goes dark",
            "not encrypted",
            "tied to the address",
        ],
        "carried page": ["comes home by hand", "kept by the browser", "no second device"],
    }
    assert bench.phone.get("/api/heartbeat").json() == {"ok": True}


def test_what_is_sent_over_the_network_is_as_guarded_as_here(bench: Bench) -> None:
    here = bench.computer.get("/api/heartbeat").headers
    bench.claim(bench.code())
    there = bench.phone.get("/api/heartbeat").headers
    guards = ("content-security-policy", "x-content-type-options", "referrer-policy")
    for name in (*guards, "cross-origin-resource-policy", "cache-control"):
        assert there[name] == here[name]
    # a browser ignores this one without encryption, and complains of it in its console
    assert set(here) - set(there) == {"cross-origin-opener-policy"}
