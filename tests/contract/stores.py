# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every place that keeps things; a further database joins all contracts by one more line."""

from collections.abc import Callable
from pathlib import Path

from contract.memory import MemoryDatabase
from firmlever.store.database import Database, open_database

Kept = MemoryDatabase | Database
STORES: dict[str, Callable[[Path], Kept]] = {
    "memory": lambda _folder: MemoryDatabase(),
    "SQLite": open_database,
}
