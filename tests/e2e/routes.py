# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The address of every screen, as the demo workshop has it."""

import json
from dataclasses import dataclass
from urllib.parse import quote
from urllib.request import Request, urlopen


@dataclass(frozen=True)
class Screen:
    """Where a screen is, and what stands on it once it is whole."""

    route: str
    shows: str


SCREENS = (
    "machines",
    "new",
    "machine",
    "questions",
    "plan",
    "print",
    "kept",
    "settings",
    "lever test",
    "start a job",
    "job",
    "jobs",
    "record",
    "phones",
    "symptoms",
    "nowhere",
    "machine gone",
    "circuit gone",
    "plan gone",
)


def ask(address: str, path: str, body: object = None) -> dict[str, object]:
    """Ask the server directly; with a body, it is posted."""
    sent = None if body is None else json.dumps(body).encode()
    request = Request(f"{address}/api{path}", sent, {"Content-Type": "application/json"})
    with urlopen(request) as answer:
        found: dict[str, object] = json.load(answer)
    return found


def demo_screens(address: str) -> dict[str, Screen]:
    """One address a screen: questions where little is known, the rest where most is."""
    machines = ask(address, "/machines")["machines"]
    assert isinstance(machines, list)
    found = [(one["id"], circuit) for one in machines for circuit in one["circuits"]]
    machine, circuit = max(found, key=lambda pair: pair[1]["known"])
    open_machine, open_circuit = max(found, key=lambda pair: pair[1]["of"] - pair[1]["known"])
    name = quote(circuit["name"], safe="")
    open_name = quote(open_circuit["name"], safe="")
    kept = ask(address, f"/machines/{machine}/circuits/{name}/plans", {})["id"]
    wish = {"who": "Bo", "device": "a phone", "posture": "level"}
    job = ask(address, f"/machines/{machine}/circuits/{name}/jobs", wish)["id"]
    return {
        "machines": Screen("#/", "The demo workshop"),
        "new": Screen("#/new", "What kind of machine is it?"),
        "machine": Screen(f"#/m/{machine}", "Remove this machine"),
        "questions": Screen(f"#/m/{open_machine}/describe/{open_name}", "Don't know"),
        "plan": Screen(f"#/m/{machine}/plan/{name}", "What would narrow this"),
        "print": Screen(f"#/m/{machine}/plan/{name}/print", "Done on"),
        "kept": Screen(f"#/m/{machine}/kept/{kept}", "Print on one page"),
        "settings": Screen("#/settings", "Whose words are shown?"),
        "lever test": Screen(f"#/m/{machine}/lever/{name}", "Start reading"),
        "start a job": Screen(f"#/m/{machine}/bench/{name}", "Who works?"),
        "job": Screen(f"#/job/{job}", "Who is at the bench?"),
        "jobs": Screen("#/jobs", "Skerry"),
        "record": Screen(f"#/job/{job}/record", "Asked before opening"),
        "phones": Screen("#/phones", "No phone can reach this laptop now"),
        "symptoms": Screen("#/symptoms", "Stop work"),
        "nowhere": Screen("#/no-such-page", "firmlever"),
        "machine gone": Screen("#/m/0123456789ab", "This machine is not here any more"),
        "circuit gone": Screen(f"#/m/{machine}/plan/no-such-circuit", "To the machine"),
        "plan gone": Screen(f"#/m/{machine}/kept/0123456789ab", "This plan is not kept here"),
    }
