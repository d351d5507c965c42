# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Pure array functions in SI units, one phenomenon a file."""
