# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A number, its band and its reason for every step of hydraulic brake service."""

__version__ = "0.1.0.dev0"
