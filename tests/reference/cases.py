# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The row format of the reference cases, and how the rows of all topics are collected.

A topic adds a file ``<topic>_cases.py`` here with a tuple ``CASES``. Nothing else is to be
registered: the parametrised test, the shape contract and the house rules find the rows.
"""

import importlib
import pkgutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import reference


class Kind(StrEnum):
    """Where an expected number came from."""

    PUBLISHED = "published"
    INDEPENDENT = "independent"
    DERIVED = "derived"
    FROM_MEMORY = "from-memory"
    REGRESSION = "regression"


@dataclass(frozen=True, slots=True)
class Case:
    """One expected result.

    ``expected`` is a number, a sequence of numbers, or a function without arguments
    that asks another tool for them. The result may be off by ``rel`` of the expected
    number or by ``abs``, whichever is more. ``source`` is a key of docs/references.md,
    ``where`` the page, section or table in it. ``elementwise`` is False for a function
    that works along an axis of its own: the shape contract leaves it alone.
    """

    function: Callable[..., object]
    inputs: Mapping[str, object]
    expected: object
    kind: Kind
    source: str
    where: str
    rel: float = 0.0
    abs: float = 0.0
    elementwise: bool = True

    def wanted(self) -> object:
        """The expected number or numbers."""
        return self.expected() if callable(self.expected) else self.expected

    def call(self) -> object:
        """What the function returns."""
        return call(self.function, self.inputs)


def call(function: Callable[..., object], inputs: Mapping[str, object]) -> object:
    """Call by name; a tuple under ``*`` holds what a function takes any number of."""
    named = {name: value for name, value in inputs.items() if name != "*"}
    many = inputs.get("*")
    return function(*named.values(), *many) if isinstance(many, tuple) else function(**named)


def collected() -> Sequence[Case]:
    """Every case of every topic, in the order of the file names."""
    modules = [
        importlib.import_module(f"reference.{found.name}")
        for found in pkgutil.iter_modules(reference.__path__)
        if found.name.endswith("_cases")
    ]
    return [case for module in modules for case in module.CASES]
