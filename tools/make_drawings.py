# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Draw every circuit of the demo workshop and of the odd shapes for the docs.

Each is planned with the defaults on a fixed day, so that the pictures change only when the
drawing, the plan or the circuit does. Run: python tools/make_drawings.py
"""

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from firmlever.bootstrap import open_workshop
from firmlever.domain.circuit import Bike
from firmlever.domain.plan import PlanRequest
from firmlever.report.scene import scene_of
from firmlever.report.scene_svg import svg_of
from firmlever.services.describing import usual_heights
from firmlever.services.planning import plan

ROOT = Path(__file__).resolve().parent.parent
FOLDERS = (ROOT / "src" / "firmlever" / "data" / "demo", ROOT / "tests" / "data" / "odd")
PICTURES = ROOT / "docs" / "pictures"
ON = date(2026, 5, 1)

WORKSHOP = open_workshop()


def pictures(bike: Bike) -> Iterator[tuple[str, str]]:
    """Give the name and the picture of each circuit of a machine."""
    for circuit in bike.circuits:
        scene = scene_of(circuit, usual_heights(bike, circuit, WORKSHOP.tables))
        made = plan(bike, PlanRequest(circuit.name, ON), WORKSHOP.tables)
        yield circuit.name, svg_of(scene, made, title=f"{bike.name}, {circuit.name} circuit")


def main() -> None:
    """Write one file a circuit."""
    PICTURES.mkdir(exist_ok=True)
    for file in (file for folder in FOLDERS for file in sorted(folder.glob("*.toml"))):
        for circuit, picture in pictures(WORKSHOP.files.read(str(file))):
            name = f"{file.stem}-{circuit}.svg".replace("_", "-")
            (PICTURES / name).write_text(picture, encoding="utf-8", newline="\n")
            sys.stdout.write(f"{name}\n")


if __name__ == "__main__":
    main()
