# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The run at the bench: an append-only log of events and what it comes to."""
