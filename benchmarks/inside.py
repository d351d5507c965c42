# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Run one command line of firmlever in this process, then say what it cost on stderr.

``python -m benchmarks.inside peak_mb plan FILE`` or ``stats_modules`` in its place.
"""

import sys
from pathlib import Path

from firmlever.__main__ import main

_STATUS = Path("/proc/self/status")
_BYTES_A_MB = 1e6


def peak_mb() -> float:
    """Return the most memory this process has held.

    What the system counts for a child includes the parent it was split off from, so
    Linux's own count of this program is taken where there is one.
    """
    if _STATUS.exists():
        rows = dict(row.split(":", 1) for row in _STATUS.read_text().splitlines())
        return float(rows["VmHWM"].split()[0]) * 1024.0 / _BYTES_A_MB
    import resource

    size = 1.0 if sys.platform == "darwin" else 1024.0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * size / _BYTES_A_MB


def stats_modules() -> float:
    """Return how many modules of scipy.stats this process has imported."""
    return float(sum(name.startswith("scipy.stats") for name in sys.modules))


if __name__ == "__main__":
    told = {"peak_mb": peak_mb, "stats_modules": stats_modules}[sys.argv.pop(1)]
    code = main()
    print(told(), file=sys.stderr)
    sys.exit(code)
