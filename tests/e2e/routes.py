# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The address of every screen, as the demo workshop has it."""

import json
from urllib.parse import quote
from urllib.request import urlopen

SCREENS = ("machines", "new", "machine", "questions", "plan", "print", "settings", "nowhere")


def demo_routes(address: str) -> dict[str, str]:
    """One address a screen, on the demo circuit of which most is known."""
    with urlopen(f"{address}/api/machines") as answer:
        machines = json.load(answer)["machines"]
    found = [(one["id"], circuit) for one in machines for circuit in one["circuits"]]
    machine, circuit = max(found, key=lambda pair: pair[1]["known"])
    name = quote(circuit["name"], safe="")
    return {
        "machines": "#/",
        "new": "#/new",
        "machine": f"#/m/{machine}",
        "questions": f"#/m/{machine}/describe/{name}",
        "plan": f"#/m/{machine}/plan/{name}",
        "print": f"#/m/{machine}/plan/{name}/print",
        "settings": "#/settings",
        "nowhere": "#/no-such-page",
    }
