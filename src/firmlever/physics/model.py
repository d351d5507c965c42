# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How a physics file states what its functions are good for."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """The range over which one quantity of a model has been shown to hold.

    ``quantity`` is an argument or a number derived from the arguments (such as
    ``Re``); ``low`` and ``high`` are in ``unit``.
    """

    quantity: str
    low: float
    high: float
    unit: str


@dataclass(frozen=True, slots=True)
class Model:
    """One relation: its function, where it holds, and where it comes from.

    ``sources`` are keys of the project's list of references.
    """

    name: str
    function: Callable[..., object]
    limits: tuple[Limit, ...]
    sources: tuple[str, ...]
