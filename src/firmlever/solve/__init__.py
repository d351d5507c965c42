# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From a described circuit to arrays of draws and back to results with bands."""
