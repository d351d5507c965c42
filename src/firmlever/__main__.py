# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""``python -m firmlever`` and the command ``firmlever``."""

import sys

from firmlever.cli.main import main

__all__ = ["main"]

if __name__ == "__main__":
    sys.exit(main())
