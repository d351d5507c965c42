# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Set firmlever up and start it, or run every check.

  python3 run.py [OPTIONS]            set up what is missing, start the app with the demo workshop
                                      and print its address; --open opens it in the browser,
                                      --port N and --home DIR go to "firmlever serve"
  python3 run.py test [OPTIONS]       set up the test tools as well, then run every check;
                                      --deep runs the full counts, other options go to pytest
  python3 run.py test --setup-only    set up the test tools and stop there

On Windows write "py run.py". Needs nothing but Python 3.11 or newer, and a network the first time.
Node builds the pages: the one on this computer, else one that is put into .venv.
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
import re
import shutil
import signal
import subprocess
import tempfile
import time
import tomllib
import webbrowser
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
    "eai_again",
    "enotfound",
    "econnrefused",
    "etimedout",
    "enotcached",
)
# What vite and vitest ask for: 20.19, 22.12, or newer than 22.
NODE_NEEDS = ((20, 19), (22, 12))
BROWSER_SETTING = "FIRMLEVER_BROWSER"
BROWSER_NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
    "msedge",
)
BROWSER_PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    "{PROGRAMFILES}/Google/Chrome/Application/chrome.exe",
    "{PROGRAMFILES(X86)}/Microsoft/Edge/Application/msedge.exe",
    "{PROGRAMFILES}/Microsoft/Edge/Application/msedge.exe",
)
NOTHING_COLLECTED = 5


class SetUpError(Exception):
    """Something the person at the keyboard has to put right first; the text says what."""


class Step(NamedTuple):
    """One part of the set-up: done again only when its inputs have changed.

    ``leaves`` is a file that shows the step's work to be still there.
    """

    name: str
    purpose: str
    inputs: str
    command: tuple[str, ...]
    leaves: Path | None = None


class Outcome(NamedTuple):
    """What a command ended with and what it printed."""

    code: int
    output: str


class Check(NamedTuple):
    """One of the checks that ``test`` runs."""

    name: str
    command: tuple[str, ...]
    folder: str = "."
    settings: tuple[tuple[str, str], ...] = ()
    good_codes: tuple[int, ...] = (0,)


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
            leaves=Path(python),
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


def page_stamp_file(root: Path) -> Path:
    """Where the stamps of the pages lie; which set of packages is installed is nothing to them."""
    return root / ".venv" / "stamps-of-pages.json"


def read_stamps(file: Path) -> dict[str, str]:
    """The steps noted as done."""
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def steps_done(file: Path, steps: Sequence[Step]) -> dict[str, str]:
    """The stamps of the steps that are done and whose work is still there."""
    noted = read_stamps(file)
    lost = {step.name for step in steps if step.leaves is not None and not step.leaves.exists()}
    return {name: stamp for name, stamp in noted.items() if name not in lost}


def write_stamps(file: Path, done: dict[str, str]) -> None:
    """Note which steps are done."""
    file.parent.mkdir(exist_ok=True)
    file.write_text(json.dumps(done, indent=1), encoding="utf-8")


def is_set_up(root: Path, lock: str) -> bool:
    """Whether every step for this lock is done and nothing has changed since."""
    steps = set_up_steps(root, lock)
    return steps_done(stamp_file(root), steps) == stamps(steps)


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
    noise = "npm error A complete log of this run"
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    told = [line for line in lines if not line.startswith(noise)]
    return f"cannot {purpose}: {told[-1] if told else 'the command said nothing'}"


def do_steps(file: Path, steps: Sequence[Step], root: Path, run: Runner) -> None:
    """Do the steps that are not done yet, in order, and note them in the file."""
    wanted = stamps(steps)
    done = steps_done(file, steps)
    for position, step in enumerate(steps):
        if done.get(step.name) == wanted[step.name]:
            continue
        if step.name == "environment":
            require_venv()
        # Taken off first: a step cut short must not look done.
        write_stamps(file, dict(islice(wanted.items(), position)))
        say(f"run.py: {step.purpose}")
        outcome = run(step.command, root)
        if outcome.code:
            if is_offline(outcome.output):  # everything is fetched before anything is changed
                write_stamps(file, done)
            raise SetUpError(failure(step.purpose, outcome.output))
        done = dict(islice(wanted.items(), position + 1))
        write_stamps(file, done)


def set_up(root: Path, lock: str, run: Runner = run_quietly) -> None:
    """Do the steps to an installed project that are not done yet."""
    do_steps(stamp_file(root), set_up_steps(root, lock), root, run)


# The pages


class Node(NamedTuple):
    """The two programs that the pages are built with."""

    node: str
    npm: str


def is_new_enough(version: str) -> bool:
    """Whether Node, calling itself "v22.12.0", is one that builds the pages."""
    found = re.match(r"v(\d+)\.(\d+)", version)
    if found is None:
        return False
    major, minor = int(found[1]), int(found[2])
    same_line = [least for line, least in NODE_NEEDS if line == major]
    return minor >= same_line[0] if same_line else major > NODE_NEEDS[-1][0]


def node_on_path(run: Runner = run_quietly) -> Node | None:
    """Node as this computer has it, where it is new enough."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        return None
    outcome = run((node, "--version"), Path.cwd())
    return Node(node, npm) if outcome.code == 0 and is_new_enough(outcome.output) else None


def fetch_node(root: Path, run: Runner = run_quietly) -> Node:
    """Node inside the environment, fetched unless it is there; a sync takes it away again."""
    python, lock = tool(root, "python"), root / "requirements" / "node.lock"
    found = Node(tool(root, "node"), tool(root, "npm"))
    if not Path(found.node).exists():
        purpose = "fetch Node into .venv to build the pages"
        say(f"run.py: {purpose}")
        uv = (python, "-m", "uv", "--no-progress", "pip", "install", "--python", python)
        outcome = run((*uv, "--require-hashes", "-r", str(lock)), root)
        if outcome.code:
            raise SetUpError(
                f"{failure(purpose, outcome.output)} (Or install Node 20.19, 22.12 or newer; "
                f"then this step is left out.)"
            )
    return found


def page_inputs(root: Path) -> str:
    """A hash of everything the pages are built from."""
    front_end = root / "frontend"
    content = hashlib.sha256()
    for path in sorted(front_end.rglob("*")):
        inside = path.relative_to(front_end)
        if inside.parts[0] == "node_modules" or not path.is_file():
            continue
        content.update(f"{inside.as_posix()}\0".encode() + path.read_bytes() + b"\0")
    return content.hexdigest()


def page_tool(root: Path, name: str) -> str:
    """The script of a front-end tool; Node is told to run it, so that PATH does not matter."""
    scripts = {
        "oxlint": "oxlint/bin/oxlint",
        "tsc": "typescript/bin/tsc",
        "vite": "vite/bin/vite.js",
        "vitest": "vitest/vitest.mjs",
    }
    return str(root / "frontend" / "node_modules" / scripts[name])


def page_steps(root: Path, node: Node) -> list[Step]:
    """The steps to built pages."""
    front_end = root / "frontend"
    named = ("package.json", "package-lock.json", ".npmrc")
    quiet = ("--ignore-scripts", "--no-audit", "--no-fund", "--prefer-offline", "--fetch-retries=1")
    return [
        Step(
            "page packages",
            "install the packages of frontend/package-lock.json",
            "".join((front_end / name).read_text(encoding="utf-8") for name in named),
            (node.npm, "--prefix", str(front_end), "ci", *quiet),
            leaves=front_end / "node_modules" / ".package-lock.json",
        ),
        Step(
            "pages",
            "build the pages",
            page_inputs(root),
            (node.node, page_tool(root, "vite"), "build", str(front_end)),
            leaves=root / "src" / "firmlever" / "web" / "dist" / "index.html",
        ),
    ]


def are_pages_built(root: Path) -> bool:
    """Whether the pages stand as their sources say; their packages may be gone by then."""
    inputs = page_steps(root, Node("", ""))
    pages = inputs[-1]
    noted = steps_done(page_stamp_file(root), [pages])
    return noted.get(pages.name) == stamps(inputs)[pages.name]


def build_pages(root: Path, run: Runner = run_quietly) -> Node:
    """Install what builds the pages and build them, as far as that is not done."""
    node = node_on_path() or fetch_node(root, run)
    do_steps(page_stamp_file(root), page_steps(root, node), root, run)
    return node


# The browser for the browser tests


def find_browser() -> str | None:
    """A browser of the Chromium family: the one that was named, or where they usually lie."""
    named = os.environ.get(BROWSER_SETTING)
    if named:
        return named if Path(named).exists() else None
    for name in BROWSER_NAMES:
        found = shutil.which(name)
        if found:
            return found
    for place in BROWSER_PLACES:
        path = re.sub(r"\{(.+?)\}", lambda part: os.environ.get(part[1], ""), place)
        if Path(path).exists():
            return path
    return None


def may_install_browser() -> bool:
    """Whether this is Debian or one of its kind and we may install there."""
    return shutil.which("apt-get") is not None and getattr(os, "geteuid", lambda: 1)() == 0


def fetch_browser(run: Runner = run_quietly) -> str | None:
    """Find a browser, or install one where that is possible without asking anybody."""
    if os.environ.get(BROWSER_SETTING) or find_browser() or not may_install_browser():
        return find_browser()
    say("run.py: install a browser for the browser tests")
    quietly = ("apt-get", "-qq", "-y", "--no-install-recommends")
    for command in ((*quietly, "update"), (*quietly, "install", "chromium")):
        if run(command, Path.cwd()).code:
            break
    return find_browser()


def no_browser() -> str:
    """Why the browser tests did not run, and what to do."""
    named = os.environ.get(BROWSER_SETTING)
    if named:
        return f"browser tests NOT RUN: {BROWSER_SETTING} names {named}, and that is not there"
    remedy = "sudo apt install chromium" if shutil.which("apt-get") else "install Chromium"
    return (
        f"browser tests NOT RUN: no browser of the Chromium family was found. To run them: "
        f"{remedy} (or set {BROWSER_SETTING} to its program), then python3 run.py test"
    )


# The two commands


def start_app(root: Path, options: Sequence[str]) -> int:
    """Set up, then run the app until it is stopped."""
    # The test set holds the run set: what is there for the tests is left there.
    if not is_set_up(root, "dev.lock"):
        set_up(root, "run.lock")
    if not are_pages_built(root):
        build_pages(root)
    to_app = [option for option in options if option != "--open"]
    return serve(
        (tool(root, "python"), "-u", "-m", "firmlever", "serve", *to_app), "--open" in options
    )


def serve(command: Sequence[str], is_to_open: bool) -> int:
    """Run the app with its words in view, and open its address once it has said it."""
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, encoding="utf-8") as app:
        try:
            for line in app.stdout or ():
                say(line.rstrip("\n"))
                address = re.search(r"http://\S+", line)
                if address and is_to_open:
                    webbrowser.open(address[0])
                    is_to_open = False
            return app.wait()
        finally:
            app.terminate()


def python_checks(root: Path, options: Sequence[str], report: Path) -> list[Check]:
    """The checks of what is written in Python, the quick ones first."""
    python = tool(root, "python")
    return [
        Check("ruff check", (python, "-m", "ruff", "check", ".")),
        Check("ruff format", (python, "-m", "ruff", "format", "--check", ".")),
        Check("mypy", (python, "-m", "mypy")),
        Check("import-linter", (tool(root, "lint-imports"), "--no-logo")),
        Check("docs", (python, "-m", "zensical", "build", "--clean", "--strict")),
        Check(
            "pytest",
            (
                *(python, "-m", "pytest", "-n", "2", "--ignore=tests/e2e"),
                *(f"--junitxml={report}", *options),
            ),
            good_codes=codes_for(options),
        ),
    ]


def page_checks(root: Path, node: Node) -> list[Check]:
    """The checks of the pages; the build fails by itself when the first load is too heavy."""

    def check(name: str, command: str, *options: str) -> Check:
        return Check(name, (node.node, page_tool(root, command), *options), folder="frontend")

    return [
        check("oxlint", "oxlint", "--deny-warnings", "."),
        check("tsc", "tsc", "--noEmit"),
        check("vitest", "vitest", "run"),
        check("page build", "vite", "build"),
    ]


def browser_check(root: Path, browser: str, options: Sequence[str], report: Path) -> Check:
    """The check of the whole app in a real browser."""
    return Check(
        "browser tests",
        (
            *(tool(root, "python"), "-m", "pytest", "tests/e2e"),
            *(f"--junitxml={report}", *options),
        ),
        settings=((BROWSER_SETTING, browser),),
        good_codes=codes_for(options),
    )


def codes_for(options: Sequence[str]) -> tuple[int, ...]:
    """The exit codes that are well: a choice of tests may leave one of the two runs empty."""
    is_choice = any(option != "--deep" for option in options)
    return (0, NOTHING_COLLECTED) if is_choice else (0,)


def all_checks(
    root: Path, node: Node, browser: str | None, options: Sequence[str], reports: Path
) -> list[Check]:
    """Every check; the browser tests only where there is a browser."""
    in_browser = [browser_check(root, browser, options, reports / "browser.xml")] if browser else []
    python = python_checks(root, options, reports / "tests.xml")
    return [*python[:-1], *page_checks(root, node), python[-1], *in_browser]


def run_check(check: Check, root: Path) -> Result:
    """Run one check with its output in view."""
    say(f"\n== {check.name}")
    start = time.monotonic()
    settings = {**os.environ, **dict(check.settings)}
    done = subprocess.run(check.command, cwd=root / check.folder, env=settings, check=False)
    return Result(check.name, done.returncode in check.good_codes, time.monotonic() - start)


def count_tests(*reports: Path) -> str:
    """The tests that passed, failed and were skipped, from the reports pytest wrote."""
    passed = failed = skipped = 0
    for report in reports:
        if not report.exists():
            failed += 1
            continue
        for suite in ET.parse(report).getroot().iter("testsuite"):
            count = {name: int(suite.get(name, "0")) for name in ("tests", "skipped")}
            bad = int(suite.get("failures", "0")) + int(suite.get("errors", "0"))
            failed += bad
            skipped += count["skipped"]
            passed += count["tests"] - bad - count["skipped"]
    return f"{passed} passed, {failed} failed, {skipped} skipped"


def summary(results: Sequence[Result], tests: str, not_run: str = "") -> str:
    """The closing lines: each check, the verdict, the count of tests, what did not run."""
    rows = [
        f"{'ok' if result.passed else 'FAILED':6} {result.seconds:6.1f} s  {result.name}"
        for result in results
    ]
    failed = [result.name for result in results if not result.passed]
    passed = "every check that ran passed" if not_run else "every check passed"
    verdict = f"failed: {', '.join(failed)}" if failed else passed
    return "\n".join(["\n== summary", *rows, verdict, tests, *([not_run] if not_run else [])])


def run_tests(root: Path, options: Sequence[str]) -> int:
    """Set up with the test tools, run every check, and end with a summary."""
    set_up(root, "dev.lock")
    node = build_pages(root)
    browser = fetch_browser()
    if "--setup-only" in options:
        return 0
    with tempfile.TemporaryDirectory() as folder:
        reports = Path(folder)
        checks = all_checks(root, node, browser, options, reports)
        results = [run_check(check, root) for check in checks]
        written = ["tests.xml", "browser.xml"] if browser else ["tests.xml"]
        tests = count_tests(*(reports / name for name in written))
        say(summary(results, tests, "" if browser else no_browser()))
    return 0 if all(result.passed for result in results) else 1


def main(arguments: Sequence[str], root: Path = ROOT) -> int:
    """Do what was asked and return the exit code."""
    is_start = not arguments or (arguments[0][:2] == "--" and arguments[0] != "--help")
    command, options = ("", arguments) if is_start else (arguments[0], arguments[1:])
    try:
        if not command:
            return start_app(root, options)
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
