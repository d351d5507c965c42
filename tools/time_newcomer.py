# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Time the way of a newcomer: from a clone to the plan of their own machine.

Clones this checkout's last commit into a temporary folder, starts ``run.py`` there, and
lets a scripted visitor describe a machine known only by its class. Everything is removed
afterwards. The caches of pip, uv and npm are empty folders, so that every package is fetched.
Run: python -m tools.time_newcomer
"""

import os
import re
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter, sleep

from playwright.sync_api import Page

from tools.browser import headless

ROOT = Path(__file__).resolve().parent.parent
# Silent reading of plain English runs at about four words a second (from memory); a page of
# the talk has 20 to 60 words that somebody reads or skims: 10 s. Whoever stands beside the
# machine also looks at it: another 5 s (judgement).
SECONDS_AN_ANSWER = 15.0
# The first screen of the app, read through (judgement).
SECONDS_TO_LOOK = 20.0
# What an answer-card is given where a newcomer knows nothing but the class.
UNKNOWN = re.compile("^Don't know")


@dataclass
class Way:
    """The steps taken so far: what they were, the machine's seconds and the person's."""

    steps: list[tuple[str, float, float]] = field(default_factory=list)

    def take(self, name: str, work: Callable[[], None], person_s: float = 0.0) -> None:
        """Do one step after the person's pause, and print it."""
        sleep(person_s)
        start = perf_counter()
        work()
        self.steps.append((name, perf_counter() - start, person_s))
        sys.stdout.write(_row(*self.steps[-1]))
        sys.stdout.flush()

    def close(self) -> None:
        """Print the sums."""
        machine_s = sum(machine_s for _, machine_s, _ in self.steps)
        person_s = sum(person_s for _, _, person_s in self.steps)
        sys.stdout.write(_row("together", machine_s, person_s))


def _row(name: str, machine_s: float, person_s: float) -> str:
    return f"| {name} | {machine_s:.1f} | {person_s:.0f} | {machine_s + person_s:.1f} |\n"


def _run(words: Sequence[str]) -> None:
    subprocess.run(words, check=True)


class Start:
    """``python3 run.py`` in a fresh clone, until it says where the app is."""

    def __init__(self, clone: Path, home: Path) -> None:
        self.words = [sys.executable, "run.py", "--port", "0", "--home", f"{home}"]
        self.clone, self.address = clone, ""
        caches = ("PIP_CACHE_DIR", "UV_CACHE_DIR", "npm_config_cache")
        self.settings = os.environ | {name: f"{clone.parent / name}" for name in caches}
        self.settings.pop("PYTHONPATH", None)
        self.process: subprocess.Popen[str] | None = None

    def __call__(self) -> None:
        """Start and wait for the address."""
        self.process = subprocess.Popen(
            self.words, cwd=self.clone, env=self.settings, stdout=subprocess.PIPE, text=True
        )
        for line in self.process.stdout or ():
            found = re.search(r"http://[\w.:]+", line)
            if found:
                self.address = found[0]
                return
        raise RuntimeError("run.py ended before it said where the app is")

    def stop(self) -> None:
        """Stop what was started."""
        if self.process is not None:
            self.process.terminate()
            self.process.wait(20)


def describe(way: Way, page: Page) -> None:
    """Answer the talk: the class, and to everything after it "don't know"."""
    talk, check = "What kind of machine is it?", "Is it like this?"

    def heading() -> str:
        return page.get_by_role("heading", level=1).inner_text()

    def press(name: str | re.Pattern[str]) -> Callable[[], None]:
        def work() -> None:
            before = heading()
            page.get_by_role("button", name=name).first.click()
            page.wait_for_function(
                "(before) => document.querySelector('h1')?.innerText !== before", arg=before
            )

        return work

    begin = page.get_by_role("link", name=re.compile("^(Start with your|Describe an)")).first
    way.take("start with your own machine", begin.click, SECONDS_TO_LOOK)
    page.get_by_role("heading", name=talk).wait_for()
    way.take(f"answer: {talk} naked", press(re.compile("^Naked")), SECONDS_AN_ANSWER)
    while (question := heading()) != check:
        unknown = page.get_by_role("button", name=UNKNOWN)
        name = UNKNOWN if unknown.count() else re.compile("^Go on without a name")
        words = "don't know" if unknown.count() else "no name"
        way.take(f"answer: {question} {words}", press(name), SECONDS_AN_ANSWER)
    way.take("keep the machine", press("Keep this machine"), SECONDS_AN_ANSWER)

    def plan() -> None:
        page.get_by_role("link", name="Plan the front flush").click()
        page.get_by_text(re.compile("stays old")).first.wait_for()

    way.take("see the plan of its front brake", plan, SECONDS_AN_ANSWER)


def main() -> None:
    """Go the way once and print its steps as a table."""
    sys.stdout.write("| step | machine, s | person, s | together, s |\n|---|---|---|---|\n")
    with TemporaryDirectory() as folder:
        clone, way = Path(folder) / "firmlever", Way()
        start = Start(clone, Path(folder) / "home")
        cloning = ["git", "clone", "--quiet", "--no-local", f"file://{ROOT}", f"{clone}"]
        try:
            way.take("git clone", lambda: _run(cloning))
            way.take("python3 run.py, first start", start)
            with headless() as browser:
                page = browser.new_page(viewport={"width": 360, "height": 740})

                def open_first() -> None:
                    page.goto(f"{start.address}/")
                    page.get_by_role("heading", level=1).wait_for()

                way.take("open the page", open_first)
                describe(way, page)
            start.stop()
            way.close()
            again = Way()
            again.take("python3 run.py, second start", start)
        finally:
            start.stop()


if __name__ == "__main__":
    main()
