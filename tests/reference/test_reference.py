# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Every function against numbers that came from elsewhere, each with its provenance."""

import re
from pathlib import Path

import numpy as np
import pytest

from reference.cases import Case, collected

CASES = collected()


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.function.__name__}-{case.kind}")
def test_case(case: Case) -> None:
    np.testing.assert_allclose(
        np.asarray(case.call(), dtype=float),
        np.asarray(case.wanted(), dtype=float),
        rtol=case.rel,
        atol=case.abs,
        err_msg=f"{case.kind}: {case.source}, {case.where}; {dict(case.inputs)}",
    )


def test_every_case_has_a_tolerance_and_a_place() -> None:
    bare = [case for case in CASES if not (case.rel or case.abs) or not case.where]
    assert not bare


def test_every_case_names_a_known_source(root: Path) -> None:
    page = (root / "docs" / "references.md").read_text(encoding="utf-8")
    known = set(re.findall(r"^- \[([^\]]+)\]", page, re.MULTILINE))
    assert {case.source for case in CASES} - known == set()
