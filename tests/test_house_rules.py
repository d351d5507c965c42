# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The rules of CONTRIBUTING that a machine can check; each fails on a fact, never on a size."""

import ast
import csv
import importlib
import inspect
import pkgutil
import re
import subprocess
import tomllib
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import ModuleType

import pytest

import firmlever.physics
from docstrings import parameters, sections, units
from firmlever import errors
from firmlever.cli.arguments import COMMANDS, read_arguments
from firmlever.domain.quantities import SPECS
from firmlever.physics.model import Model

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "firmlever"
SPDX = "# SPDX-FileCopyrightText: The firmlever authors\n# SPDX-License-Identifier: Apache-2.0\n"
# What physics files are written with; they describe no phenomenon.
PHYSICS_TOOLS = ("model", "numeric")
# Joined here so that this file does not hold the words it looks for.
UNWANTED = [
    "".join(parts)
    for parts in (
        ("/wo", "rk/"),
        ("/ro", "ot/"),
        ("/ho", "me/"),
        ("/Us", "ers/"),
        ("C:", "\\\\Us", "ers"),
        ("pypi", r"\.org"),
        ("python", r"hosted\.org"),
        ("npm", r"js\.(org|com)"),
        ("deb", r"\.debian\.org"),
        ("sub", "agent"),
    )
]


def read(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def project_files() -> list[Path]:
    """Every file of the checkout that git keeps or would keep."""
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard", "-z"],
        cwd=ROOT,
        capture_output=True,
        check=True,
        text=True,
    ).stdout
    return [path for name in listed.split("\0") if name and (path := ROOT / name).is_file()]


def imports_in(nodes: Iterable[ast.AST]) -> Iterator[tuple[str, int]]:
    """Module and line of each import among the nodes."""
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or "", node.lineno


def python_files() -> list[Path]:
    return [path for path in project_files() if path.suffix == ".py"]


def listed_sources() -> list[str]:
    page = read(ROOT / "docs" / "references.md")
    return re.findall(r"^- \[([^\]]+)\] \S", page, re.MULTILINE)


def known_sources() -> set[str]:
    return set(listed_sources())


def cited(function: Callable[..., object]) -> set[str]:
    """The keys of docs/references.md that stand under Source."""
    return set(re.findall(r"[\w-]+", sections(function).get("Source", ""))) & known_sources()


def unit_endings() -> dict[str, str]:
    """The endings of names inside, longest first, from the page that fixes them."""
    page = read(ROOT / "docs" / "nomenclature.md")
    table = page.split("### Endings of names inside")[1].split("### Endings of names at the edge")[
        0
    ]
    rows = re.findall(r"^\| `(_\w+)` \| (.+?) \|", table, re.MULTILINE)
    return dict(sorted(rows, key=lambda row: -len(row[0])))


def physics_modules() -> list[ModuleType]:
    names = [found.name for found in pkgutil.iter_modules(firmlever.physics.__path__)]
    return [
        importlib.import_module(f"firmlever.physics.{name}")
        for name in names
        if name not in PHYSICS_TOOLS
    ]


def public_functions(module: ModuleType) -> list[Callable[..., object]]:
    return [
        member
        for name, member in inspect.getmembers(module, inspect.isfunction)
        if member.__module__ == module.__name__ and not name.startswith("_")
    ]


def names_in(folder: Path) -> set[str]:
    """Every name and every text that the code below a folder mentions."""
    found: set[str] = set()
    for path in folder.rglob("*.py"):
        for node in ast.walk(ast.parse(read(path))):
            if isinstance(node, ast.Name):
                found.add(node.id)
            elif isinstance(node, ast.Attribute):
                found.add(node.attr)
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
    return found


def models_of(module: ModuleType) -> list[Model]:
    return list(getattr(module, "MODELS", ()))


every_function = pytest.mark.parametrize(
    "function",
    [function for module in physics_modules() for function in public_functions(module)],
    ids=lambda function: f"{function.__module__.rpartition('.')[2]}.{function.__name__}",
)
every_model = pytest.mark.parametrize(
    "model",
    [model for module in physics_modules() for model in models_of(module)],
    ids=lambda model: model.name,
)


# Physics functions


@every_function
def test_physics_function_says_everything(function: Callable[..., object]) -> None:
    """Meaning, and a section each for what goes in, comes out, where it holds, whence it comes."""
    text = sections(function)
    wanted = ["Returns", "Range", "Source", "Examples"]
    if inspect.signature(function).parameters:
        wanted.insert(0, "Parameters")
    missing = [name for name in wanted if not text.get(name)]
    assert text[""], "no summary"
    assert not missing, f"sections missing or empty: {missing}"
    assert ">>>" in text["Examples"], "the example cannot be run"


@every_function
def test_physics_docstring_names_the_parameters_of_the_signature(
    function: Callable[..., object],
) -> None:
    described = list(parameters(sections(function).get("Parameters", "")))
    assert sorted(described) == sorted(inspect.signature(function).parameters)


@every_function
def test_physics_quantities_carry_their_unit(function: Callable[..., object]) -> None:
    """Square brackets on each argument and result, in agreement with the ending of the name."""
    text = sections(function)
    faults = []
    for name, words in parameters(text.get("Parameters", "")).items():
        ending = next((ending for ending in unit_endings() if name.endswith(ending)), None)
        wanted = unit_endings()[ending] if ending else None
        if not units(words):
            faults.append(f"{name}: no unit in square brackets")
        elif wanted and wanted not in units(words):
            faults.append(f"{name}: [{wanted}] expected, {units(words)} found")
    if not units(text.get("Returns", "")):
        faults.append("the result: no unit in square brackets")
    assert not faults, faults


@every_function
def test_physics_source_is_a_known_key(function: Callable[..., object]) -> None:
    assert cited(function), "no key of docs/references.md under Source"


@every_function
def test_physics_docstring_lists_what_is_raised(function: Callable[..., object]) -> None:
    """Errors raised in the function itself; helpers answer for their own."""
    tree = ast.parse(inspect.getsource(function))
    raised = {
        node.exc.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Raise)
        and isinstance(node.exc, ast.Call)
        and isinstance(node.exc.func, ast.Name)
    }
    unlisted = {name for name in raised if name not in sections(function).get("Raises", "")}
    assert not unlisted, f"raised but not listed: {sorted(unlisted)}"


# Model tables


@pytest.mark.parametrize("module", physics_modules(), ids=lambda module: module.__name__)
def test_physics_file_has_a_model_table(module: ModuleType) -> None:
    """Every public function stands in the table of its file."""
    models = getattr(module, "MODELS", ())
    assert isinstance(models, tuple)
    assert all(isinstance(model, Model) for model in models)
    tabled = {model.function for model in models}
    left_out = [f.__name__ for f in public_functions(module) if f not in tabled]
    assert not left_out, f"in no row of MODELS: {left_out}"


@every_model
def test_model_has_limits_and_known_sources(model: Model) -> None:
    unknown = set(model.sources) - known_sources()
    assert model.sources, "no source"
    assert not unknown, f"not in docs/references.md: {sorted(unknown)}"
    assert model.limits, "no validity range"
    assert all(limit.low < limit.high and limit.unit for limit in model.limits)


@every_model
def test_model_and_docstring_give_the_same_sources(model: Model) -> None:
    assert set(model.sources) == cited(model.function)


@every_model
def test_model_has_a_reference_case(model: Model) -> None:
    name = model.function.__name__
    assert name in names_in(ROOT / "tests" / "reference"), f"no case for {name} in tests/reference"


# Errors, commands, files


@pytest.mark.parametrize(
    "error",
    [
        member
        for _, member in inspect.getmembers(errors, inspect.isclass)
        if issubclass(member, Exception) and "__init__" in vars(member)
    ],
)
def test_error_has_a_message_test(error: type[Exception]) -> None:
    found = [
        path
        for path in (ROOT / "tests" / "unit").rglob("test_errors*.py")
        if error.__name__ in read(path)
    ]
    assert found, f"no test of the message of {error.__name__} in tests/unit/test_errors*.py"


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_and_option_is_in_the_reference(command: str) -> None:
    page = read(ROOT / "docs" / "reference" / "commands.md")
    help_text = read_arguments([command, "--help"])
    assert isinstance(help_text, str)
    options = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", help_text))
    missing = {f"`{name}`" for name in options if f"`{name}`" not in page}
    assert f"`firmlever {command}" in page, f"firmlever {command} is not in the table"
    assert not missing, f"not in docs/reference/commands.md: {sorted(missing)}"


def test_every_key_of_a_circuit_file_is_in_the_reference() -> None:
    page = read(ROOT / "docs" / "reference" / "circuit-file.md")
    missing = {spec.key for spec in SPECS if f"`{spec.key}`" not in page}
    assert not missing, f"not in docs/reference/circuit-file.md: {sorted(missing)}"


def test_every_page_is_in_the_menu() -> None:
    docs, menu = ROOT / "docs", read(ROOT / "mkdocs.yml")
    pages = [path.relative_to(docs).as_posix() for path in project_files() if docs in path.parents]
    missing = [page for page in pages if page.endswith(".md") and f": {page}\n" not in menu]
    assert pages
    assert not missing, f"not in the menu of mkdocs.yml: {missing}"


def test_every_data_row_names_a_known_source() -> None:
    faults = []
    for path in sorted((SOURCE / "data").rglob("*.csv")):
        rows = list(csv.DictReader(read(path).splitlines()))
        assert rows, f"{path.name} is empty"
        for line, row in enumerate(rows, start=2):
            keys = set(re.split(r"[;,]\s*", row.get("source") or "")) - {""}
            if not keys or keys - known_sources():
                faults.append(f"{path.name} line {line}: source {row.get('source')!r}")
    assert not faults, faults


def test_source_keys_are_unique() -> None:
    assert sorted(listed_sources()) == sorted(known_sources())
    assert {"derived", "common-practice", "from-memory"} <= known_sources()


def test_every_python_file_starts_with_its_licence() -> None:
    bare = [
        str(path.relative_to(ROOT)) for path in python_files() if not read(path).startswith(SPDX)
    ]
    assert not bare


def test_scipy_is_imported_where_it_is_used() -> None:
    """At the top of a module it would slow the start of every command."""
    early = [
        f"{path.relative_to(ROOT)} line {line}"
        for path in SOURCE.rglob("*.py")
        for module, line in imports_in(ast.parse(read(path)).body)
        if module.split(".")[0] == "scipy"
    ]
    assert not early


def test_nothing_calls_a_machine_fit_to_ride() -> None:
    """The tool reports what was measured; the verdict is the person's."""
    verdict = " ".join(("safe", "to", "ride"))
    found = [
        str(path.relative_to(ROOT))
        for path in (ROOT / "src").rglob("*")
        if path.suffix in {".py", ".md", ".csv", ".toml"} and verdict in read(path).lower()
    ]
    assert not found


def test_no_file_names_one_machine_or_a_package_registry() -> None:
    pattern = re.compile("|".join(UNWANTED))
    found = []
    for path in project_files():
        text = path.read_bytes().decode("utf-8", errors="ignore")
        found += [f"{path.relative_to(ROOT)}: {hit.group()}" for hit in pattern.finditer(text)]
    assert not found, found


def test_every_dependency_is_used() -> None:
    project = tomllib.loads(read(ROOT / "pyproject.toml"))["project"]
    wanted = {re.split(r"[^\w-]", line)[0] for line in project["dependencies"]}
    assert wanted
    imported = {
        module.split(".")[0]
        for path in SOURCE.rglob("*.py")
        for module, _ in imports_in(ast.walk(ast.parse(read(path))))
    }
    assert not wanted - imported, f"installed but never imported: {sorted(wanted - imported)}"


def test_locks_pin_by_hash_and_hold_no_address() -> None:
    for path in sorted((ROOT / "requirements").glob("*.lock")):
        text = read(path)
        assert "--hash=sha256:" in text, path.name
        assert "://" not in text, path.name
