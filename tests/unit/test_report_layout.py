# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
from hypothesis import given
from hypothesis import strategies as st

from firmlever.report.layout import (
    COLUMNS,
    columns,
    cut,
    in_ascii,
    pad,
    paragraph,
    printable,
    width,
)
from firmlever.report.words import Speaker, WordSet


def test_a_figure_never_parts_from_its_unit() -> None:
    for blanks in range(20):
        for line in paragraph(f"{'x' * 56} {'y' * blanks} 95 % and 30–40 ml then 8 mm"):
            assert not line.text.startswith(("%", "ml", "mm"))
            assert "\N{NO-BREAK SPACE}" not in line.text


@given(st.lists(st.text(st.characters(categories=["L", "N", "P"]), max_size=30), max_size=30))
def test_a_paragraph_keeps_its_words_and_the_page(words: list[str]) -> None:
    lines = [line.text for line in paragraph(" ".join(words), "  - ", "    ")]
    assert all(len(line) <= COLUMNS for line in lines)
    assert " ".join(lines).split()[1:] == " ".join(words).split()


def test_columns_line_up_wide_letters_too() -> None:
    table = columns([("前輪", "8", "x"), ("rear", "12", "")], right=(1,))
    assert table == ("前輪   8  x", "rear  12")
    assert width("前輪") == 4
    assert pad("前", 4) == "前  "


def test_a_long_name_is_cut_to_its_columns() -> None:
    assert cut("left caliper", 12) == "left caliper"
    assert cut("left caliper", 8) == "left ca…"
    assert width(cut("前輪前輪", 6)) <= 6


def test_plain_letters_stand_in_for_the_others() -> None:
    assert in_ascii("∩─┐ ⬡2 ▒░ 5–17 … é") == "^-+ o2 #. 5-17 ~ ?"
    assert printable("red\x1b[31m\nname") == "red?[31m?name"


def test_american_words_leave_names_alone() -> None:
    say = Speaker(WordSet.US, keep=["disc hose", "a+b"])
    assert say("Bleed nipples by spanner, hoses of “disc hose” on a+b, Tyres, discs") == (
        "Bleeder screws by wrench, lines of “disc hose” on a+b, Tires, rotors"
    )
    assert say("discount") == "discount"
    assert Speaker(WordSet.UK)("spanner") == "spanner"
