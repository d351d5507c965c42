# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What each command does; each returns its exit code."""

from argparse import Namespace
from collections.abc import Callable
from pathlib import PurePath

from firmlever.bootstrap import Workshop
from firmlever.cli import values
from firmlever.cli.arguments import SCHEMAS
from firmlever.cli.screen import Screen
from firmlever.errors import UnknownNameError
from firmlever.report.words import WordSet

DONE = 0
FINDING = 3

Command = Callable[[Namespace, Workshop, Screen], int]


def new(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Start a circuit file."""
    from firmlever.report.description_text import new_page
    from firmlever.services.describing import start

    name = arguments.name or PurePath(arguments.file).stem
    bike = start(workshop.files, arguments.file, arguments.bike_class, name)
    screen.page(new_page(bike, arguments.file))
    return DONE


def check(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Read a circuit file."""
    from firmlever.report.description_text import check_json, check_page

    words = values.choice("word set", WordSet, arguments.words)
    bike = workshop.files.read(arguments.file)
    if arguments.json:
        screen.document(check_json(bike))
    else:
        screen.page(check_page(bike, arguments.file, words))
    return DONE


def set_values(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Tell a circuit file what was measured: all of it or nothing."""
    from firmlever.domain.machine import Change
    from firmlever.report.description_text import set_line

    pairs = values.quantities(arguments.values)
    workshop.files.change(arguments.file, [Change(key, value) for key, value in pairs])
    for key, value in pairs:
        screen.page(set_line(key, value))
    return DONE


def level(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Tell wear from a leak by dated looks at one reservoir."""
    from firmlever.cli.looks import level_request
    from firmlever.report.level_json import level_json
    from firmlever.report.level_text import level_page
    from firmlever.services.describing import pick_circuit
    from firmlever.services.levelling import judge, needs_attention

    words = values.choice("word set", WordSet, arguments.words)
    bike = workshop.files.read(arguments.file)
    circuit = pick_circuit(bike, arguments.circuit)
    request = level_request(arguments, workshop.clock.today, circuit, workshop.files.text)
    with screen.waiting(f"the level of the {circuit.name} circuit"):
        result = judge(bike, circuit, request, workshop.tables)
    if arguments.json:
        screen.document(level_json(result))
    else:
        screen.page(level_page(result, arguments.file, words))
    return FINDING if needs_attention(result) else DONE


def plan(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Plan the work on one circuit."""
    from firmlever.cli.wishes import plan_request
    from firmlever.report.json import plan_json
    from firmlever.report.text import plan_page
    from firmlever.services.describing import pick_circuit, usual_heights
    from firmlever.services.planning import plan as plan_work

    words = values.choice("word set", WordSet, arguments.words)
    bike = workshop.files.read(arguments.file)
    circuit = pick_circuit(bike, arguments.circuit)
    request = plan_request(arguments, workshop.clock.today, circuit.name)
    with screen.waiting(f"the {circuit.name} circuit"):
        result = plan_work(bike, request, workshop.tables)
    if arguments.json:
        screen.document(plan_json(result))
    else:
        heights = usual_heights(bike, circuit, workshop.tables)
        screen.page(plan_page(result, circuit, arguments.file, heights, words))
    return FINDING if result.findings else DONE


def air(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Show where air can rest in one circuit."""
    from firmlever.cli.wishes import air_request
    from firmlever.report.air_map_json import air_map_json
    from firmlever.report.air_text import air_page
    from firmlever.services.air import air_of
    from firmlever.services.describing import pick_circuit

    words = values.choice("word set", WordSet, arguments.words)
    bike = workshop.files.read(arguments.file)
    circuit = pick_circuit(bike, arguments.circuit)
    request = air_request(arguments, workshop.clock.today)
    with screen.waiting(f"the air of the {circuit.name} circuit"):
        result = air_of(bike, circuit, request, workshop.tables)
    if arguments.json:
        screen.document(air_map_json(result))
    else:
        screen.page(air_page(result, words))
    return DONE


def feel(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Tell from readings at the lever how much air is left."""
    from firmlever.cli.wishes import lever_request
    from firmlever.report.json import lever_json
    from firmlever.report.lever_text import lever_page
    from firmlever.services.describing import pick_circuit
    from firmlever.services.feeling import judge_lever, needs_attention

    words = values.choice("word set", WordSet, arguments.words)
    bike = workshop.files.read(arguments.file)
    circuit = pick_circuit(bike, arguments.circuit)
    asked = lever_request(arguments, workshop.clock.today, workshop.files.text)
    with screen.waiting(f"the lever of the {circuit.name} circuit"):
        result = judge_lever(bike, circuit, asked, workshop.tables)
    if arguments.json:
        screen.document(lever_json(result))
    else:
        screen.page(lever_page(result, words))
    return FINDING if needs_attention(result) else DONE


def schema(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Print a JSON Schema."""
    from firmlever.report.air_map_json import air_map_schema
    from firmlever.report.json import lever_schema, plan_schema, schema_json
    from firmlever.report.level_json import level_schema

    sources = {
        "circuit": workshop.files.schema,
        "plan": plan_schema,
        "lever": lever_schema,
        "level": level_schema,
        "air": air_map_schema,
    }
    if arguments.of not in sources:
        raise UnknownNameError("schema", arguments.of, SCHEMAS)
    screen.document(schema_json(sources[arguments.of]()))
    return DONE


def demo(arguments: Namespace, workshop: Workshop, screen: Screen) -> int:
    """Plan every circuit of the demo workshop."""
    from firmlever.domain.plan import PlanRequest
    from firmlever.report.demo_text import demo_end, demo_page
    from firmlever.services.planning import plan as plan_work

    words = values.choice("word set", WordSet, arguments.words)
    on = workshop.clock.today()
    for bike in workshop.files.demo():
        for circuit in bike.circuits:
            with screen.waiting(f"{bike.name}, {circuit.name}"):
                result = plan_work(bike, PlanRequest(circuit.name, on), workshop.tables)
            screen.page(demo_page(result, circuit, words))
    screen.page(demo_end(words))
    return DONE


def serve(arguments: Namespace, _workshop: Workshop, screen: Screen) -> int:
    """Start the app and answer until somebody stops it."""
    from firmlever.bootstrap import open_kept_workshop
    from firmlever.web.serve import serve as answer

    port = values.whole("--port", arguments.port)
    answer(
        lambda: open_kept_workshop(arguments.home),
        port,
        lambda line: screen.document(f"{line}\n"),
        arguments.lan,
    )
    return DONE


COMMANDS: dict[str, Command] = {
    "new": new,
    "check": check,
    "set": set_values,
    "level": level,
    "plan": plan,
    "air": air,
    "feel": feel,
    "schema": schema,
    "demo": demo,
    "serve": serve,
}
