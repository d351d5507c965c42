# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Several values at once: all or none, pistons as a list, and forgetting that loses no comment."""

from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firmlever.domain.machine import Change
from firmlever.domain.quantity import Between, Exact
from firmlever.errors import (
    CircuitFileError,
    ImpossibleOptionError,
    NotWrittenError,
    UnknownNameError,
)
from firmlever.store.circuit_file import TomlCircuitFiles
from unit.circuit_file_texts import GRADES, SHORT, changed

FILES = TomlCircuitFiles((*GRADES, "ISO 6", "ISO 7"))
SKERRY = files("firmlever").joinpath("data", "demo", "skerry.toml").read_text("utf-8")


def after(text: str, *changes: Change) -> str:
    return FILES.changed("short.toml", text, changes)


def test_values_that_only_fit_together_go_in_together() -> None:
    text = changed("max_ml = 20", "max_ml = 20\n  min_ml = 9")
    new = after(text, Change("front/pot/min_ml", Exact(21)), Change("front/pot/max_ml", Exact(30)))
    assert new == text.replace("max_ml = 20", "max_ml = 30").replace("min_ml = 9", "min_ml = 21")
    with pytest.raises(CircuitFileError, match="min_ml = 21 does not fit max_ml = 20"):
        after(text, Change("front/pot/min_ml", Exact(21)))


@pytest.mark.parametrize(
    "wrong",
    [
        Change("front/pot/max_ml", Exact(-1)),
        Change("front/jar/max_ml", Exact(1)),
        Change("front/caliper/pistons_mm", Exact(27)),
        Change("front/caliper/pistons_mm", Between(27, 30)),
        Change("front/caliper/pistons_mm", ()),
        Change("front/caliper/pistons_mm", (27.0, 900.0)),
        Change("front/pot/max_ml", (20.0, 21.0)),
        Change("front/pot/pistons_mm", (27.0,)),
    ],
    ids=str,
)
def test_one_wrong_value_keeps_all_out(wrong: Change) -> None:
    with pytest.raises((CircuitFileError, UnknownNameError)):
        after(SHORT, Change("bike/mass_kg", Exact(161)), wrong)


def test_a_key_named_twice_is_refused() -> None:
    key = "front/pot/max_ml"
    with pytest.raises(ImpossibleOptionError) as refused:
        after(SHORT, Change(key, Exact(20)), Change(key, Exact(22)))
    assert str(refused.value) == f"{key} cannot be set 2 times at once; give one value"


def test_no_change_is_no_change() -> None:
    assert after(SHORT) == SHORT
    assert after(SHORT, Change("front/pot/min_ml", None)) == SHORT
    assert after(SHORT, Change("front/pot/max_ml", Exact(20.0))) == SHORT


def test_pistons_are_set_and_changed_as_a_list() -> None:
    key = "front/caliper/pistons_mm"
    first = after(SHORT, Change(key, (27.0, 25.4)))
    parts = FILES.parse("a", first).circuit("front").parts
    assert next(part for part in parts if part.id == "caliper").pistons_mm == (27.0, 25.4)
    assert "  pistons_mm = [27, 25.4]\n" in first
    assert after(first, Change(key, (30.0,))) == first.replace("[27, 25.4]", "[30]")


def test_a_forgotten_value_goes_with_its_line() -> None:
    assert after(SHORT, Change("front/pot/max_ml", None)) == changed("  max_ml = 20\n", "")


def test_a_comment_behind_a_forgotten_value_stays() -> None:
    text = after(SHORT, Change("front/caliper/volume_ml", None))
    assert text == changed("volume_ml = { low = 8, high = 12 }  # a guess", "# a guess")


def test_a_forgotten_value_at_the_very_end() -> None:
    text = SHORT.rstrip("\n") + "\n  bore_mm = 3.2"
    assert after(text, Change("front/master > caliper/bore_mm", None)) == SHORT.rstrip("\n") + "\n"


def test_a_list_over_several_lines_is_forgotten_whole() -> None:
    text = after(SHORT, Change("front/caliper/pistons_mm", (27.0, 25.4)))
    spread = text.replace("[27, 25.4]", "[\n    27, # upper\n    25.4,\n  ]  # both")
    forgotten = after(spread, Change("front/caliper/pistons_mm", None))
    assert forgotten == text.replace("pistons_mm = [27, 25.4]", "# both")


@pytest.mark.parametrize(
    ("braces", "key", "left"),
    [
        ("{ id = 'w', hex_mm = 8, height_mm = 300 }", "hex_mm", "{ id = 'w', height_mm = 300 }"),
        ("{ id = 'w', hex_mm = 8 }", "hex_mm", "{ id = 'w' }"),
        ("{hex_mm=8,id='w'}", "hex_mm", "{ id='w'}"),
        ("{ hex_mm = { low = 7, high = 8 } , id = 'w' }", "hex_mm", "{ id = 'w' }"),
    ],
)
def test_a_value_in_braces_goes_with_one_comma(braces: str, key: str, left: str) -> None:
    start, end = SHORT.index("    [[circuit.part.screw]]"), SHORT.index("    hex_mm = 8\n")
    text = SHORT[:start] + f"  screw = [{braces}]\n" + SHORT[end + len("    hex_mm = 8\n") :]
    assert after(text, Change(f"front/screw:w/{key}", None)) == text.replace(braces, left)


def test_a_value_spread_over_keys_is_left_to_a_hand() -> None:
    spread = changed("max_ml = 20", "max_ml.low = 18\n  max_ml.high = 22")
    with pytest.raises(NotWrittenError, match="max_ml is written in a way only a hand can change"):
        after(spread, Change("front/pot/max_ml", None))
    assert after(spread, Change("front/pot/max_ml", Between(18, 22))) == spread


def every_value(text: str) -> list[Change]:
    """Every quantity that a text gives, as the change that would set it."""
    found = []
    for circuit in FILES.parse("a", text).circuits:
        things: list[tuple[str, Any]] = [(part.id, part.given) for part in circuit.parts]
        things += [(f"{line.start} > {line.end}", line.given) for line in circuit.lines]
        things += [(f"screw:{s.id}", s.given) for part in circuit.parts for s in part.screws]
        found += [
            Change(f"{circuit.name}/{name}/{key}", value)
            for name, given_there in things
            for key, value in given_there.items()
        ]
    return found


@given(st.sets(st.sampled_from(range(len(every_value(SKERRY))))))
def test_what_was_forgotten_can_be_set_again(chosen: set[int]) -> None:
    """Independent: the machine read from the text is the same, and no comment is lost."""
    changes = [every_value(SKERRY)[index] for index in sorted(chosen)]
    bare = after(SKERRY, *(Change(change.key, None) for change in changes))
    assert len(every_value(bare)) == len(every_value(SKERRY)) - len(changes)
    again = after(bare, *changes)
    assert FILES.parse("a", again) == FILES.parse("a", SKERRY)
    assert comments(again) == comments(bare) == comments(SKERRY)


def comments(text: str) -> list[str]:
    return sorted(line.partition("#")[2].strip() for line in text.splitlines() if "#" in line)
