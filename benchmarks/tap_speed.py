# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From a finger on the glass to the frame that shows it, on a phone six times slower.

The browser itself says when the frame that followed a tap was presented (its event timing):
rounded to 8 ms, and nothing below 16 ms, which counts as 16. Two of its times are taken:
from the finger's touch (the target looks pressed) and from its lifting (the tap is taken). A
clock in the page reads when the words had changed and a frame with them had been made.
Run by itself: python -m benchmarks.tap_speed
"""

import json
import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import count, cycle, islice
from math import ceil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, cast
from urllib.request import Request, urlopen

from playwright.sync_api import Browser, CDPSession, Locator, Page

from benchmarks.figure import Figure, line
from tools.browser import headless
from tools.serve_on import served

SLOWED = 6
MOST_MS = 50.0
TAPS = 24
LONG_LOG = 120
_PHONE = 360, 740
_LEAST_SEEN_MS = 16.0
_HELD_MS = 90
_REST_MS = 500
# The words are read when a frame has been made and handed on, once for each frame.
_WATCH = """
window.down = [];
window.up = [];
window.changed = [];
new PerformanceObserver((list) => {
  for (const one of list.getEntries()) {
    if (one.name === "pointerdown") down.push(one.duration);
    if (one.name === "click") up.push(one.duration);
  }
}).observe({ type: "event", durationThreshold: 16 });
const said = () => document.querySelector(".bench")?.textContent ?? "";
const made = new MessageChannel();
let before = "";
let at = null;
made.port1.onmessage = () => {
  if (said() === before) requestAnimationFrame(onFrame);
  else changed.push(performance.now() - at);
};
const onFrame = () => made.port2.postMessage(0);
addEventListener("pointerdown", () => { before = said(); }, true);
addEventListener("click", (event) => {
  at = event.timeStamp;
  requestAnimationFrame(onFrame);
}, true);
"""
_TAKEN = "() => [down.splice(0), up.splice(0), changed.splice(0)]"
_BEFORE = (
    {"kind": "drawn_down"},
    {"kind": "topped_up", "to": "max"},
    {"kind": "at_screw", "point": 0},
    {"kind": "set_done", "point": 0, "count": 5},
    {"kind": "sample", "point": 0, "ml": 3},
    {"kind": "caught", "point": 0, "ml": 4},
)


def measure(taps: int = TAPS) -> list[Figure]:
    """Tap a job through, with a short log and a long one."""
    with TemporaryDirectory() as home, served(Path(home)) as address, headless() as browser:
        found = {name: _tapped(browser, address, long, taps) for name, long in _LOGS.items()}
    return [
        figure
        for name, times in found.items()
        for what, tapped in times.items()
        for figure in _figures(f"{what}, {name}", tapped)
    ]


_LOGS = {"short log": 0, f"{LONG_LOG} events more": LONG_LOG}


@dataclass
class Times:
    """What the two clocks said of one kind of tap (ms)."""

    down: list[float] = field(default_factory=list)
    up: list[float] = field(default_factory=list)
    changed: list[float] = field(default_factory=list)


def _figures(name: str, times: Times) -> list[Figure]:
    down, up, words = sorted(times.down), sorted(times.up), sorted(times.changed)
    return [
        Figure(f"{name}: pressed, 95 %", _part(down, 0.95), "ms", at_most=MOST_MS),
        Figure(f"{name}: taken, middle", _part(up, 0.5), "ms"),
        Figure(f"{name}: taken, 95 %", _part(up, 0.95), "ms", at_most=MOST_MS),
        Figure(f"{name}: taken, worst", up[-1], "ms"),
        Figure(f"{name}: new words, 95 %", _part(words, 0.95), "ms"),
    ]


def _part(ordered: list[float], share: float) -> float:
    return ordered[ceil(share * len(ordered)) - 1]


def _tapped(browser: Browser, address: str, more: int, taps: int) -> dict[str, Times]:
    job = job_at_the_first_screw(address, more)
    each = _walk(
        _bench(browser, f"{address}/#/job/{job}", tap_each_stroke=True),
        taps,
        {
            "a stroke": lambda page: page.get_by_role("button", name="One stroke done"),
            "undo": lambda page: page.locator(".tap-last"),
        },
    )
    led = _walk(
        _bench(browser, f"{address}/#/job/{job}", tap_each_stroke=False),
        taps,
        {
            "start of a set": lambda page: page.get_by_role("button", name="Lead"),
            "pause": lambda page: page.get_by_role("button", name="Pause"),
            "correction": lambda page: page.locator(".step").nth(2),
            "correction written": lambda page: page.get_by_role("button", name="Did 1"),
            "undo of a set": lambda page: page.locator(".tap-last"),
        },
    )
    return each | led


Target = Callable[[Page], Locator]


def _walk(page: Page, rounds: int, targets: Mapping[str, Target]) -> dict[str, Times]:
    """Tap the targets one after the other, round after round."""
    found = {name: Times() for name in targets}
    finger = page.context.new_cdp_session(page)
    warm_up = len(targets)
    for number, name in enumerate(islice(cycle(targets), (rounds + 1) * len(targets))):
        _press(page, finger, targets[name](page).first)
        page.wait_for_timeout(_REST_MS)
        down, up, changed = page.evaluate(_TAKEN)
        if number >= warm_up:
            found[name].down.append(max(down, default=_LEAST_SEEN_MS))
            found[name].up.append(max(up, default=_LEAST_SEEN_MS))
            found[name].changed += changed
    page.context.close()
    return found


def _press(page: Page, finger: CDPSession, target: Locator) -> None:
    """Touch as a finger does: down, a moment, up."""
    box = target.bounding_box()
    if box is None:
        raise RuntimeError(f"nothing to tap: {target}")
    at = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
    finger.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [at]})
    page.wait_for_timeout(_HELD_MS)
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def _bench(browser: Browser, url: str, *, tap_each_stroke: bool) -> Page:
    width, height = _PHONE
    page = browser.new_context(
        viewport={"width": width, "height": height}, has_touch=True, is_mobile=True
    ).new_page()
    kept = {"bench who": "Bo", "bench device": "phone", "bench tap each stroke": tap_each_stroke}
    for name, value in kept.items():
        page.add_init_script(f"localStorage.setItem({name!r}, {json.dumps(json.dumps(value))})")
    page.add_init_script(_WATCH)
    page.goto(url)
    page.get_by_role("button", name="One stroke done" if tap_each_stroke else "Lead").wait_for()
    page.wait_for_timeout(_REST_MS)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    return page


def job_at_the_first_screw(address: str, more: int = 0) -> str:
    """Start a job by the interface alone; ``more`` events of strokes done and taken back."""
    machines = _ask(address, "/machines")["machines"]
    machine = next(one["id"] for one in machines if one["name"].startswith("Skerry"))
    wish = {"who": "Bo", "device": "phone", "posture": "level"}
    job = _ask(address, f"/machines/{machine}/circuits/front/jobs", wish)
    gates = [
        {"kind": "gate", "gate": gate["id"], "answer": "yes", "reason": None}
        for gate in job["sheet"]["gates"]
        if gate["before"] == "opening"
    ]
    stamps = _stamps()
    events = [deed | next(stamps) for deed in (*gates, *_BEFORE)]
    for _ in range(more // 2):
        stroke = {"kind": "set_done", "point": 0, "count": 1} | next(stamps)
        events += [stroke, {"kind": "undone", "target": stroke["id"]} | next(stamps)]
    taken = _ask(address, f"/jobs/{job['id']}/events", {"events": events})
    if taken["refused"]:
        raise RuntimeError(f"refused: {taken['refused']}")
    return str(job["id"])


def _stamps() -> Iterator[dict[str, str]]:
    for number in count():
        ms = int(datetime.now(UTC).timestamp() * 1000)
        yield {
            "id": f"{ms >> 16:08x}-{ms & 0xFFFF:04x}-7{number:03x}-8000-{os.urandom(6).hex()}",
            "at": datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
            "who": "Bo",
            "device": "phone",
        }


def _ask(address: str, path: str, body: object = None) -> dict[str, Any]:
    sent = None if body is None else json.dumps(body).encode()
    request = Request(f"{address}/api{path}", sent, {"Content-Type": "application/json"})
    with urlopen(request) as answer:
        return cast(dict[str, Any], json.load(answer))


if __name__ == "__main__":
    for figure in measure():
        print(line(figure))
