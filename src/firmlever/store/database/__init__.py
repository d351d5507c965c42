# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Machines and plans in a database."""

from firmlever.store.database.machines import SqlMachines
from firmlever.store.database.opening import open_machines

__all__ = ["SqlMachines", "open_machines"]
