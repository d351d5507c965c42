# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The pages say what the program does: their commands run, their files load, their tables are new.

In a page, a ```console block holds commands after ``$`` and what they print. All blocks of a page
run one after the other in one empty folder. A line of three dots stands for any lines, three dots
within a line for any text in it; in a plan the last digit of a number may be one off, so that a
hair's breadth at a rounding edge fails nothing. A ```toml or ```python block whose first line is a
comment with a file name is that file. A command ends with 0 or 3, unless ``$ echo $?`` after it
shows another code.
"""

import inspect
import json
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from importlib import import_module
from io import StringIO
from itertools import cycle
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType
from typing import NamedTuple

import pytest

import firmlever.physics
import firmlever.solve
from docstrings import parameters, sections
from firmlever.cli.main import run
from firmlever.cli.screen import Screen
from firmlever.domain.quantities import SPECS
from firmlever.physics.laminar_diffusion import laminar_diffusive_new
from firmlever.physics.washout import laminar_left, stirred_left
from firmlever.store.tables import CsvTables
from tools.make_reference import page_texts

ROOT = Path(__file__).resolve().parent.parent.parent
DOCS = ROOT / "docs"
PAGES = sorted(DOCS.rglob("*.md"))
WITH_COMMANDS = [
    page for page in PAGES if page.parent.name in ("tutorial", "how-to", "explanation")
]
GOOD_ENDS = (0, 3)
ASK_CODE = "echo $?"
WRONG_ON_PURPOSE = ("slips.toml",)
CODE = re.MULTILINE | re.DOTALL


class Block(NamedTuple):
    kind: str
    text: str


class Shown(NamedTuple):
    """A command of a page and the lines it shows below."""

    command: str
    lines: tuple[str, ...]


def blocks(page: Path) -> list[Block]:
    found = re.findall(r"^```(\w+)\n(.*?)^```$", page.read_text("utf-8"), CODE)
    return [Block(*one) for one in found]


def shown_in(text: str) -> Iterator[Shown]:
    for part in re.split(r"^\$ ", text, flags=re.MULTILINE)[1:]:
        command, _, printed = part.partition("\n")
        yield Shown(command, tuple(printed.splitlines()))


def file_name(block: Block) -> str | None:
    named = re.match(r"# ([\w-]+\.(?:toml|py|csv))\n", block.text)
    return named[1] if named else None


class Shell:
    """Runs the commands of a page in this folder, as far as pages need it."""

    def __init__(self) -> None:
        self.code = 0

    def run(self, command: str) -> str:
        line, to, file = re.fullmatch(r"(.*?)(?: (>>?) ([\w.-]+))?", command).groups()  # type: ignore[union-attr]
        name, *words = shlex.split(line)
        printed = str(getattr(self, f"_{name}")(words))
        if not to:
            return printed
        with Path(file).open("a" if to == ">>" else "w", encoding="utf-8") as kept:
            kept.write(printed)
        return ""

    def _firmlever(self, words: list[str]) -> str:
        out = StringIO()
        self.code = run(words, Screen(out, out))
        return out.getvalue()

    def _python3(self, words: list[str]) -> str:
        if words == ["run.py"]:  # test_run_script.py does this
            return ""
        done = subprocess.run([sys.executable, *words], capture_output=True, text=True, check=False)
        self.code = done.returncode
        return done.stdout + done.stderr

    def _cp(self, words: list[str]) -> str:
        Path(words[1]).write_bytes((ROOT / words[0]).read_bytes())
        return ""

    def _cat(self, words: list[str]) -> str:
        return Path(words[0]).read_text(encoding="utf-8")

    def _echo(self, words: list[str]) -> str:
        assert words == ["$?"]
        return f"{self.code}\n"


def same(shown: Sequence[str], printed: str, *, rounded: bool = False) -> bool:
    """Whether a page shows what was printed; ``rounded``: a last digit may be one off."""
    pattern = "".join(
        r"(?:.*\n)*?" if line == "..." else _line_pattern(line, rounded) + r"\n" for line in shown
    )
    return re.fullmatch(pattern, printed) is not None


def _line_pattern(line: str, rounded: bool) -> str:
    pieces = re.split(r"(\.\.\.|\d+(?:\.\d+)?)", line)
    return "".join(
        ".*?" if piece == "..." else _near(piece) if rounded and odd else re.escape(piece)
        for odd, piece in zip(cycle((False, True)), pieces, strict=False)
    )


def _near(number: str) -> str:
    decimals = len(number.partition(".")[2])
    step = 10.0**-decimals
    near = (f"{float(number) + move * step:.{decimals}f}" for move in (-1, 0, 1))
    return f"(?:{'|'.join(re.escape(one) for one in near)})"


@pytest.mark.parametrize("page", WITH_COMMANDS, ids=lambda page: page.stem)
def test_commands_print_what_the_page_shows(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    shell = Shell()
    for block in blocks(page):
        name = file_name(block)
        if name:
            Path(name).write_text(block.text, encoding="utf-8")
        if block.kind != "console":
            continue
        commands = list(shown_in(block.text))
        assert commands, f"a console block without a command: {block.text}"
        for number, (command, lines) in enumerate(commands):
            printed = shell.run(command)
            code_shown = ASK_CODE in {one.command for one in commands[number : number + 2]}
            assert shell.code in GOOD_ENDS or code_shown, printed
            assert same(lines, printed, rounded=" plan " in command), f"$ {command}\n{printed}"


def test_pages_are_compared_strictly() -> None:
    assert same(("a", "...", "d"), "a\nb\nc\nd\n")
    assert same(("a ... c",), "a b c\n")
    assert not same(("a", "d"), "a\nb\nd\n")
    assert not same(("a ... c",), "a b\nc\n")
    assert same(("64 ml, 0.4",), "63 ml, 0.5\n", rounded=True)
    assert not same(("64 ml, 0.4",), "62 ml, 0.4\n", rounded=True)
    assert not same(("64 ml",), "63 ml\n")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_whole_circuit_file_is_in_order(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    shell = Shell()
    for block in blocks(page):
        whole = block.kind == "toml" and "format = 1" in block.text
        if whole and file_name(block) not in WRONG_ON_PURPOSE:
            Path("page.toml").write_text(block.text, encoding="utf-8")
            printed = shell.run("firmlever check page.toml")
            assert shell.code == 0, printed


@pytest.mark.parametrize("page", page_texts(), ids=lambda page: page.stem)
def test_made_tables_are_new(page: Path) -> None:
    assert page.read_text("utf-8") == page_texts()[page], "run tools/make_reference.py"


def test_every_key_and_word_of_a_circuit_file_is_explained() -> None:
    page = (DOCS / "reference" / "circuit-file.md").read_text("utf-8")
    schema = json.loads(Shell().run("firmlever schema circuit"))
    tables = [schema, *schema["$defs"].values()]
    keys = {key for table in tables for key in table.get("properties", {})}
    assert not {key for key in keys if f"`{key}`" not in page}
    text = json.dumps(schema)
    words = {word for found in re.findall(r'"enum": (\[.*?\])', text) for word in json.loads(found)}
    assert not {word for word in words if word not in page}


def test_every_prior_that_is_no_key_is_explained() -> None:
    page = (DOCS / "reference" / "priors.md").read_text("utf-8").split("## The rows")[0]
    keys = {spec.key for spec in SPECS}
    strange = {row.key for row in CsvTables().priors()} - keys
    assert not {key for key in strange if f"`{key}`" not in page}


def modules_of(package: ModuleType) -> Iterator[ModuleType]:
    for found in iter_modules(package.__path__):
        yield import_module(f"{package.__name__}.{found.name}")


def own(module: ModuleType) -> list[tuple[str, object]]:
    members = inspect.getmembers(module)
    return [
        (name, member)
        for name, member in members
        if getattr(member, "__module__", None) == module.__name__ and not name.startswith("_")
    ]


def quantity_names() -> set[str]:
    """What physics functions take and what the records of solve hold."""
    names: set[str] = set()
    for module in modules_of(firmlever.physics):
        for _, member in own(module):
            if inspect.isfunction(member):
                names |= set(parameters(sections(member).get("Parameters", "")))
    for module in modules_of(firmlever.solve):
        for _, member in own(module):
            if isinstance(member, type) and is_dataclass(member):
                names |= {one.name for one in fields(member) if not one.name.startswith("_")}
    return names


def test_every_name_of_a_quantity_is_in_the_nomenclature() -> None:
    page = (DOCS / "nomenclature.md").read_text("utf-8")
    names = quantity_names()
    assert {"theta", "kappa", "left_m3"} <= names
    missing = {name for name in names if not re.search(rf"^\| .*`{name}`", page, re.MULTILINE)}
    assert not missing, f"not in docs/nomenclature.md: {sorted(missing)}"


def target_at(kappa: float, share: float = 0.95) -> float:
    """Volumes of a line until its outlet reads this share of new fluid, by halving."""
    low, high = 0.1, 10.0
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (
            (middle, high) if laminar_diffusive_new(middle, kappa) < share else (low, middle)
        )
    return low


def test_numbers_of_the_explanation() -> None:
    """Published (levenspiel-1999) or derived: each from the law, as the page has it in words."""
    page = (DOCS / "explanation" / "how-a-flush-is-worked-out.md").read_text("utf-8")
    words = {
        f"| 1 | {100 * laminar_left(1.0):.0f} % | {100 * stirred_left(1.0):.0f} % |",
        f"| 2 | {100 * laminar_left(2.0):.1f} % | {100 * stirred_left(2.0):.0f} % |",
        f"| 3 | {100 * laminar_left(3.0):.1f} % | {100 * stirred_left(3.0):.0f} % |",
        f"| 5 | {100 * laminar_left(5.0):.0f} % | {100 * stirred_left(5.0):.1f} % |",
        f"| 0 | {target_at(0.0):.2f} |",
        f"| 0.001 | {target_at(0.001):.2f} |",
        f"| 0.003 | {target_at(0.003):.2f} |",
        f"| 0.1 | {target_at(0.1):.2f} |",
        f"| 1 | {target_at(1.0):.2f} |",
    }
    assert not {word for word in words if word not in page}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_source_named_in_a_page_is_listed(page: Path) -> None:
    listed = set(
        re.findall(r"^- \[([^\]]+)\] ", (DOCS / "references.md").read_text("utf-8"), re.MULTILINE)
    )
    text = re.sub(r"^```.*?^```$|`[^`\n]+`", "", page.read_text("utf-8"), flags=CODE)
    key = "[a-z0-9]+(?:-[a-z0-9]+)+"
    cited = re.findall(rf"\[({key}(?:, {key})*)\](?!\()", text)
    assert not {one for several in cited for one in several.split(", ")} - listed
