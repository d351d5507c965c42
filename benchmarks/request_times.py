# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How long the app's server takes to answer; run with: python -m benchmarks.request_times."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from time import perf_counter

from fastapi.testclient import TestClient

from firmlever.bootstrap import open_kept_workshop
from firmlever.services.machines import furnish
from firmlever.web.app import create_app

RUNS = 7


@contextmanager
def demo_browser() -> Iterator[TestClient]:
    """Give a browser on the demo workshop, on a database of its own."""
    with tempfile.TemporaryDirectory() as folder:
        workshop = open_kept_workshop(folder)
        furnish(workshop.shelf)
        yield TestClient(create_app(workshop, Path(folder)), base_url="http://127.0.0.1:8017")


def circuits(browser: TestClient) -> dict[str, str]:
    """Return the address of each circuit by its name."""
    return {
        f"{machine['name']}, {circuit['name']}": (
            f"/machines/{machine['id']}/circuits/{circuit['name']}"
        )
        for machine in browser.get("/api/machines").json()["machines"]
        for circuit in machine["circuits"]
    }


def seconds(
    browser: TestClient,
    method: str,
    path: str,
    wish: dict[str, str] | None = None,
    runs: int = RUNS,
) -> float:
    """Return the middle of several runs."""
    found = []
    for _ in range(runs):
        start = perf_counter()
        answer = browser.request(method, f"/api{path}", json=wish)
        found.append(perf_counter() - start)
        assert answer.is_success, answer.text
    return median(found)


def main() -> None:
    """Print the time of each kind of request."""
    with demo_browser() as browser:
        print(f"{seconds(browser, 'GET', '/machines') * 1000:7.0f} ms  list of machines")
        for name, at in circuits(browser).items():
            scene = seconds(browser, "GET", f"{at}/scene") * 1000
            plan = seconds(browser, "POST", f"{at}/plan", {}) * 1000
            asked = seconds(browser, "GET", f"{at}/questions") * 1000
            print(f"{plan:7.0f} ms  plan, {scene:4.0f} scene, {asked:4.0f} questions: {name}")


if __name__ == "__main__":
    main()
