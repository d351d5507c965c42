# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The shape contract of every model: scalar, 1-D, n-D, and a NaN that spoils only itself.

Sample arguments come from the model's first elementwise reference case, an array cut down to
its first value; every float in them, those inside a pair of coefficients too, is an argument that
may become an array.
"""

import importlib
import pkgutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

import numpy as np
import pytest
from numpy.typing import NDArray

import firmlever.physics
from firmlever.physics.model import Model
from reference.cases import call, collected

Array = NDArray[np.float64]

MODELS = [
    model
    for found in pkgutil.iter_modules(firmlever.physics.__path__)
    for model in getattr(importlib.import_module(f"firmlever.physics.{found.name}"), "MODELS", ())
]
_EXEMPT = {case.function for case in collected() if not case.elementwise}
_SAMPLES = {case.function: case.inputs for case in reversed(collected()) if case.elementwise}

every_elementwise_model = pytest.mark.parametrize(
    "model",
    [model for model in MODELS if model.function not in _EXEMPT],
    ids=lambda model: model.name,
)


def sample(model: Model) -> Mapping[str, object]:
    assert model.function in _SAMPLES, f"no reference case for {model.function.__name__}"
    return {
        name: float(value.flat[0]) if isinstance(value, np.ndarray) else value
        for name, value in _SAMPLES[model.function].items()
    }


def leaves(value: object) -> Iterator[object]:
    """The numbers in an argument or a result, tuples opened up."""
    if isinstance(value, tuple):
        for part in value:
            yield from leaves(part)
    elif isinstance(value, float | np.ndarray | np.generic):
        yield value


def arguments(inputs: Mapping[str, object]) -> list[float]:
    """The floats among the inputs, in their order."""
    found = [leaf for value in inputs.values() for leaf in leaves(value)]
    return [leaf for leaf in found if isinstance(leaf, float)]


def changed(
    inputs: Mapping[str, object], change: Callable[[int, float], object]
) -> Mapping[str, object]:
    """The inputs with ``change(position, value)`` in place of each float."""
    count = iter(range(len(arguments(inputs))))

    def walk(value: object) -> object:
        if isinstance(value, tuple):
            rebuilt: Callable[[Iterator[object]], object] = getattr(value, "_make", tuple)
            return rebuilt(walk(part) for part in value)
        return change(next(count), value) if isinstance(value, float) else value

    return {name: walk(value) for name, value in inputs.items()}


def results(model: Model, inputs: Mapping[str, object]) -> list[Array]:
    return [np.asarray(leaf) for leaf in leaves(call(model.function, inputs))]


def _scaled(factors: Sequence[float], place: int, value: float) -> float:
    return value * factors[place % len(factors)]


def _spoilt(spoilt: int, place: int, value: float) -> object:
    return np.array([value, np.nan, value]) if place == spoilt else value


@every_elementwise_model
def test_scalar_in_scalar_out(model: Model) -> None:
    plain = results(model, sample(model))
    assert plain
    assert [result.ndim for result in plain] == [0] * len(plain)


@every_elementwise_model
def test_one_axis(model: Model) -> None:
    """An array of equal values gives an array of the scalar's result."""
    plain = results(model, sample(model))
    given = changed(sample(model), lambda _, value: np.full(3, value))
    for single, row in zip(plain, results(model, given), strict=True):
        assert row.shape == (3,)
        np.testing.assert_allclose(row, single, rtol=1e-12)


@every_elementwise_model
def test_axes_broadcast(model: Model) -> None:
    """Arguments of shape (2, 1) and (1, 3) in turn; each element as if computed alone."""
    factors = (np.array([[1.0], [1.001]]), np.array([[1.0, 1.002, 1.003]]))
    used = factors[: len(arguments(sample(model)))]
    whole = np.broadcast_shapes(*(factor.shape for factor in used))
    spread = [np.broadcast_to(factor, whole) for factor in used]
    given = changed(sample(model), lambda place, value: value * factors[place % 2])
    together = [np.broadcast_to(result, whole) for result in results(model, given)]
    for at in np.ndindex(*whole):
        factor = [float(factors[at]) for factors in spread]
        alone = changed(sample(model), partial(_scaled, factor))
        for result, single in zip(together, results(model, alone), strict=True):
            np.testing.assert_allclose(result[at], single, rtol=1e-9, atol=1e-300)


@every_elementwise_model
def test_nan_spoils_only_itself(model: Model) -> None:
    plain = results(model, sample(model))
    for spoilt in range(len(arguments(sample(model)))):
        given = changed(sample(model), partial(_spoilt, spoilt))
        together = [np.broadcast_to(result, (3,)) for result in results(model, given)]
        assert any(np.isnan(result[1]) for result in together), f"argument {spoilt} was lost"
        for result, single in zip(together, plain, strict=True):
            np.testing.assert_allclose(result[[0, 2]], single, rtol=1e-12)
