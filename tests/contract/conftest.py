# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Each contract is asked of every place that keeps things."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from contract.stores import STORES, Kept


@pytest.fixture(params=STORES)
def kept(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Kept]:
    place = STORES[request.param](tmp_path)
    yield place
    place.close()
