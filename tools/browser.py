# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A headless browser for the tools: the one that run.py finds."""

import os
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, sync_playwright

from run import find_browser, no_browser


@contextmanager
def headless() -> Iterator[Browser]:
    """Start a browser of the Chromium family and close it again."""
    program = find_browser()
    if program is None:
        raise SystemExit(no_browser())
    # its sandbox refuses to start for the superuser
    is_root = getattr(os, "geteuid", lambda: 1)() == 0
    with sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=program, args=["--no-sandbox"] if is_root else []
        )
        try:
            yield browser
        finally:
            browser.close()
