# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The benchmark of the app still weighs it; only the weight, which no clock blurs, is held here."""

from playwright.sync_api import Browser

from benchmarks.app_speed import weights
from e2e.app import Server


def test_the_first_load_is_light(browser: Browser, server: Server) -> None:
    everything, pages = weights(browser, server.address)
    assert everything.holds
    # regression: below this, something of the pages was not counted
    assert 20.0 < pages.value < everything.value
