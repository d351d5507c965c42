# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Serve the app as it is on a given day, so that pictures and times of it can be repeated.

Run: python -m tools.serve_on 2026-05-01 --port 0 --home FOLDER
"""

import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime, time
from pathlib import Path
from unittest.mock import patch

from firmlever.__main__ import main
from firmlever.bootstrap import CalendarClock

ROOT = Path(__file__).resolve().parent.parent
ON = date(2026, 5, 1)


@contextmanager
def served(home: Path, day: date = ON) -> Iterator[str]:
    """Serve the demo workshop from a folder, in a process of its own; give the address."""
    words = [sys.executable, "-m", "tools.serve_on", f"{day}", "--port", "0", "--home", f"{home}"]
    with subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE, text=True) as app:
        try:
            said = app.stdout.readline() if app.stdout else ""
            address = re.search(r"http://[\w.:]+", said)
            if address is None:
                raise RuntimeError(f"the app did not say where it is: {said!r}")
            yield address[0]
        finally:
            app.terminate()


def serve_on(day: date, options: list[str]) -> int:
    """Run ``firmlever serve`` with a calendar that stands still."""
    noon = datetime.combine(day, time(12), UTC)
    with (
        patch.object(CalendarClock, "today", lambda _: day),
        patch.object(CalendarClock, "now", lambda _: noon),
        patch.object(sys, "argv", ["firmlever", "serve", *options]),
    ):
        return main()


if __name__ == "__main__":
    sys.exit(serve_on(date.fromisoformat(sys.argv[1]), sys.argv[2:]))
