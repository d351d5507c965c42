# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""``python -m benchmarks [NAME ...] [--json]``, from the root of a checkout."""

import json
import os
import sys
from argparse import ArgumentParser
from dataclasses import asdict

_ONE_THREAD = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS")


def main() -> int:
    """Run the benchmarks that were named, or all."""
    for name in _ONE_THREAD:
        os.environ[name] = "1"
    # these import NumPy, which reads those names only once
    from benchmarks.catalogue import BENCHMARKS
    from benchmarks.figure import line
    from benchmarks.timing import calibration

    parser = ArgumentParser(prog="python -m benchmarks", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help=", ".join(BENCHMARKS))
    parser.add_argument("--json", action="store_true", help="one document instead of lines")
    asked = parser.parse_args()
    unknown = sorted(set(asked.names) - set(BENCHMARKS))
    if unknown:
        parser.error(
            f"no benchmark is called {', '.join(unknown)}; there are {', '.join(BENCHMARKS)}"
        )
    fixed = calibration(9)
    document: dict[str, object] = {"round_cpu_s": fixed.cpu_s, "round_wall_s": fixed.wall_s}
    if not asked.json:
        print(
            f"a round of fixed work: {fixed.cpu_s * 1e3:.1f} ms of this process, "
            f"{fixed.wall_s * 1e3:.1f} ms on the wall"
        )
    for name in asked.names or BENCHMARKS:
        figures = BENCHMARKS[name]()
        document[name] = [asdict(figure) | {"holds": figure.holds} for figure in figures]
        if not asked.json:
            print(f"\n{name}")
            print("\n".join(line(figure) for figure in figures), flush=True)
    if asked.json:
        print(json.dumps(document, indent=2))
    return 0


if __name__ == "__main__":
    sys.exit(main())
