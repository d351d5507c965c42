# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Machines, plans, jobs and phones in a database."""

from firmlever.store.database.opening import Database, database_on, open_database

__all__ = ["Database", "database_on", "open_database"]
