# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Which references a plan rests on."""

from collections.abc import Iterable, Sequence

from firmlever.domain.tables import FluidGrade, Method, Technique
from firmlever.physics import bubbles, drive, flow, fluid, laminar_diffusion, washout
from firmlever.physics.model import Model
from firmlever.solve.inputs import Input

_ALWAYS: tuple[Model, ...] = (
    *washout.MODELS,
    *laminar_diffusion.MODELS,
    # how long froth needs to rise
    *(model for model in bubbles.MODELS if model.function is bubbles.dirty_bubble_rise_m_s),
)
_FLOWING: tuple[Model, ...] = (*fluid.MODELS, *flow.MODELS, *drive.MODELS)


def sources_of(
    uncertain: Sequence[Input], technique: Technique, grade: FluidGrade
) -> tuple[str, ...]:
    """Return the keys of the references, in alphabetical order."""
    models = _ALWAYS if technique.method is Method.LEVER else (*_ALWAYS, *_FLOWING)
    keys: set[str] = {one.about.source for one in uncertain if one.about.from_prior}
    keys.update(_words(technique.source), _words(grade.source))
    for model in models:
        keys.update(model.sources)
    return tuple(sorted(keys))


def _words(text: str) -> Iterable[str]:
    return (word.strip() for word in text.split(";"))
