# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The served app as a browser test starts, stops and watches it."""

import re
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, Request

ROOT = Path(__file__).resolve().parents[2]
PHONE = (360, 740)
DESK = (1280, 800)


class Server:
    """One running app with a home of its own; it keeps its port over a stop and a start.

    With an address of this machine as ``lan`` it answers paired phones there too.
    """

    def __init__(self, home: Path, lan: str | None = None) -> None:
        self.home = home
        self.port = 0
        self._lan = lan
        self._process: subprocess.Popen[str] | None = None

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def lan_address(self) -> str:
        return f"http://{self._lan}:{self.port}"

    def start(self) -> None:
        lan = () if self._lan is None else ("--lan", self._lan)
        command = (sys.executable, "-m", "firmlever", "serve", *lan)
        self._process = subprocess.Popen(
            [*command, "--port", f"{self.port}", "--home", str(self.home)],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        assert self._process.stdout is not None
        said = self._process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", said)
        assert found is not None, said
        self.port = int(found[1])

    @property
    def process_id(self) -> int:
        assert self._process is not None
        return self._process.pid

    def kill(self) -> None:
        """As when the power goes: nothing is said, nothing is tidied up."""
        assert self._process is not None
        self._process.kill()
        self._process.communicate(timeout=20)
        self._process = None

    def stop(self) -> None:
        if self._process is not None:
            self._process.terminate()
            self._process.communicate(timeout=20)
            self._process = None


@dataclass
class Watch:
    """What went wrong or went elsewhere while a page was open."""

    address: str
    complaints: list[str] = field(default_factory=list)
    elsewhere: list[str] = field(default_factory=list)

    def follow(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.complaints.append(f"uncaught: {error}"))
        page.on("console", lambda said: self._hear(said.type, said.text))
        page.on("request", self._see)

    def _hear(self, kind: str, words: str) -> None:
        # A refused request (a 404, a 409) is logged by the browser itself; the page answers it.
        if kind in ("error", "warning") and not words.startswith("Failed to load resource"):
            self.complaints.append(f"{kind}: {words}")

    def _see(self, request: Request) -> None:
        if not request.url.startswith((f"{self.address}/", "data:", "blob:")):
            self.elsewhere.append(request.url)


@dataclass
class Visitor:
    """Somebody with a browser of their own; all their tabs share what it keeps."""

    context: BrowserContext
    watch: Watch

    def open(self, route: str = "#/") -> Page:
        page = self.context.new_page()
        self.watch.follow(page)
        page.goto(f"{self.watch.address}/{route}")
        page.get_by_role("heading", level=1).wait_for()
        return page


def visitor(
    browser: Browser,
    server: Server,
    size: tuple[int, int],
    *,
    theme: str = "light",
    motion: str = "no-preference",
    bypass_csp: bool = False,
    over_network: bool = False,
) -> Visitor:
    """A new visitor with a screen of this size, who has not been here before."""
    width, height = size
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if theme == "dark" else "light",
        reduced_motion="reduce" if motion == "reduce" else "no-preference",
        bypass_csp=bypass_csp,
        accept_downloads=True,
    )
    context.set_default_timeout(20_000)
    return Visitor(context, Watch(server.lan_address if over_network else server.address))
