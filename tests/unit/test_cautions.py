# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
from itertools import product

import pytest

from firmlever.domain.cautions import CAUTIONS, FIRST_AUTHORITY, Applies, cautions_for
from firmlever.domain.tables import FluidBase, Method

ALWAYS = {caution.words for caution in CAUTIONS if caution.applies is Applies.ALWAYS}
EVERY_JOB = list(product(Method, (False, True), (False, True), FluidBase))


def words_of(caution_id: str) -> str:
    (words,) = (caution.words for caution in CAUTIONS if caution.id == caution_id)
    return words


@pytest.mark.parametrize(("method", "modulator", "home", "base"), EVERY_JOB)
def test_every_job_carries_the_general_cautions_and_ends_with_who_comes_first(
    method: Method, modulator: bool, home: bool, base: FluidBase
) -> None:
    cautions = cautions_for(method, modulator, home, base)
    assert set(cautions) >= ALWAYS
    assert cautions[-1] == FIRST_AUTHORITY
    assert cautions[-2] == words_of("first stop")
    assert len(set(cautions)) == len(cautions)
    assert (words_of("abs") in cautions) is modulator
    assert (words_of("pistons") in cautions) is home
    assert (words_of("silicone") in cautions) is (base is FluidBase.SILICONE)
    assert (words_of("mineral") in cautions) is (base is FluidBase.MINERAL)


@pytest.mark.parametrize("method", Method)
def test_each_method_brings_its_own_caution_and_no_other(method: Method) -> None:
    own = {c.words for c in CAUTIONS if c.applies.value == method.value}
    others = {
        c.words
        for c in CAUTIONS
        if c.applies.value in {m.value for m in Method} and c.words not in own
    }
    given = set(cautions_for(method, has_modulator=False, pistons_home=False))
    assert len(own) == 1
    assert own <= given
    assert not others & given


def test_ids_are_unique_and_no_caution_gives_a_verdict() -> None:
    assert len({caution.id for caution in CAUTIONS}) == len(CAUTIONS)
    assert not [c.id for c in CAUTIONS if "safe to ride" in c.words.lower()]
