# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Set firmlever up and start it, or run every check.

  python3 run.py                      set up what is missing, then show the demo workshop's plans
  python3 run.py test [OPTIONS]       set up the test tools as well, then run every check;
                                      --deep runs the full counts, other options go to pytest
  python3 run.py test --setup-only    set up the test tools and stop there

On Windows write "py run.py". Needs nothing but Python 3.11 or newer, and a network the first time.
"""

import sys

if sys.version_info < (3, 11):  # noqa: UP036 - the one file that an older Python gets to read
    sys.exit(
        "run.py: this is Python {}.{}, and firmlever needs 3.11 or newer. "
        "Install one and start with it, for example: python3.11 run.py".format(*sys.version_info)
    )

import hashlib
import importlib.util
import json
import os
import signal
import subprocess
import tempfile
import time
import tomllib
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterable, Sequence
from itertools import islice
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent
OFFLINE_SIGNS = (
    "dns error",
    "name resolution",
    "name or service not known",
    "getaddrinfo",
    "network is unreachable",
    "failed to establish a new connection",
    "error trying to connect",
    "client error (connect)",
    "timed out",
)


class SetUpError(Exception):
    """Something the person at the keyboard has to put right first; the text says what."""


class Step(NamedTuple):
    """One part of the set-up: done again only when its inputs have changed."""

    name: str
    purpose: str
    inputs: str
    command: tuple[str, ...]


class Outcome(NamedTuple):
    """What a command ended with and what it printed."""

    code: int
    output: str


class Check(NamedTuple):
    """One of the checks that ``test`` runs."""

    name: str
    command: tuple[str, ...]


class Result(NamedTuple):
    """How one check went."""

    name: str
    passed: bool
    seconds: float


Runner = Callable[[Sequence[str], Path], Outcome]


def say(text: str = "") -> None:
    """Print at once, so that lines stay in order with those of the commands started."""
    print(text, flush=True)


# Set-up


def tool(root: Path, name: str) -> str:
    """The path of a program inside the virtual environment."""
    folder, ending = ("Scripts", ".exe") if os.name == "nt" else ("bin", "")
    return str(root / ".venv" / folder / (name + ending))


def build_inputs(root: Path) -> str:
    """The parts of pyproject.toml that the installed project depends on."""
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    parts = project["build-system"], project["project"], project["tool"]["hatch"]
    return json.dumps(parts, sort_keys=True)


def set_up_steps(root: Path, lock: str) -> list[Step]:
    """Every step from a bare checkout to an installed project."""
    python = tool(root, "python")
    requirements = root / "requirements"
    installer, packages = requirements / "installer.lock", requirements / lock
    pip = (python, "-m", "pip", "--disable-pip-version-check", "install", "--retries", "2")
    uv = (python, "-m", "uv", "--no-progress", "pip")
    return [
        Step(
            "environment",
            "make .venv",
            "{} {}.{}".format(root, *sys.version_info[:2]),
            (sys.executable, "-m", "venv", "--clear", str(root / ".venv")),
        ),
        Step(
            "installer",
            "fetch the installer",
            installer.read_text(encoding="utf-8"),
            (*pip, "--require-hashes", "--only-binary", ":all:", "-r", str(installer)),
        ),
        Step(
            "packages",
            f"install the packages of requirements/{lock}",
            packages.read_text(encoding="utf-8"),
            (*uv, "sync", "--python", python, "--require-hashes", str(packages)),
        ),
        # After every sync, since a sync takes away what the lock does not name.
        Step(
            "project",
            "install firmlever itself",
            build_inputs(root),
            (*uv, "install", "--python", python, "--no-deps", "-e", str(root)),
        ),
    ]


def stamps(steps: Iterable[Step]) -> dict[str, str]:
    """For each step the hash of its inputs and of all that went before it."""
    chain = hashlib.sha256()
    result = {}
    for step in steps:
        chain.update(step.inputs.encode() + b"\0")
        result[step.name] = chain.hexdigest()
    return result


def stamp_file(root: Path) -> Path:
    """Where the stamps lie: they go when the environment goes."""
    return root / ".venv" / "stamps.json"


def read_stamps(root: Path) -> dict[str, str]:
    """The steps already done, or none if the environment cannot be started."""
    if not Path(tool(root, "python")).exists():
        return {}
    try:
        found = json.loads(stamp_file(root).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def write_stamps(root: Path, done: dict[str, str]) -> None:
    """Note which steps are done."""
    stamp_file(root).parent.mkdir(exist_ok=True)
    stamp_file(root).write_text(json.dumps(done, indent=1), encoding="utf-8")


def is_set_up(root: Path, lock: str) -> bool:
    """Whether every step for this lock is done and nothing has changed since."""
    return read_stamps(root) == stamps(set_up_steps(root, lock))


def require_venv() -> None:
    """Stop with a remedy where Python comes without the means to make an environment."""
    for module in ("venv", "ensurepip"):
        if importlib.util.find_spec(module) is None:
            raise SetUpError(
                f"this Python comes without {module}. On Debian or Ubuntu: "
                f"sudo apt install python3-venv. Elsewhere: install Python from its own installer."
            )


def run_quietly(command: Sequence[str], folder: Path) -> Outcome:
    """Run a command and keep what it prints."""
    done = subprocess.run(
        command,
        cwd=folder,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        check=False,
    )
    return Outcome(done.returncode, done.stdout.decode(errors="replace"))


def is_offline(output: str) -> bool:
    """Whether an installer's words say that it found no network."""
    return any(sign in output.lower() for sign in OFFLINE_SIGNS)


def failure(purpose: str, output: str) -> str:
    """One line on why a step failed and what to do."""
    if is_offline(output):
        return (
            f"cannot {purpose}: no network. Packages are fetched on the first start and after "
            f"a change of requirements; connect this once and start again."
        )
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    return f"cannot {purpose}: {lines[-1] if lines else 'the command said nothing'}"


def set_up(root: Path, lock: str, run: Runner = run_quietly) -> None:
    """Do the steps that are not done yet, in order."""
    steps = set_up_steps(root, lock)
    wanted = stamps(steps)
    done = read_stamps(root)
    for position, step in enumerate(steps):
        if done.get(step.name) == wanted[step.name]:
            continue
        if step.name == "environment":
            require_venv()
        # Taken off first: a step cut short must not look done.
        write_stamps(root, dict(islice(wanted.items(), position)))
        say(f"run.py: {step.purpose}")
        outcome = run(step.command, root)
        if outcome.code:
            if is_offline(outcome.output):  # everything is fetched before anything is changed
                write_stamps(root, done)
            raise SetUpError(failure(step.purpose, outcome.output))
        done = dict(islice(wanted.items(), position + 1))
        write_stamps(root, done)


# The two commands


def show_demo(root: Path) -> int:
    """Set up, then print the demo workshop's plans."""
    # The test set holds the run set: what is there for the tests is left there.
    if not is_set_up(root, "dev.lock"):
        set_up(root, "run.lock")
    return subprocess.run((tool(root, "python"), "-m", "firmlever", "demo"), check=False).returncode


def all_checks(root: Path, pytest_options: Sequence[str], report: Path) -> list[Check]:
    """Every check, the quick ones first."""
    python = tool(root, "python")
    return [
        Check("ruff check", (python, "-m", "ruff", "check", ".")),
        Check("ruff format", (python, "-m", "ruff", "format", "--check", ".")),
        Check("mypy", (python, "-m", "mypy")),
        Check("import-linter", (tool(root, "lint-imports"), "--no-logo")),
        Check("docs", (python, "-m", "zensical", "build", "--clean", "--strict")),
        Check(
            "pytest",
            (python, "-m", "pytest", "-n", "2", f"--junitxml={report}", *pytest_options),
        ),
    ]


def run_check(check: Check, root: Path) -> Result:
    """Run one check with its output in view."""
    say(f"\n== {check.name}")
    start = time.monotonic()
    code = subprocess.run(check.command, cwd=root, check=False).returncode
    return Result(check.name, code == 0, time.monotonic() - start)


def count_tests(report: Path) -> str:
    """The tests that passed, failed and were skipped, from the report pytest wrote."""
    if not report.exists():
        return "0 passed, 1 failed"
    suites = list(ET.parse(report).getroot().iter("testsuite"))
    total, failed, errors, skipped = (
        sum(int(suite.get(name, "0")) for suite in suites)
        for name in ("tests", "failures", "errors", "skipped")
    )
    bad = failed + errors
    return f"{total - bad - skipped} passed, {bad} failed, {skipped} skipped"


def summary(results: Sequence[Result], tests: str) -> str:
    """The closing lines: each check, the verdict, the count of tests."""
    rows = [
        f"{'ok' if result.passed else 'FAILED':6} {result.seconds:6.1f} s  {result.name}"
        for result in results
    ]
    failed = [result.name for result in results if not result.passed]
    verdict = f"failed: {', '.join(failed)}" if failed else "every check passed"
    return "\n".join(["\n== summary", *rows, verdict, tests])


def run_tests(root: Path, options: Sequence[str]) -> int:
    """Set up with the test tools, run every check, and end with a summary."""
    set_up(root, "dev.lock")
    if "--setup-only" in options:
        return 0
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "tests.xml"
        results = [run_check(check, root) for check in all_checks(root, options, report)]
        say(summary(results, count_tests(report)))
    return 0 if all(result.passed for result in results) else 1


def main(arguments: Sequence[str], root: Path = ROOT) -> int:
    """Do what was asked and return the exit code."""
    command, options = (arguments[0], arguments[1:]) if arguments else ("", ())
    try:
        if not command:
            return show_demo(root)
        if command == "test":
            return run_tests(root, options)
        known = command in ("-h", "--help")
        say(__doc__ if known else f"run.py: there is no command {command!r}\n\n{__doc__}")
    except (SetUpError, OSError, tomllib.TOMLDecodeError) as problem:
        say(f"run.py: {problem}")
        return 1
    except KeyboardInterrupt:
        say("run.py: stopped")
        return 130
    return 0 if known else 2


if __name__ == "__main__":
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    sys.exit(main(sys.argv[1:]))
