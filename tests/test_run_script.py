# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The start script, on a small made-up checkout and with a stand-in for the installers."""

import ast
import importlib.util
import json
import runpy
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from types import SimpleNamespace

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


# The commands


def demo(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> tuple[int, list[Sequence[str]]]:
    """Start the demo with stand-ins; its exit code, and which sets and programs were asked for."""
    asked: list[Sequence[str]] = []

    def start(command: Sequence[str], *, check: bool) -> SimpleNamespace:
        asked.append(command)
        return SimpleNamespace(returncode=code)

    monkeypatch.setattr(run, "set_up", lambda root, lock: asked.append(lock))
    monkeypatch.setattr(subprocess, "run", start)
    return run.main([], checkout), asked


def test_the_demo_is_set_up_and_run_by_the_python_of_the_environment(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = (run.tool(checkout, "python"), "-m", "firmlever", "demo")
    assert demo(checkout, monkeypatch, code=3) == (3, ["run.lock", program])


def test_the_demo_leaves_the_test_set_where_it_is(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_up(checkout, "dev.lock")
    program = (run.tool(checkout, "python"), "-m", "firmlever", "demo")
    assert demo(checkout, monkeypatch, code=0) == (0, [program])


def test_every_check_is_there_and_pytest_gets_the_options(checkout: Path) -> None:
    checks = run.all_checks(checkout, ["--deep", "-k", "hose"], checkout / "tests.xml")
    assert [check.name for check in checks] == [
        "ruff check", "ruff format", "mypy", "import-linter", "docs", "pytest"
    ]  # fmt: skip
    assert checks[-1].command[-3:] == ("--deep", "-k", "hose")


def with_checks(monkeypatch: pytest.MonkeyPatch, **codes: int) -> None:
    """Replace the checks by programs that end with these codes; pytest leaves a report."""
    report = '<testsuites><testsuite tests="9" failures="1" errors="1" skipped="2"/></testsuites>'
    write = f"import sys; open(sys.argv[1], 'w').write({report!r})"

    def checks(root: Path, options: Sequence[str], path: Path) -> list[run.Check]:
        return [
            run.Check(name, (sys.executable, "-c", f"{write}; sys.exit({code})", str(path)))
            for name, code in codes.items()
        ]

    monkeypatch.setattr(run, "all_checks", checks)


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
    assert lines[-2:] == ["failed: mypy, docs", "5 passed, 2 failed, 2 skipped"]


def test_a_run_without_a_fault_ends_with_zero(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    set_up(checkout, "dev.lock")
    with_checks(monkeypatch, ruff=0, pytest=0)
    assert run.main(["test"], checkout) == 0
    assert "every check passed" in capfd.readouterr().out


def test_set_up_only_runs_no_check(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_up(checkout, "dev.lock")
    monkeypatch.setattr(run, "all_checks", never)
    assert run.main(["test", "--setup-only"], checkout) == 0


def test_tests_that_never_ran_count_as_failed(tmp_path: Path) -> None:
    assert run.count_tests(tmp_path / "absent.xml") == "0 passed, 1 failed"


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
