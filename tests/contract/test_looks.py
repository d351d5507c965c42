# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every place that keeps looks must do: looks and notes are added and stay."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from contract.examples import START, event_id, machine
from contract.stores import Kept
from firmlever.domain.look_log import KeptLook, TakenBack
from firmlever.errors import UnknownLookError
from firmlever.store.database import open_database


def look(number: int = 1, machine_id: str = "m1", circuit: str = "front") -> KeptLook:
    made_at = START + timedelta(minutes=number)
    return KeptLook(event_id(number), machine_id, 3, circuit, made_at, "Ann “摩”", '{"km":1}')


def note(number: int = 1) -> TakenBack:
    return TakenBack(event_id(number), "m1", "front", START, "Ben")


def test_looks_come_as_they_were_kept_and_by_circuit(kept: Kept) -> None:
    for one in (look(3), look(1), look(2, circuit="rear"), look(4, "m2")):
        assert kept.looks.keep(one) == one
    assert kept.looks.of_circuit("m1", "front") == (look(1), look(3))
    assert kept.looks.of_circuit("m1", "rear") == (look(2, circuit="rear"),)
    assert kept.looks.of_circuit("nobody", "front") == ()


def test_what_is_kept_under_an_id_stays(kept: Kept) -> None:
    kept.looks.keep(look())
    assert kept.looks.keep(replace(look(), who="Ben")) == look()
    assert kept.looks.of_circuit("m1", "front") == (look(),)


def test_a_look_taken_back_stays_with_its_note(kept: Kept) -> None:
    kept.looks.keep(look())
    kept.looks.take_back(note())
    assert kept.looks.of_circuit("m1", "front") == (look(),)
    assert kept.looks.taken_back("m1", "front") == (note(),)
    assert kept.looks.taken_back("m1", "rear") == ()


def test_a_look_that_is_not_there_is_named(kept: Kept) -> None:
    with pytest.raises(UnknownLookError, match=event_id(9)):
        kept.looks.take_back(note(9))
    assert kept.looks.taken_back("m1", "front") == ()


def test_a_removed_machine_leaves_its_looks(kept: Kept) -> None:
    kept.machines.add(machine())
    kept.looks.keep(look())
    kept.machines.remove("m1", read_revision=1)
    assert kept.looks.of_circuit("m1", "front") == (look(),)


def test_what_was_kept_is_there_after_a_new_start(tmp_path: Path) -> None:
    first = open_database(tmp_path)
    first.looks.keep(look())
    first.looks.take_back(note())
    first.close()
    again = open_database(tmp_path)
    assert again.looks.of_circuit("m1", "front") == (look(),)
    assert again.looks.taken_back("m1", "front") == (note(),)
    again.close()
