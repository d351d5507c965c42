# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A real browser on the real app."""

import importlib.util
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

from e2e.app import DESK, PHONE, ROOT, Server, Visitor, visitor

Visits = Callable[..., Visitor]

# a plan is worked out on the way, on a machine that may be busy
expect.set_options(timeout=15_000)


@pytest.fixture(scope="session")
def browser_program() -> str:
    """The browser that run.py found, or a Chromium on the path."""
    found = os.environ.get("FIRMLEVER_BROWSER") or shutil.which("chromium")
    if found is None:
        pytest.skip("browser tests NOT RUN: no Chromium; name one in FIRMLEVER_BROWSER")
    return found


@pytest.fixture(scope="session")
def pages() -> Path:
    """The built pages, built now if they are not there."""
    package = importlib.util.find_spec("firmlever")
    assert package is not None
    assert package.origin is not None
    dist = Path(package.origin).parent / "web" / "dist"
    if not (dist / "index.html").is_file():
        vite = ROOT / "frontend" / "node_modules" / "vite" / "bin" / "vite.js"
        subprocess.run(["node", str(vite), "build"], cwd=ROOT / "frontend", check=True)
    return dist


@pytest.fixture(scope="session")
def browser(browser_program: str) -> Iterator[Browser]:
    is_root = getattr(os, "geteuid", lambda: 1)() == 0
    with sync_playwright() as driver:
        running = driver.chromium.launch(
            executable_path=browser_program, args=["--no-sandbox"] if is_root else []
        )
        yield running
        running.close()


@pytest.fixture(scope="module")
def server(pages: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    running = Server(tmp_path_factory.mktemp("home"))
    running.start()
    yield running
    running.stop()


@pytest.fixture(params=[PHONE, DESK], ids=["phone", "desk"])
def size(request: pytest.FixtureRequest) -> tuple[int, int]:
    """Both widths that matter."""
    width, height = request.param
    return width, height


@pytest.fixture
def visits(browser: Browser, server: Server) -> Iterator[Visits]:
    """Make visitors; afterwards none of their pages may have complained or looked elsewhere."""
    made: list[Visitor] = []

    def make(size: tuple[int, int], **how: object) -> Visitor:
        made.append(visitor(browser, server, size, **how))  # type: ignore[arg-type]
        return made[-1]

    yield make
    for one in made:
        one.context.close()
    assert [words for one in made for words in one.watch.complaints] == []
    assert [url for one in made for url in one.watch.elsewhere] == []
