# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The start script, on a small made-up checkout and with a stand-in for the installers."""

import ast
import importlib.util
import json
import os
import runpy
import shutil
import subprocess
import sys
import webbrowser
from collections.abc import Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

import run

SCRIPT = Path(run.__file__)
PYPROJECT = """\
[build-system]
requires = []
[project]
name = "made-up"
[tool.hatch.build]
[tool.ruff]
line-length = 100
"""
EVERY_STEP = ["environment", "installer", "packages", "project"]
NODE = run.Node("node", "npm")
BROWSER = "there/chromium"


class StandIn:
    """Takes the place of the installers: notes the steps and may fail at one of them."""

    def __init__(self, root: Path, fail_at: str = "", output: str = "") -> None:
        self.root, self.fail_at, self.output = root, fail_at, output
        self.done: list[str] = []

    def __call__(self, command: Sequence[str], folder: Path) -> run.Outcome:
        assert folder == self.root
        step = next(
            name
            for name, sign in zip(EVERY_STEP, ("venv", "pip", "sync", "-e"), strict=True)
            if sign in command[2:] and not (sign == "pip" and "uv" in command)
        )
        if step == self.fail_at:
            return run.Outcome(1, self.output)
        self.done.append(step)
        if step == "environment":
            python = Path(run.tool(self.root, "python"))
            python.parent.mkdir(parents=True, exist_ok=True)
            python.touch()
        return run.Outcome(0, "")


def never(command: Sequence[str], folder: Path) -> run.Outcome:
    raise AssertionError(f"nothing was to be installed, but {command} was called in {folder}")


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A checkout with nothing installed."""
    (tmp_path / "requirements").mkdir()
    for name in ("installer", "run", "dev"):
        (tmp_path / "requirements" / f"{name}.lock").write_text(f"{name} 1\n", encoding="utf-8")
    (tmp_path / "pyproject.toml").write_text(PYPROJECT, encoding="utf-8")
    (tmp_path / "frontend" / "src").mkdir(parents=True)
    for name in ("package.json", "package-lock.json", ".npmrc", "src/main.tsx"):
        (tmp_path / "frontend" / name).write_text(f"{name} 1\n", encoding="utf-8")
    return tmp_path


def set_up(root: Path, lock: str = "run.lock") -> list[str]:
    """Set up with a stand-in that never fails, and return the steps it was asked for."""
    stand_in = StandIn(root)
    run.set_up(root, lock, stand_in)
    return stand_in.done


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


# What is done, and what is not done again


def test_a_bare_checkout_gets_every_step_in_order(checkout: Path) -> None:
    assert set_up(checkout) == EVERY_STEP
    assert run.is_set_up(checkout, "run.lock")


def test_a_second_start_calls_no_installer_and_so_needs_no_network(checkout: Path) -> None:
    set_up(checkout)
    run.set_up(checkout, "run.lock", never)


def test_a_changed_lock_redoes_the_sync_and_what_a_sync_takes_away(checkout: Path) -> None:
    set_up(checkout)
    change(checkout / "requirements" / "run.lock", "run 1", "run 2")
    assert set_up(checkout) == ["packages", "project"]


def test_a_changed_installer_redoes_what_it_installed(checkout: Path) -> None:
    set_up(checkout)
    change(checkout / "requirements" / "installer.lock", "installer 1", "installer 2")
    assert set_up(checkout) == ["installer", "packages", "project"]


def test_only_build_settings_reinstall_the_project(checkout: Path) -> None:
    set_up(checkout)
    change(checkout / "pyproject.toml", "line-length = 100", "line-length = 90")
    assert set_up(checkout) == []
    change(checkout / "pyproject.toml", "made-up", "thought-up")
    assert set_up(checkout) == ["project"]


def test_another_python_starts_afresh(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_up(checkout)
    monkeypatch.setattr(sys, "version_info", (3, 99, 0))
    assert set_up(checkout) == EVERY_STEP


def test_a_lost_interpreter_starts_afresh(checkout: Path) -> None:
    set_up(checkout)
    Path(run.tool(checkout, "python")).unlink()
    assert set_up(checkout) == EVERY_STEP


@pytest.mark.parametrize("text", ["", "{", "[]", "\xff"])
def test_a_damaged_stamp_file_starts_afresh(checkout: Path, text: str) -> None:
    set_up(checkout)
    run.stamp_file(checkout).write_text(text, encoding="latin-1")
    assert set_up(checkout) == EVERY_STEP


def test_a_step_that_failed_is_done_again(checkout: Path) -> None:
    with pytest.raises(run.SetUpError):
        run.set_up(checkout, "run.lock", StandIn(checkout, fail_at="packages"))
    assert set_up(checkout) == ["packages", "project"]


def test_a_step_cut_short_does_not_look_done(checkout: Path) -> None:
    """Changing sets was interrupted: going back to the first set must sync again."""
    set_up(checkout, "run.lock")

    def interrupted(command: Sequence[str], folder: Path) -> run.Outcome:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run.set_up(checkout, "dev.lock", interrupted)
    assert set_up(checkout, "run.lock") == ["packages", "project"]


def test_wanting_more_without_network_spoils_nothing_that_was_there(checkout: Path) -> None:
    set_up(checkout, "run.lock")
    with pytest.raises(run.SetUpError):
        run.set_up(checkout, "dev.lock", StandIn(checkout, "packages", "dns error"))
    run.set_up(checkout, "run.lock", never)


def test_a_set_half_changed_when_the_network_went_is_made_whole(checkout: Path) -> None:
    set_up(checkout, "run.lock")
    with pytest.raises(run.SetUpError):
        run.set_up(checkout, "dev.lock", StandIn(checkout, "project", "dns error"))
    assert set_up(checkout, "run.lock") == ["packages", "project"]


def test_each_stamp_depends_on_all_that_went_before(checkout: Path) -> None:
    steps = run.set_up_steps(checkout, "run.lock")
    before = run.stamps(steps)
    steps[1] = steps[1]._replace(inputs="other")
    after = run.stamps(steps)
    assert [name for name in EVERY_STEP if before[name] != after[name]] == EVERY_STEP[1:]


def test_the_locks_are_installed_by_hash_and_the_project_by_itself(checkout: Path) -> None:
    _, installer, packages, project = (
        step.command for step in run.set_up_steps(checkout, "dev.lock")
    )
    assert "--require-hashes" in installer
    assert "--require-hashes" in packages
    assert packages[-1].endswith("dev.lock")
    assert project[-3:] == ("--no-deps", "-e", str(checkout))


# What is said when it cannot be done


def message(checkout: Path, fail_at: str, output: str) -> str:
    with pytest.raises(run.SetUpError) as caught:
        run.set_up(checkout, "run.lock", StandIn(checkout, fail_at, output))
    return str(caught.value)


@pytest.mark.parametrize(
    ("fail_at", "output"),
    [
        ("installer", "Temporary failure in name resolution\nERROR: No matching distribution"),
        ("packages", "error: Failed to fetch\n  Caused by: dns error\n  Caused by: no address"),
        ("project", "error: operation timed out"),
    ],
)
def test_without_network_the_first_start_says_so(checkout: Path, fail_at: str, output: str) -> None:
    purpose = {
        "installer": "fetch the installer",
        "packages": "install the packages of requirements/run.lock",
        "project": "install firmlever itself",
    }[fail_at]
    assert message(checkout, fail_at, output) == (
        f"cannot {purpose}: no network. Packages are fetched on the first start and after a "
        "change of requirements; connect this once and start again."
    )


def test_another_failure_gives_the_last_word_of_the_installer(checkout: Path) -> None:
    assert message(checkout, "packages", "error: x\n  Caused by: No space left on device\n\n") == (
        "cannot install the packages of requirements/run.lock: Caused by: No space left on device"
    )
    assert message(checkout, "packages", " \n") == (
        "cannot install the packages of requirements/run.lock: the command said nothing"
    )


@pytest.mark.parametrize("module", ["venv", "ensurepip"])
def test_a_python_without_venv_or_ensurepip_is_told_what_to_install(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, module: str
) -> None:
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == module else object()
    )
    with pytest.raises(run.SetUpError) as caught:
        run.set_up(checkout, "run.lock", never)
    assert str(caught.value) == (
        f"this Python comes without {module}. On Debian or Ubuntu: sudo apt install "
        "python3-venv. Elsewhere: install Python from its own installer."
    )


def test_an_old_python_is_told_so_and_can_read_that_far(monkeypatch: pytest.MonkeyPatch) -> None:
    ast.parse(SCRIPT.read_text(encoding="utf-8"), feature_version=(3, 7))
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    with pytest.raises(SystemExit) as caught:
        runpy.run_path(str(SCRIPT), run_name="__main__")
    assert caught.value.code == (
        "run.py: this is Python 3.9, and firmlever needs 3.11 or newer. "
        "Install one and start with it, for example: python3.11 run.py"
    )


def test_windows_keeps_its_programs_elsewhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "os", SimpleNamespace(name="nt"))
    assert Path(run.tool(Path("there"), "python")) == Path("there/.venv/Scripts/python.exe")
    monkeypatch.setattr(run, "os", SimpleNamespace(name="posix"))
    assert Path(run.tool(Path("there"), "python")) == Path("there/.venv/bin/python")


# The pages


class PageTools:
    """Takes the place of npm and vite: notes what is asked and leaves what they would leave."""

    def __init__(self, root: Path, fail_at: str = "", output: str = "") -> None:
        self.root, self.fail_at, self.output = root, fail_at, output
        self.done: list[str] = []

    def __call__(self, command: Sequence[str], folder: Path) -> run.Outcome:
        name = "packages" if "ci" in command else "pages" if "build" in command else "node"
        if name == self.fail_at:
            return run.Outcome(1, self.output)
        self.done.append(name)
        left = {
            "node": Path(run.tool(self.root, "node")),
            "packages": self.root / "frontend" / "node_modules" / ".package-lock.json",
            "pages": self.root / "src" / "firmlever" / "web" / "dist" / "index.html",
        }[name]
        left.parent.mkdir(parents=True, exist_ok=True)
        left.touch()
        return run.Outcome(0, "")


@pytest.fixture
def with_node(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "node_on_path", lambda: NODE)


@pytest.fixture
def without_node(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "node_on_path", lambda: None)


def build(root: Path) -> list[str]:
    tools = PageTools(root)
    run.build_pages(root, tools)
    return tools.done


@pytest.mark.usefixtures("with_node")
def test_the_pages_are_built_once(checkout: Path) -> None:
    assert not run.are_pages_built(checkout)
    assert build(checkout) == ["packages", "pages"]
    assert run.are_pages_built(checkout)
    assert build(checkout) == []


@pytest.mark.usefixtures("with_node")
@pytest.mark.parametrize(
    ("changed", "redone"),
    [
        ("src/main.tsx", ["pages"]),
        ("package-lock.json", ["packages", "pages"]),
        (".npmrc", ["packages", "pages"]),
    ],
)
def test_a_changed_source_redoes_only_what_it_must(
    checkout: Path, changed: str, redone: list[str]
) -> None:
    build(checkout)
    change(checkout / "frontend" / changed, " 1", " 2")
    assert not run.are_pages_built(checkout)
    assert build(checkout) == redone


@pytest.mark.usefixtures("with_node")
def test_a_source_that_went_or_came_rebuilds_the_pages(checkout: Path) -> None:
    build(checkout)
    (checkout / "frontend" / "src" / "more.ts").touch()
    assert build(checkout) == ["pages"]
    (checkout / "frontend" / "src" / "more.ts").unlink()
    assert build(checkout) == ["pages"]


@pytest.mark.usefixtures("with_node")
def test_pages_that_were_deleted_are_built_again(checkout: Path) -> None:
    build(checkout)
    shutil.rmtree(checkout / "src" / "firmlever" / "web" / "dist")
    assert build(checkout) == ["pages"]


@pytest.mark.usefixtures("with_node")
def test_built_pages_do_not_need_their_packages_any_more(checkout: Path) -> None:
    build(checkout)
    shutil.rmtree(checkout / "frontend" / "node_modules")
    assert run.are_pages_built(checkout)
    assert build(checkout) == ["packages", "pages"]


@pytest.mark.usefixtures("with_node")
def test_the_packages_of_the_pages_run_no_script_of_their_own(checkout: Path) -> None:
    packages, pages = run.page_steps(checkout, NODE)
    assert packages.command[:4] == ("npm", "--prefix", str(checkout / "frontend"), "ci")
    assert "--ignore-scripts" in packages.command
    assert pages.command[0] == "node"


@pytest.mark.usefixtures("without_node")
def test_without_node_one_is_put_into_the_environment_by_hash(checkout: Path) -> None:
    asked: list[Sequence[str]] = []
    tools = PageTools(checkout)

    def note(command: Sequence[str], folder: Path) -> run.Outcome:
        asked.append(command)
        return tools(command, folder)

    node = run.build_pages(checkout, note)
    assert tools.done == ["node", "packages", "pages"]
    assert "--require-hashes" in asked[0]
    assert asked[0][-1].endswith("node.lock")
    assert node == run.Node(run.tool(checkout, "node"), run.tool(checkout, "npm"))
    assert build(checkout) == []


@pytest.mark.usefixtures("without_node")
def test_without_node_and_network_the_way_out_is_said(checkout: Path) -> None:
    with pytest.raises(run.SetUpError) as caught:
        run.build_pages(checkout, PageTools(checkout, "node", "dns error"))
    assert str(caught.value) == (
        "cannot fetch Node into .venv to build the pages: no network. Packages are fetched on the "
        "first start and after a change of requirements; connect this once and start again. "
        "(Or install Node 20.19, 22.12 or newer; then this step is left out.)"
    )


@pytest.mark.usefixtures("with_node")
def test_what_npm_says_is_told_without_its_noise(checkout: Path) -> None:
    output = (
        "npm error code EUSAGE\nnpm error the lock does not fit\n"
        "npm error A complete log of this run can be found in: there.log\n"
    )
    with pytest.raises(run.SetUpError) as caught:
        run.build_pages(checkout, PageTools(checkout, "packages", output))
    assert str(caught.value) == (
        "cannot install the packages of frontend/package-lock.json: npm error the lock does not fit"
    )


@pytest.mark.parametrize(
    ("version", "is_enough"),
    [
        ("v20.19.0", True), ("v20.20.2", True), ("v20.18.9", False), ("v22.12.0", True),
        ("v22.11.0", False), ("v21.9.0", False), ("v18.20.0", False), ("v24.1.0", True),
        ("node?", False),
    ],
)  # fmt: skip
def test_which_node_builds_the_pages(
    monkeypatch: pytest.MonkeyPatch, version: str, is_enough: bool
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: f"there/{name}")
    found = run.node_on_path(lambda command, folder: run.Outcome(0, f"{version}\n"))
    assert found == (run.Node("there/node", "there/npm") if is_enough else None)


@pytest.mark.parametrize("missing", ["node", "npm"])
def test_half_a_node_is_none(monkeypatch: pytest.MonkeyPatch, missing: str) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None if name == missing else name)
    assert run.node_on_path(never) is None


# The browser


@pytest.fixture
def bare_computer(monkeypatch: pytest.MonkeyPatch) -> None:
    """No browser anywhere, and nothing to install one with."""
    monkeypatch.delenv(run.BROWSER_SETTING, raising=False)
    monkeypatch.setattr(shutil, "which", lambda name: None)
    monkeypatch.setattr(run, "BROWSER_PLACES", ())


@pytest.mark.usefixtures("bare_computer")
def test_a_browser_is_taken_from_the_path(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        shutil, "which", lambda name: "there/chrome" if name == "google-chrome" else None
    )
    assert run.fetch_browser(never) == "there/chrome"


@pytest.mark.usefixtures("bare_computer")
def test_a_browser_is_taken_from_where_it_usually_lies(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "browser.exe").touch()
    monkeypatch.setenv("SOME_FOLDER", str(tmp_path))
    monkeypatch.setattr(run, "BROWSER_PLACES", ("/nowhere/x", "{SOME_FOLDER}/browser.exe"))
    assert run.find_browser() == f"{tmp_path}/browser.exe"


@pytest.mark.usefixtures("bare_computer")
def test_a_named_browser_comes_first_and_no_other_is_taken(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: "there/chromium")
    monkeypatch.setenv(run.BROWSER_SETTING, str(tmp_path))
    assert run.fetch_browser(never) == str(tmp_path)
    monkeypatch.setenv(run.BROWSER_SETTING, "nowhere/chromium")
    assert run.fetch_browser(never) is None
    assert run.no_browser() == (
        "browser tests NOT RUN: FIRMLEVER_BROWSER names nowhere/chromium, and that is not there"
    )


@pytest.mark.usefixtures("bare_computer")
def test_a_browser_is_installed_where_that_is_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    there = {"apt-get": "apt-get"}
    monkeypatch.setattr(shutil, "which", there.get)
    monkeypatch.setattr(os, "geteuid", lambda: 0, raising=False)
    asked: list[str] = []

    def install(command: Sequence[str], folder: Path) -> run.Outcome:
        asked.append(" ".join(command))
        if command[-1] == "chromium":
            there["chromium"] = "there/chromium"
        return run.Outcome(0, "")

    assert run.fetch_browser(install) == "there/chromium"
    assert asked == [
        "apt-get -qq -y --no-install-recommends update",
        "apt-get -qq -y --no-install-recommends install chromium",
    ]


@pytest.mark.usefixtures("bare_computer")
@pytest.mark.parametrize("user", [0, 1000])
def test_where_none_can_be_had_the_remedy_is_said(
    monkeypatch: pytest.MonkeyPatch, user: int
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: name if name == "apt-get" else None)
    monkeypatch.setattr(os, "geteuid", lambda: user, raising=False)
    refuse = lambda command, folder: run.Outcome(100, "no network")  # noqa: E731
    assert run.fetch_browser(refuse if user == 0 else never) is None
    assert run.no_browser() == (
        "browser tests NOT RUN: no browser of the Chromium family was found. To run them: sudo apt "
        "install chromium (or set FIRMLEVER_BROWSER to its program), then python3 run.py test"
    )


@pytest.mark.usefixtures("bare_computer")
def test_without_apt_the_remedy_is_another() -> None:
    assert run.fetch_browser(never) is None
    assert "To run them: install Chromium (or set" in run.no_browser()


# The commands


def start(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, arguments: Sequence[str] = ()
) -> list[object]:
    """Start with stand-ins; what was set up and started, in order."""
    asked: list[object] = []

    def serve(command: Sequence[str], is_to_open: bool) -> int:
        asked.append((tuple(command[1:]), is_to_open))
        return 3

    monkeypatch.setattr(run, "set_up", lambda root, lock: asked.append(lock))
    monkeypatch.setattr(run, "build_pages", lambda root: asked.append("pages"))
    monkeypatch.setattr(run, "serve", serve)
    assert run.main(arguments, checkout) == 3
    return asked


def test_the_app_is_set_up_and_started(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    app = (("-u", "-m", "firmlever", "serve"), False)
    assert start(checkout, monkeypatch) == ["run.lock", "pages", app]


def test_options_go_to_the_app_and_open_is_ours(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = start(checkout, monkeypatch, ["--port", "8020", "--open"])
    assert asked[-1] == (("-u", "-m", "firmlever", "serve", "--port", "8020"), True)


@pytest.mark.usefixtures("with_node")
def test_what_stands_is_left_alone(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_up(checkout, "dev.lock")
    build(checkout)
    assert start(checkout, monkeypatch) == [(("-u", "-m", "firmlever", "serve"), False)]


def served(
    monkeypatch: pytest.MonkeyPatch, script: str, *, is_to_open: bool
) -> tuple[int, list[str]]:
    """Run a stand-in for the app; its exit code and the addresses that were opened."""
    opened: list[str] = []
    monkeypatch.setattr(webbrowser, "open", opened.append)
    return run.serve((sys.executable, "-u", "-c", script), is_to_open), opened


SAYS_ADDRESS = "print('firmlever is at http://127.0.0.1:8017/ (stop it with Ctrl+C)')"


def test_the_address_is_printed_and_the_browser_left_alone(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert served(monkeypatch, SAYS_ADDRESS, is_to_open=False) == (0, [])
    out = capsys.readouterr().out
    assert out == "firmlever is at http://127.0.0.1:8017/ (stop it with Ctrl+C)\n"


def test_the_address_is_opened_once_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    script = f"{SAYS_ADDRESS}; {SAYS_ADDRESS}"
    assert served(monkeypatch, script, is_to_open=True) == (0, ["http://127.0.0.1:8017/"])


def test_a_taken_port_is_told_and_nothing_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    script = "import sys; sys.exit('port 8017 is taken')"
    assert served(monkeypatch, script, is_to_open=True) == (1, [])


def test_stopping_us_stops_the_app(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[str]] = []

    class Noted(subprocess.Popen[str]):
        def __init__(self, *arguments: Any, **options: Any) -> None:
            super().__init__(*arguments, **options)
            started.append(self)

    def stop(text: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(subprocess, "Popen", Noted)
    monkeypatch.setattr(run, "say", stop)
    with pytest.raises(KeyboardInterrupt):
        run.serve(
            (sys.executable, "-u", "-c", f"{SAYS_ADDRESS}; import time; time.sleep(60)"),
            is_to_open=False,
        )
    assert started[0].returncode not in (None, 0)


def test_every_check_is_there_and_the_tests_get_the_options(checkout: Path) -> None:
    checks = run.all_checks(checkout, NODE, BROWSER, ["--deep", "-k", "hose"], checkout)
    assert [check.name for check in checks] == [
        "ruff check", "ruff format", "mypy", "import-linter", "docs",
        "oxlint", "tsc", "vitest", "page build", "pytest", "browser tests",
    ]  # fmt: skip
    for check in checks[-2:]:
        assert check.command[-3:] == ("--deep", "-k", "hose")
    assert checks[-1].settings == (("FIRMLEVER_BROWSER", BROWSER),)
    assert "--ignore=tests/e2e" in checks[-2].command


def test_without_a_browser_all_the_rest_is_checked(checkout: Path) -> None:
    with_one = run.all_checks(checkout, NODE, BROWSER, [], checkout)
    assert run.all_checks(checkout, NODE, None, [], checkout) == with_one[:-1]


def test_only_a_choice_of_tests_may_leave_a_run_empty(checkout: Path) -> None:
    for options, codes in (([], (0,)), (["--deep"], (0,)), (["-k", "hose"], (0, 5))):
        checks = run.all_checks(checkout, NODE, BROWSER, options, checkout)
        assert [check.good_codes for check in checks[-2:]] == [codes, codes]


def test_a_check_runs_in_its_folder_with_its_settings(checkout: Path) -> None:
    script = "import os, sys; sys.exit(int(os.environ['A']))"
    folder = "import os, sys; sys.exit(os.path.basename(os.getcwd()) != 'frontend')"
    settings = run.Check("a", (sys.executable, "-c", script), settings=(("A", "7"),))
    assert not run.run_check(settings, checkout).passed
    assert run.run_check(settings._replace(good_codes=(7,)), checkout).passed
    inside = run.Check("b", (sys.executable, "-c", folder), folder="frontend")
    assert run.run_check(inside, checkout).passed


def with_checks(monkeypatch: pytest.MonkeyPatch, **codes: int) -> None:
    """Replace the checks by programs that end with these codes and leave both reports."""
    report = '<testsuites><testsuite tests="9" failures="1" errors="1" skipped="2"/></testsuites>'
    write = f"import sys; [open(path, 'w').write({report!r}) for path in sys.argv[1:]]"

    def checks(
        root: Path, node: run.Node, browser: str | None, options: Sequence[str], reports: Path
    ) -> list[run.Check]:
        paths = [str(reports / name) for name in ("tests.xml", "browser.xml")]
        return [
            run.Check(name, (sys.executable, "-c", f"{write}; sys.exit({code})", *paths))
            for name, code in codes.items()
        ]

    monkeypatch.setattr(run, "all_checks", checks)
    monkeypatch.setattr(run, "build_pages", lambda root: NODE)
    monkeypatch.setattr(run, "fetch_browser", lambda: BROWSER)


def test_one_failed_check_fails_the_whole_run_but_stops_no_other(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    set_up(checkout, "dev.lock")
    with_checks(monkeypatch, ruff=0, mypy=1, docs=2, pytest=0)
    assert run.main(["test"], checkout) == 1
    lines = capfd.readouterr().out.splitlines()
    assert [line for line in lines if line.startswith("== ")] == [
        "== ruff", "== mypy", "== docs", "== pytest", "== summary"
    ]  # fmt: skip
    assert lines[-2:] == ["failed: mypy, docs", "10 passed, 4 failed, 4 skipped"]


def test_a_run_without_a_fault_ends_with_zero(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    set_up(checkout, "dev.lock")
    with_checks(monkeypatch, ruff=0, pytest=0)
    assert run.main(["test"], checkout) == 0
    assert "every check passed" in capfd.readouterr().out


def test_browser_tests_that_did_not_run_are_told_in_the_last_line(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    set_up(checkout, "dev.lock")
    with_checks(monkeypatch, ruff=0, pytest=0)
    monkeypatch.setattr(run, "fetch_browser", lambda: None)
    monkeypatch.setattr(run, "no_browser", lambda: "browser tests NOT RUN: the remedy")
    assert run.main(["test"], checkout) == 0
    assert capfd.readouterr().out.splitlines()[-3:] == [
        "every check that ran passed",
        "5 passed, 2 failed, 2 skipped",
        "browser tests NOT RUN: the remedy",
    ]


def test_set_up_only_runs_no_check(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_up(checkout, "dev.lock")
    with_checks(monkeypatch)
    monkeypatch.setattr(run, "all_checks", never)
    assert run.main(["test", "--setup-only"], checkout) == 0


def test_tests_that_never_ran_count_as_failed(tmp_path: Path) -> None:
    assert run.count_tests(tmp_path / "absent.xml") == "0 passed, 1 failed, 0 skipped"


def test_summary_in_full() -> None:
    results = [run.Result("ruff check", True, 0.04), run.Result("pytest", False, 61.26)]
    assert run.summary(results, "3 passed, 1 failed, 0 skipped").splitlines() == [
        "",
        "== summary",
        "ok        0.0 s  ruff check",
        "FAILED   61.3 s  pytest",
        "failed: pytest",
        "3 passed, 1 failed, 0 skipped",
    ]


def test_help_and_an_unknown_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert run.main(["--help"]) == 0
    usage = capsys.readouterr().out
    assert usage.startswith("Set firmlever up and start it, or run every check.")
    assert run.main(["tset"]) == 2
    assert capsys.readouterr().out == f"run.py: there is no command 'tset'\n\n{usage}"


@pytest.mark.parametrize(
    ("trouble", "code", "said"),
    [
        (KeyboardInterrupt(), 130, "run.py: stopped\n"),
        (run.SetUpError("no wind"), 1, "run.py: no wind\n"),
        (OSError(28, "No space left on device"), 1, "run.py: [Errno 28] No space left on device\n"),
    ],
)
def test_trouble_ends_in_one_line(
    checkout: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    trouble: BaseException,
    code: int,
    said: str,
) -> None:
    def fail(root: Path, lock: str) -> None:
        raise trouble

    monkeypatch.setattr(run, "set_up", fail)
    assert run.main(["test"], checkout) == code
    assert capsys.readouterr().out == said


def test_a_command_is_run_with_its_whole_output_kept(tmp_path: Path) -> None:
    script = "import os, sys; print(os.getcwd()); sys.stderr.write('no\\n'); sys.exit(4)"
    code, output = run.run_quietly((sys.executable, "-c", script), tmp_path)
    assert code == 4
    assert sorted(output.split()) == sorted([str(tmp_path), "no"])


def test_the_stamps_lie_in_the_environment(checkout: Path) -> None:
    set_up(checkout)
    stamps = json.loads((checkout / ".venv" / "stamps.json").read_text(encoding="utf-8"))
    assert list(stamps) == EVERY_STEP
