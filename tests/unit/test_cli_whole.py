# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The command line on real files, tables and the planner: in process, then as a process."""

import json
import os
import subprocess
import sys
from importlib.resources import files
from io import StringIO
from pathlib import Path

import jsonschema
import pytest

from firmlever.bootstrap import open_workshop
from firmlever.cli.main import run
from firmlever.cli.screen import Screen
from firmlever.report.json import lever_schema, plan_schema
from firmlever.report.layout import COLUMNS, width

HEAVY = {"numpy", "scipy", "pydantic", "tomlkit", "rich"}
DEMO = [(bike, circuit) for bike in open_workshop().files.demo() for circuit in bike.circuits]
NAMES = [f"{bike.name}, {circuit.name}" for bike, circuit in DEMO]
READINGS = "set,force_n,travel_mm\n"
PLAN = ("--circuit", "front", "--fluid", "DOT 4", "--on", "2026-05-01")


def firmlever(*words: str) -> tuple[int, str, str]:
    out, err = StringIO(), StringIO()
    code = run(words, Screen(out, err, {}))
    return code, out.getvalue(), err.getvalue()


def test_a_fill_ends_with_3_where_it_is_surely_beyond(tmp_path: Path) -> None:
    file = tmp_path / "dry.toml"
    demo = files("firmlever") / "data" / "demo"
    for name, ends in (("skerry", 3), ("dunlin", 0)):
        file.write_text((demo / f"{name}.toml").read_text("utf-8"), "utf-8")
        words = ("plan", str(file), *PLAN, "--work", "fill")
        code, page, complaint = firmlever(*words)
        assert (code, complaint) == (ends, "")
        assert ("Needs attention" in page) is (ends == 3)
        assert "Beyond this: stop (common practice, no source)" in page
        document = json.loads(firmlever(*words, "--json")[1])
        jsonschema.Draft202012Validator(plan_schema()).validate(document)
        assert document["fill"]["steps"][1]["at"] == "master"


def test_a_machine_from_its_class_to_a_plan(tmp_path: Path) -> None:
    file = str(tmp_path / "skerry.toml")
    code, _, complaint = firmlever("new", file, "--class", "tourer", "--name", "Skerry")
    assert (code, complaint) == (0, "")
    before = json.loads(firmlever("check", file, "--json")[1])
    assert firmlever("set", file, "front/master/bore_mm=16") == (
        0,
        "front/master/bore_mm is now 16\n",
        "",
    )
    after = json.loads(firmlever("check", file, "--json")[1])
    assert after["circuits"][0]["known"] == before["circuits"][0]["known"] + 1

    code, text, complaint = firmlever("plan", file, *PLAN, "--json")
    assert (code, complaint) == (3, "")  # nobody knows what is in it
    assert firmlever("plan", file, *PLAN, "--json") == (code, text, complaint)
    document = json.loads(text)
    jsonschema.Draft202012Validator(plan_schema()).validate(document)

    code, page, complaint = firmlever("plan", file, *PLAN)
    assert (code, complaint) == (3, "")
    offered = [line.strip() for line in page.splitlines() if "firmlever set" in line]
    assert offered
    for command in offered:
        key = command.split('"')[-2].removesuffix("=VALUE")
        code, _, complaint = firmlever("set", file, f"{key}=1e9")
        assert code == 2
        assert "there is no" not in complaint, "the key is known, only the value is refused"


def test_a_lever_is_judged_from_a_table_of_readings(tmp_path: Path) -> None:
    bike = str(files("firmlever").joinpath("data", "demo", "skerry.toml"))
    before, after = str(tmp_path / "before.csv"), str(tmp_path / "after.csv")
    Path(before).write_text(f"{READINGS}wedged,8,14\nwedged,12,22\nwedged,25,31\nwedged,80,40\n")
    Path(after).write_text(f"{READINGS}wedged,8,7\nwedged,12,9\nwedged,25,13\nwedged,80,19\n")
    words = ("feel", bike, before, "--circuit", "front", "--on", "2026-05-01")
    code, text, complaint = firmlever(*words, "--json")
    assert (code, complaint) == (3, "")  # there is air in it
    assert firmlever(*words, "--json") == (code, text, complaint)
    document = json.loads(text)
    jsonschema.Draft202012Validator(lever_schema()).validate(document)
    assert document["air_ml"]["p05"] > 0.10
    code, text, complaint = firmlever(*words, "--after", after)
    assert (code, complaint) == (0, "")
    assert "ml of air left the brake (" in text
    assert [line for line in text.splitlines() if width(line) > COLUMNS] == []
    Path(before).write_text("force,travel\n")
    assert firmlever(*words) == (
        2,
        "",
        (
            f"{before}: 1 thing to put right before it can be read\n"
            "  line 1, the heading: “force,travel”; it starts with set,force_n,travel_mm\n"
        ),
    )
    assert json.loads(firmlever("schema", "lever")[1])["title"] == "firmlever lever test, format 1"


@pytest.mark.parametrize("name", NAMES)
def test_every_circuit_of_the_demo_fits_the_page(name: str) -> None:
    from firmlever.domain.plan import PlanRequest
    from firmlever.report.text import plan_page
    from firmlever.services.describing import usual_heights
    from firmlever.services.planning import plan

    workshop = open_workshop()
    bike, circuit = DEMO[NAMES.index(name)]
    heights = usual_heights(bike, circuit, workshop.tables)
    assert set(heights) == {part.id for part in circuit.parts}
    result = plan(bike, PlanRequest(circuit.name, workshop.clock.today()), workshop.tables)
    page = plan_page(result, circuit, "file.toml", heights)
    wide = [line.text for line in page if width(line.text) > COLUMNS]
    assert [line for line in wide if "firmlever set" not in line] == []
    drawn = "\n".join(line.text for line in page)
    assert drawn.count("●") == len(circuit.parts)


def process(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "firmlever", *words],
        cwd=folder,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def test_exit_codes_of_a_process(tmp_path: Path) -> None:
    (tmp_path / "bad.toml").write_bytes(b"\xff\xfe\x00garbage")
    for words in (("check", "bad.toml"), ("plan", "none.toml"), ("nonsense",)):
        done = process(*words, folder=tmp_path)
        assert (done.returncode, done.stdout) == (2, "")
        assert "Traceback" not in done.stderr
        assert done.stderr.count("\n") == 1
    assert process("new", "s.toml", "--class", "tourer", folder=tmp_path).returncode == 0
    plan = process("plan", "s.toml", *PLAN, folder=tmp_path)
    assert (plan.returncode, plan.stderr) == (3, "")
    assert plan.stdout.startswith("s, front circuit\n")


def test_the_demo_workshop_is_planned_whole(tmp_path: Path) -> None:
    demo = process("demo", folder=tmp_path)
    assert (demo.returncode, demo.stderr) == (0, "")
    assert demo.stdout.count("stays old") == len(DEMO)


def test_a_reader_that_leaves_early_is_no_fault(tmp_path: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "firmlever", "schema", "circuit"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as reader:
        assert reader.stdout is not None
        assert reader.stderr is not None
        reader.stdout.close()
        assert reader.stderr.read() == b""
        assert reader.wait() == 0


@pytest.mark.parametrize("words", [("--help",), ("plan", "--help"), ("--version",)])
def test_help_imports_nothing_heavy(tmp_path: Path, words: tuple[str, ...]) -> None:
    script = (
        "import sys; from firmlever.cli.main import main; "
        f"sys.argv = ['firmlever', *{words!r}]; main(); "
        f"print(sorted({HEAVY!r} & set(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert done.stderr == "[]\n"
