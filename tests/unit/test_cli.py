# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
import json
from collections.abc import Callable
from datetime import date

import pytest

from firmlever.bootstrap import Workshop
from firmlever.cli.arguments import COMMANDS
from firmlever.cli.commands import COMMANDS as HANDLERS
from firmlever.domain.circuit import Bike
from firmlever.domain.machine import Change
from firmlever.domain.plan import FlushPlan, PlanRequest
from firmlever.domain.quantity import Between, Exact
from firmlever.domain.tables import Method, Work
from firmlever.errors import CircuitFileError, Problem
from firmlever.ports import Tables
from firmlever.report.json import plan_json, plan_schema
from firmlever.report.layout import COLUMNS
from unit import plan_example
from unit.cli_bench import Bench, Latin, Terminal, only

FINDING = ("the fluid in it is older than four years",)


@pytest.fixture
def bench() -> Bench:
    return Bench()


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[PlanRequest]:
    """Stand in for the planner; what it was asked is listed."""
    requests: list[PlanRequest] = []

    def plan(_bike: Bike, request: PlanRequest, _tables: Tables) -> FlushPlan:
        requests.append(request)
        return plan_example.plan(request.circuit, FINDING if request.seed == 13 else ())

    monkeypatch.setattr("firmlever.services.planning.plan", plan)
    return requests


def broken(monkeypatch: pytest.MonkeyPatch, fault: BaseException) -> None:
    def plan(*_: object) -> FlushPlan:
        raise fault

    monkeypatch.setattr("firmlever.services.planning.plan", plan)


def test_every_command_has_help_with_examples_and_a_handler(bench: Bench) -> None:
    assert tuple(COMMANDS) == tuple(HANDLERS)
    for command in COMMANDS:
        assert bench(command, "--help") == 0
    assert bench("plan", "skerry.toml", "-h") == 0
    out, err = bench.wrote()
    assert err == ""
    for command, words in COMMANDS.items():
        assert words in out
        assert f"\n  firmlever {command}" in out
    assert bench() == 0
    assert [line for line in bench.wrote()[0].splitlines() if len(line) > COLUMNS] == []


@pytest.mark.parametrize("words", [(), ("--help",), ("-h",), ("help",)])
def test_the_first_help_names_every_command(bench: Bench, words: tuple[str, ...]) -> None:
    assert bench(*words) == 0
    out, _ = bench.wrote()
    assert all(f"\n  {command} " in out for command in COMMANDS)
    assert "The machine's manual, local rules and licensed practice come first." in out


def test_the_version(bench: Bench) -> None:
    assert bench("--version") == 0
    assert bench.wrote() == ("firmlever 0.1.0.dev0\n", "")


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (
            ("plam",),
            (
                "there is no command called “plam”; did you mean “plan”? "
                "Known: new, check, set, level, plan, air, feel, schema, demo, serve"
            ),
        ),
        (
            ("check",),
            "the following arguments are required: FILE; see firmlever check --help",
        ),
        (
            ("check", "skerry.toml", "--jsn"),
            (
                "there is no firmlever check option called “--jsn”; did you mean “--json”? "
                "Known: --json, --words"
            ),
        ),
        (
            ("plan", "skerry.toml", "--on"),
            "argument --on: expected one argument; see firmlever plan --help",
        ),
        (("check", "lost.toml"), "lost.toml: there is no such file"),
        (
            ("new", "skerry.toml", "--class", "tourer"),
            (
                "skerry.toml is already there and was left as it is; choose another name or "
                "move it away"
            ),
        ),
        (
            ("plan", "skerry.toml"),
            "--circuit cannot be left out; Skerry 1100 has front, rear: name one of them",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "fromt"),
            "there is no circuit called “fromt”; did you mean “front”? Known: front, rear",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--method", "vacum"),
            (
                "there is no method called “vacum”; did you mean “vacuum”? "
                "Known: lever, vacuum, gravity, pressure, reverse"
            ),
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--work", "polish"),
            "there is no work called “polish”. Known: flush, bleed, fill",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--target", "nan"),
            "--target cannot be “nan”; give a number, as 0.95",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--workshop", "warm"),
            "--workshop cannot be “warm”; give a number, as 0.95",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--seed", "-1"),
            "--seed cannot be “-1”; give a whole number, as 1",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--on", "1 May"),
            "--on cannot be “1 May”; give year, month and day, as 2026-05-01",
        ),
        (
            ("plan", "skerry.toml", "--circuit", "front", "--words", "de"),
            "there is no word set called “de”. Known: uk, us",
        ),
        (
            ("schema", "bike"),
            "there is no schema called “bike”. Known: circuit, plan, lever, level, air",
        ),
        (
            ("set", "skerry.toml", "bore", "front/x/y=1..", "front/x/y=4..4", "=3"),
            (
                "KEY=VALUE cannot be “bore” or “front/x/y=1..” or “front/x/y=4..4” or “=3”; "
                "give a number or LOW..HIGH, as front/master/bore_mm=16 or "
                '"front/left caliper/volume_ml=11..15"'
            ),
        ),
    ],
)
@pytest.mark.usefixtures("asked")
def test_a_complaint_says_what_would_do(
    bench: Bench, words: tuple[str, ...], complaint: str
) -> None:
    assert bench(*words) == 2
    assert bench.wrote() == ("", f"{complaint}\n")


def test_all_faults_of_a_file_come_at_once(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    faults = [Problem(4, "bike", "no name", "give one"), Problem(9, "x\x1b[2J", "odd", "mend it")]

    def read(file: str) -> Bike:
        raise CircuitFileError(file, faults)

    monkeypatch.setattr(bench.files, "read", read)
    assert bench("check", "skerry.toml") == 2
    assert bench.wrote() == (
        "",
        (
            "skerry.toml: 2 things to put right, nothing was changed\n"
            "  line 4, bike: no name; give one\n"
            "  line 9, x?[2J: odd; mend it\n"
        ),
    )


def test_a_new_file_is_named_after_itself_or_as_told(bench: Bench) -> None:
    assert bench("new", "sub/mule.toml", "--class", "off-road") == 0
    assert bench("new", "b.toml", "--class", "tourer", "--name", "Skerry 1100") == 0
    assert bench.files.started == [
        ("sub/mule.toml", "off-road", "mule"),
        ("b.toml", "tourer", "Skerry 1100"),
    ]
    assert "Wrote sub/mule.toml: Skerry 1100 (tourer) with front, rear.\n" in bench.wrote()[0]


def test_a_check_counts_what_is_known(bench: Bench) -> None:
    assert bench("check", "skerry.toml") == 0
    assert bench.wrote()[0].startswith("Skerry 1100: 2 circuits, nothing to put right\n")
    bench = Bench()
    assert bench("check", "skerry.toml", "--json") == 0
    assert json.loads(bench.wrote()[0])["circuits"][0]["known"] == 13


def test_measurements_are_kept_and_said(bench: Bench) -> None:
    words = ("front/master/bore_mm=15.87", "front/left caliper/volume_ml=11..15")
    assert bench("set", "skerry.toml", *words) == 0
    changes = (
        Change("front/master/bore_mm", Exact(15.87)),
        Change("front/left caliper/volume_ml", Between(11.0, 15.0)),
    )
    assert bench.files.kept == [("skerry.toml", changes)]
    assert bench.wrote() == (
        "front/master/bore_mm is now 15.87\nfront/left caliper/volume_ml is now 11 to 15\n",
        "",
    )


def test_one_wrong_measurement_keeps_all_out(bench: Bench) -> None:
    assert bench("set", "skerry.toml", "front/master/bore_mm=15.87", "bike/mass_kg=1") == 2
    assert bench.files.kept == []
    assert bench.wrote() == (
        "",
        "there is no quantity called “bike/mass_kg”. Known: front/master/bore_mm\n",
    )


def test_a_plan_asks_for_the_usual(bench: Bench, asked: list[PlanRequest]) -> None:
    assert bench("plan", "skerry.toml", "--circuit", "front") == 0
    assert asked == [PlanRequest("front", plan_example.ON)]
    out, err = bench.wrote()
    assert out.startswith("Skerry 1100, front circuit\n")
    assert err == ""


def test_a_plan_passes_every_wish_on(bench: Bench, asked: list[PlanRequest]) -> None:
    bench.files.bikes["one.toml"] = only(plan_example.rear())
    words = (
        "plan one.toml --work fill --method vacuum --technique pump --target 0.9 --pistons-home "
        "--workshop -5 --on 2027-01-31 --seed 7 --json"
    )
    assert bench(*words.split(), "--fluid", "DOT 5.1") == 0
    assert asked == [
        PlanRequest(
            circuit="rear",
            on=date(2027, 1, 31),
            work=Work.FILL,
            method=Method.VACUUM,
            technique="pump",
            target=0.9,
            pistons_home=True,
            fluid="DOT 5.1",
            workshop_degc=-5.0,
            seed=7,
        )
    ]
    assert bench.wrote() == (plan_json(plan_example.plan("rear")), "")


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize("form", [(), ("--json",)])
def test_a_finding_ends_with_three(bench: Bench, form: tuple[str, ...]) -> None:
    assert bench("plan", "skerry.toml", "--circuit", "front", "--seed", "13", *form) == 3
    assert FINDING[0] in bench.wrote()[0]


@pytest.mark.usefixtures("asked")
def test_american_words(bench: Bench) -> None:
    assert bench("plan", "skerry.toml", "--circuit", "front", "--words", "us") == 0
    assert "wrench" in bench.wrote()[0]
    assert "spanner" not in bench.wrote()[0]


def test_schemas(bench: Bench) -> None:
    assert bench("schema", "circuit") == 0
    assert json.loads(bench.wrote()[0]) == {"title": "a circuit file"}
    bench = Bench()
    assert bench("schema", "plan") == 0
    assert json.loads(bench.wrote()[0]) == plan_schema()


def test_the_demo_plans_every_circuit(bench: Bench, asked: list[PlanRequest]) -> None:
    assert bench("demo") == 0
    assert [request.circuit for request in asked] == ["front", "rear"]
    out, _ = bench.wrote()
    assert out.count("stays old") == 2
    assert '\n  firmlever new mine.toml --class naked --name "Mine"\n' in out


def test_a_fault_of_our_own_is_one_line(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    broken(monkeypatch, ValueError("odd\n  thing"))
    assert bench("plan", "skerry.toml", "--circuit", "front") == 1
    assert bench.wrote() == (
        "",
        (
            "firmlever met a fault of its own (ValueError: odd thing); FIRMLEVER_TRACE=1 shows "
            "where, please report it with your circuit file\n"
        ),
    )


def test_a_fault_without_words_is_named(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    broken(monkeypatch, MemoryError())
    assert bench("plan", "skerry.toml", "--circuit", "front") == 1
    assert bench.wrote()[1].startswith("firmlever met a fault of its own (MemoryError);")


def test_a_trace_is_shown_when_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    bench = Bench(environ={"FIRMLEVER_TRACE": "1"})
    broken(monkeypatch, ValueError("odd"))
    assert bench("plan", "skerry.toml", "--circuit", "front") == 1
    lines = bench.wrote()[1].splitlines()
    assert lines[0] == "Traceback (most recent call last):"
    assert lines[-1] == "firmlever met a fault of its own (ValueError: odd)"


def test_a_stop_by_hand_is_quiet(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    broken(monkeypatch, KeyboardInterrupt())
    assert bench("plan", "skerry.toml", "--circuit", "front") == 130
    assert bench.wrote() == ("", "")


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize(
    ("environ", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)]
)
def test_colour_only_where_somebody_looks_and_wants_it(
    environ: dict[str, str], coloured: bool
) -> None:
    terminal, pipe = Bench(out=Terminal(), environ=environ), Bench(environ=environ)
    for bench in (terminal, pipe):
        assert bench("plan", "skerry.toml", "--circuit", "front") == 0
    seen, piped = terminal.wrote()[0], pipe.wrote()[0]
    assert "\x1b" not in piped
    assert ("\x1b[1m" in seen) is coloured
    assert _without_colour(seen) == piped


def _without_colour(text: str) -> str:
    return "".join(
        part.partition("m")[2] if i else part for i, part in enumerate(text.split("\x1b"))
    )


@pytest.mark.usefixtures("asked")
def test_an_old_terminal_gets_letters_it_can_show() -> None:
    bench = Bench(out=Latin(), err=Latin())
    assert bench("plan", "skerry.toml", "--circuit", "front") == 0
    assert bench.wrote()[0].isascii()
    assert bench("plan", "skerry.toml", "--circuit", "“") == 2
    assert bench.wrote()[1] == 'there is no circuit called """. Known: front, rear\n'


def test_a_wait_is_told_only_to_a_terminal(
    asked: list[PlanRequest], monkeypatch: pytest.MonkeyPatch
) -> None:
    quiet, watched = Bench(), Bench(err=Terminal())
    slow(monkeypatch)
    for bench in (quiet, watched):
        assert bench("plan", "skerry.toml", "--circuit", "front") == 0
    assert asked == []
    assert quiet.wrote()[1] == ""
    note = "working out the front circuit…"
    assert watched.wrote()[1] == f"\r{note}\r{' ' * len(note)}\r"


def slow(monkeypatch: pytest.MonkeyPatch) -> None:
    """A planner that ends only after every waiting note was written."""
    from threading import Timer
    from threading import enumerate as threads

    def plan(*_: object) -> FlushPlan:
        for thread in threads():
            if isinstance(thread, Timer):
                thread.join()
        return plan_example.plan()

    monkeypatch.setattr("firmlever.services.planning.plan", plan)


def test_a_short_wait_is_not_told(asked: list[PlanRequest]) -> None:
    from firmlever.cli.screen import Screen

    bench = Bench(err=Terminal())
    with Screen(bench.out, bench.err, {}).waiting("a moment"):
        pass
    assert asked == []
    assert bench.wrote()[1].strip() == ""


def test_nothing_is_built_for_help_or_a_wrong_command(bench: Bench) -> None:
    from firmlever.cli.main import run
    from firmlever.cli.screen import Screen

    def build() -> Workshop:
        raise AssertionError

    screen = Screen(bench.out, bench.err, {})
    builder: Callable[[], Workshop] = build
    assert run(["--help"], screen, builder) == 0
    assert run(["plan", "--help"], screen, builder) == 0
    assert run(["plam"], screen, builder) == 2
