# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Circuit files, format 1: read, check, write back, describe as JSON Schema."""

from firmlever.store.circuit_file.files import TomlCircuitFiles

__all__ = ["TomlCircuitFiles"]
