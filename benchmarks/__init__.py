# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How fast, how steady and how exact a plan is: ratios against a named reference."""
