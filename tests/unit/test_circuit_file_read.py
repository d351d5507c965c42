# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the reader accepts, and word for word what it says of everything else."""

from typing import Any

import pytest
from pydantic import ValidationError

from firmlever.domain.quantity import Between, Exact
from firmlever.errors import BeyondToolError, CircuitFileError
from firmlever.store.circuit_file import faults, models
from firmlever.store.circuit_file.read import read_bike
from unit.circuit_file_texts import GRADES, PACKAGED, SHORT, changed, said_of

POT, CALIPER = 'circuit "front", part "pot"', 'circuit "front", part "caliper"'


def test_short_file_is_read() -> None:
    bike = read_bike("a.toml", SHORT, GRADES)
    front = bike.circuit("front")
    assert bike.name == "Skerry 250"
    assert front.part("pot").given == {"max_ml": Exact(20.0)}
    assert front.part("caliper").given == {"volume_ml": Between(8.0, 12.0)}
    assert front.fluid.filled is None


@pytest.mark.parametrize("file", PACKAGED, ids=lambda file: file.stem)
def test_packaged_file_is_read(file: Any) -> None:
    grades = (*GRADES, "ISO 6", "ISO 7")
    assert read_bike(file.name, file.read_text("utf-8"), grades).circuits


def test_byte_order_mark_and_dos_line_ends_do_no_harm() -> None:
    dos = "\ufeff" + SHORT.replace("\n", "\r\n")
    assert read_bike("a.toml", dos, GRADES) == read_bike("a.toml", SHORT, GRADES)


ONE_FAULT: dict[str, tuple[str, str, str]] = {
    "not a number": (
        "max_ml = 20",
        'max_ml = "abc"',
        (
            f'line 12, {POT}, max_ml: "abc" is not a number; '
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "bool": (
        "max_ml = 20",
        "max_ml = true",
        (
            f"line 12, {POT}, max_ml: true is not a number; "
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "list for a range": (
        "max_ml = 20",
        "max_ml = [10, 20]",
        (
            f"line 12, {POT}, max_ml: a list is never a range; "
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "not finite": (
        "max_ml = 20",
        "max_ml = nan",
        (
            f"line 12, {POT}, max_ml: nan is not a finite number; "
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "infinite": (
        "max_ml = 20",
        "max_ml = 1e999",
        (
            f"line 12, {POT}, max_ml: inf is not a finite number; "
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "negative": (
        "max_ml = 20",
        "max_ml = -3",
        f"line 12, {POT}, max_ml: -3 is too low; from 2 to 500 ml",
    ),
    "beyond bounds": (
        "max_ml = 20",
        "max_ml = 2e3",
        f"line 12, {POT}, max_ml: 2000.0 is too high; from 2 to 500 ml",
    ),
    "a number of many digits": (
        "max_ml = 20",
        f"max_ml = {'9' * 400}",
        f"line 12, {POT}, max_ml: a number of over 40 digits is too high; from 2 to 500 ml",
    ),
    "date for a number": (
        "max_ml = 20",
        "max_ml = 07:30:00",
        (
            f"line 12, {POT}, max_ml: 07:30:00 is not a number; "
            "a number from 2 to 500 ml, or { low = ..., high = ... }"
        ),
    ),
    "low above high": (
        "low = 8, high = 12",
        "low = 12, high = 8",
        f"line 20, {CALIPER}, volume_ml: low = 12 is above high = 8; the lower end is low",
    ),
    "low equal to high": (
        "low = 8, high = 12",
        "low = 8, high = 8.0",
        f"line 20, {CALIPER}, volume_ml: low and high are both 8; write 8 alone for an exact value",
    ),
    "range without high": (
        "low = 8, high = 12",
        "low = 8",
        f"line 20, {CALIPER}, volume_ml: the range has no high; a range has low and high",
    ),
    "range with more": (
        "low = 8, high = 12",
        "low = 8, high = 12, mid = 10",
        f'line 20, {CALIPER}, volume_ml: "mid" has no place in a range; a range has low and high',
    ),
    "unknown key with a near one": (
        "max_ml = 20",
        "max_mI = 20",
        f'line 12, {POT}, max_mI: this key is not known here; the nearest known is "max_ml"',
    ),
    "unknown key of another kind": (
        "max_ml = 20",
        "wheel = 'front'",
        (
            f"line 12, {POT}, wheel: this key is not known here; known here: "
            "id, kind, max_ml, min_ml, left_after_draw_ml, height_mm"
        ),
    ),
    "unknown key in odd letters": (
        "max_ml = 20",
        '"max\\tml" = 20',
        f'line 12, {POT}, "max\\tml": this key is not known here; the nearest known is "max_ml"',
    ),
    "unknown key of the file": (
        "format = 1",
        "format = 1\nbikes = 2",
        'line 2, bikes: this key is not known here; the nearest known is "bike"',
    ),
    "unknown key of the fluid": (
        'filled = "unknown"',
        'filed = "unknown"',
        (
            'line 8, circuit "front", fluid, filed: this key is not known here; '
            'the nearest known is "filled"'
        ),
    ),
    "unknown key of a screw": (
        "hex_mm = 8",
        "hex = 8",
        (
            f'line 23, {CALIPER}, screw "caliper", hex: this key is not known here; '
            'the nearest known is "hex_mm"'
        ),
    ),
    "reserved key of the bike": (
        'class = "small"',
        'class = "small"\nmade = 2011',
        "line 5, bike, made: this is reserved for a later format and not readable yet; take it out",
    ),
    "reserved geometry": (
        "[[circuit]]",
        "[bike.geometry]\n[[circuit]]",
        (
            "line 5, bike, geometry: this is reserved for a later format and not readable yet; "
            "take it out"
        ),
    ),
    "reserved disc": (
        "[[circuit]]",
        "[[disc]]\n[[circuit]]",
        "line 5, disc: this is reserved for a later format and not readable yet; take it out",
    ),
    "text that is none": (
        'name = "Skerry 250"',
        "name = 250",
        "line 3, bike, name: 250 is not text; text in quotation marks",
    ),
    "empty text": (
        "Skerry 250",
        " ",
        "line 3, bike, name: the text is empty; at least one letter or digit",
    ),
    "text with a space at its end": (
        "Skerry 250",
        "Skerry ",
        'line 3, bike, name: "Skerry " starts or ends with a space; no space at either end',
    ),
    "long text": (
        "Skerry 250",
        "S" * 201,
        "line 3, bike, name: the text has 201 characters; at most 200 characters",
    ),
    "control character": (
        "Skerry 250",
        "Skerry\\u0007",
        'line 3, bike, name: "Skerry\\u0007" holds a control character; plain text in one line',
    ),
    "name with a slash": (
        'name = "front"',
        'name = "fr/ont"',
        'line 6, circuit "fr/ont", name: "fr/ont" holds "/"; a name without / : >',
    ),
    "choice": (
        'control = "lever"',
        'control = "foot"',
        (
            'line 7, circuit "front", control: "foot" is not known here; '
            "one of: lever, pedal, clutch lever, thumb lever"
        ),
    ),
    "choice that is no text": (
        'control = "lever"',
        "control = 1979-05-27T07:32:00Z",
        (
            'line 7, circuit "front", control: 1979-05-27T07:32:00+00:00 is not text; '
            "one of: lever, pedal, clutch lever, thumb lever"
        ),
    ),
    "grade": (
        'required = ["DOT 4"]',
        'required = ["DOT 6"]',
        (
            'line 8, circuit "front", fluid, required, number 1: "DOT 6" is not known here; '
            "one of: DOT 3, DOT 4, DOT 5, DOT 5.1, mineral oil"
        ),
    ),
    "unknown is no requirement": (
        'required = ["DOT 4"]',
        'required = ["unknown"]',
        (
            'line 8, circuit "front", fluid, required, number 1: "unknown" is not known here; '
            "one of: DOT 3, DOT 4, DOT 5, DOT 5.1, mineral oil"
        ),
    ),
    "grade filled": (
        'filled = "unknown"',
        'filled = "water"',
        (
            'line 8, circuit "front", fluid, filled: "water" is not known here; '
            "one of: DOT 3, DOT 4, DOT 5, DOT 5.1, mineral oil, unknown"
        ),
    ),
    "date": (
        'filled = "unknown"',
        'filled_on = "2024-04-20"',
        (
            'line 8, circuit "front", fluid, filled_on: "2024-04-20" is not a date; '
            "a date without quotation marks: 2024-04-20"
        ),
    ),
    "date with a time": (
        'filled = "unknown"',
        "filled_on = 2024-04-20 10:00:00",
        (
            'line 8, circuit "front", fluid, filled_on: 2024-04-20T10:00:00 is not a date; '
            "a date without quotation marks: 2024-04-20"
        ),
    ),
    "missing key": (
        'control = "lever"\n',
        "",
        'line 5, circuit "front", control: it is missing; give control = ...',
    ),
    "missing bike": (
        '[bike]\nname = "Skerry 250"\nclass = "small"\n',
        "",
        "bike: it is missing; give [bike]",
    ),
    "no table": (
        'fluid = { required = ["DOT 4"], filled = "unknown" }',
        'fluid = "DOT 4"',
        'line 8, circuit "front", fluid: "DOT 4" is not a table; write fluid = { ... }',
    ),
    "no list": (
        'required = ["DOT 4"]',
        'required = "DOT 4"',
        (
            'line 8, circuit "front", fluid, required: "DOT 4" is not a list; '
            "a list in square brackets"
        ),
    ),
    "one bracket too few": (
        "    [[circuit.part.screw]]",
        "    [circuit.part.screw]",
        (
            f"line 21, {CALIPER}, screw: one pair of brackets where a list of tables belongs; "
            "write [[circuit.part.screw]]"
        ),
    ),
    "empty list": (
        "pistons_mm = [27, 27]",
        "pistons_mm = []",
        f"line 19, {CALIPER}, pistons_mm: the list is empty; at least one",
    ),
    "long list": (
        "pistons_mm = [27, 27]",
        f"pistons_mm = {[27] * 13}",
        f"line 19, {CALIPER}, pistons_mm: 13 of them; at most 12",
    ),
    "piston": (
        "pistons_mm = [27, 27]",
        "pistons_mm = [27, 2.7]",
        f"line 19, {CALIPER}, pistons_mm, number 2: 2.7 is too low; from 8 to 80 mm",
    ),
    "kind missing": (
        '  kind = "reservoir"\n',
        "",
        (
            f"line 9, {POT}, kind: it is missing; one of: reservoir, master cylinder, "
            "secondary master cylinder, modulator, caliper, slave cylinder, splitter, joint, "
            "valve, anti-dive, dead end"
        ),
    ),
    "kind unknown": (
        'kind = "reservoir"',
        'kind = "resevoir"',
        f'line 11, {POT}, kind: "resevoir" is not a kind of part; the nearest known is "reservoir"',
    ),
    "kind that is no text": (
        'kind = "reservoir"',
        "kind = [1]",
        (
            f"line 11, {POT}, kind: a list is not text; one of: reservoir, master cylinder, "
            "secondary master cylinder, modulator, caliper, slave cylinder, splitter, joint, "
            "valve, anti-dive, dead end"
        ),
    ),
    "turning points that are none": (
        "length_mm = 900",
        "via = 300",
        (
            'line 30, circuit "front", line "master > caliper", via: 300 is not a list; '
            "a list of [distance, height] pairs"
        ),
    ),
    "turning point that is no pair": (
        "length_mm = 900",
        "via = [[300]]",
        (
            'line 30, circuit "front", line "master > caliper", via: '
            "turning point 1 is not a pair; [distance mm, height mm]"
        ),
    ),
    "turning point out of bounds": (
        "length_mm = 900",
        "via = [[300, 9000]]",
        (
            'line 30, circuit "front", line "master > caliper", via: '
            "turning point 1: 9000 is too high; from 0 to 2500 mm"
        ),
    ),
    "too many turning points": (
        "length_mm = 900",
        f"via = {[[i, 1] for i in range(51)]}",
        'line 30, circuit "front", line "master > caliper", via: 51 turning points; at most 50',
    ),
    "turning point past the end": (
        "length_mm = 900",
        "length_mm = 900\nvia = [[950, 100]]",
        (
            'line 31, circuit "front", line "master > caliper", via: '
            "a turning point at 950 mm does not fit length_mm = 900; "
            "a turning point lies within the line"
        ),
    ),
    "contradiction": (
        "max_ml = 20",
        "max_ml = 20\nmin_ml = 21",
        f"line 13, {POT}, min_ml: min_ml = 21 does not fit max_ml = 20; min_ml is below max_ml",
    ),
    "line to nothing": (
        'to = "caliper"',
        'to = "calliper"',
        (
            'line 29, circuit "front", line "master > calliper", to: '
            'no part of this circuit is called "calliper"; the nearest known is "caliper"'
        ),
    ),
    "unreachable part": (
        '  [[circuit.line]]\n  from = "pot"\n  to = "master"\n',
        "",
        (
            'line 13, circuit "front", part "master": no line leads to it; '
            "join it by a [[circuit.line]], or take it out"
        ),
    ),
    "sequence to nothing": (
        "  length_mm = 900\n",
        '[[sequence]]\ncircuit = "rear"\nscrew = "caliper"\n',
        'line 31, sequence, number 1, circuit: no circuit is called "rear"; known here: front',
    ),
    "format missing": (
        "format = 1\n",
        "",
        "format: it is missing; the file starts with format = 1",
    ),
    "format newer": (
        "format = 1\n",
        "format = 2\nnew = true\n",
        "line 1, format: written by a newer firmlever (format 2); this one reads format 1",
    ),
    "format nought": (
        "format = 1\n",
        "format = 0\n",
        "line 1, format: there is no format 0; this one reads format 1",
    ),
    "format true": (
        "format = 1\n",
        "format = true\n",
        "line 1, format: there is no format true; this one reads format 1",
    ),
    "format as text": (
        "format = 1\n",
        'format = "1"\n',
        'line 1, format: there is no format "1"; this one reads format 1',
    ),
}


@pytest.mark.parametrize("name", ONE_FAULT)
def test_one_fault_is_said_word_for_word(name: str) -> None:
    old, new, said = ONE_FAULT[name]
    assert said_of(changed(old, new)) == [said]


WHOLE: dict[str, tuple[str, list[str]]] = {
    "nothing but the format": (
        "format = 1",
        ["bike: it is missing; give [bike]", "circuit: it is missing; give [[circuit]]"],
    ),
    "scalars for tables": (
        "format = 1\nbike = 1\ncircuit = 'x'\nsequence = [3]",
        [
            "line 2, bike: 1 is not a table; write [bike]",
            'line 3, circuit: "x" where a list of tables belongs; write [[circuit]]',
            "line 4, sequence, number 1: 3 is not a table; write [[sequence]]",
        ],
    ),
    "scalars in lists of tables": (
        'format = 1\ncircuit = [1, { part = [2], line = [{ from = "a", to = 3 }] }]',
        [
            "bike: it is missing; give [bike]",
            "line 2, circuit 1: 1 is not a table; write [[circuit]]",
            "line 2, circuit 2, control: it is missing; give control = ...",
            "line 2, circuit 2, line 1, to: 3 is not text; text in quotation marks",
            "line 2, circuit 2, name: it is missing; give name = ...",
            "line 2, circuit 2, part 1: 2 is not a table; write [[circuit.part]]",
        ],
    ),
    "no circuit": (
        "format = 1\ncircuit = []\nbike = { name = 'Skerry', class = 'small' }",
        ["line 2, circuit: the list is empty; at least one"],
    ),
    "all ends of a range wrong": (
        changed("low = 8, high = 12", 'low = "a", up = 3'),
        [
            (
                f'line 20, {CALIPER}, volume_ml: "up" has no place in a range; '
                "a range has low and high"
            ),
            (
                f'line 20, {CALIPER}, volume_ml: low = "a" is not a number; '
                "a number from 0.3 to 250 ml"
            ),
            f"line 20, {CALIPER}, volume_ml: the range has no high; a range has low and high",
        ],
    ),
}


@pytest.mark.parametrize("name", WHOLE)
def test_several_faults_are_said_together(name: str) -> None:
    text, said = WHOLE[name]
    assert said_of(text) == said


def test_faults_of_values_and_of_the_tree_come_together() -> None:
    text = changed("max_ml = 20", "max_ml = -3").replace('to = "caliper"', 'to = "calliper"')
    text = text.replace("hex_mm = 8", "hex = 8").replace('"DOT 4"', '"DOT 9"')
    text += '[[sequence]]\ncircuit = "front"\nscrew = "top"\n'
    assert [said.split(":")[0] for said in said_of(text)] == [
        'line 8, circuit "front", fluid, required, number 1',
        f"line 12, {POT}, max_ml",
        f'line 23, {CALIPER}, screw "caliper", hex',
        'line 29, circuit "front", line "master > calliper", to',
        "line 33, sequence, number 1, screw",
    ]


def test_broken_step_hides_no_other_fault() -> None:
    text = changed('to = "caliper"', 'to = "calliper"') + "[[sequence]]\ncircuit = 3\n"
    assert [said.split(":")[0] for said in said_of(text)] == [
        'line 29, circuit "front", line "master > calliper", to',
        "line 31, sequence, number 1, screw",
        "line 32, sequence, number 1, circuit",
    ]


def test_circuit_too_broken_to_check_hides_no_fault_of_another() -> None:
    second = SHORT[SHORT.index("[[circuit]]") :].replace('"front"', '"rear"')
    text = changed('id = "pot"', "id = 3") + second.replace('to = "caliper"', 'to = "x1y2"')
    assert said_of(text) == [
        'line 10, circuit "front", part 1, id: 3 is not text; text in quotation marks',
        (
            'line 55, circuit "rear", line "master > x1y2", to: '
            'no part of this circuit is called "x1y2"; known here: pot, master, caliper'
        ),
    ]


def test_hundreds_of_faults_are_cut_short() -> None:
    text = changed("format = 1", "format = 1\n" + "\n".join(f"key{i} = 1" for i in range(300)))
    said = said_of(text)
    assert len(said) == 101
    assert said[-1] == "line 301, the file: there is more; put right those above first"


BEYOND: dict[str, tuple[str, str, str]] = {
    "power unit": (
        'kind = "master cylinder"',
        'kind = "pump"',
        (
            'a.toml, line 15, circuit "front", part "master", kind: "pump": a power-assisted unit; '
            "such a system is not reckoned"
        ),
    ),
    "loop": (
        "  length_mm = 900\n",
        '  [[circuit.line]]\n  from = "caliper"\n  to = "master"\n',
        (
            'a.toml, line 30, circuit "front", line "caliper > master": '
            "the lines run in a ring: master > caliper > master; "
            "a circuit is a tree, and a hydraulic loop is not reckoned"
        ),
    ),
    "two reservoirs": (
        "  [[circuit.line]]\n",
        '  [[circuit.part]]\n  id = "second"\n  kind = "reservoir"\n  [[circuit.line]]\n',
        (
            'a.toml, line 5, circuit "front": it has 2 reservoirs, "pot" and "second"; '
            "a circuit with reservoirs of its own further on is not reckoned"
        ),
    ),
    "two masters": (
        'from = "master"\n',
        'from = "master"\n  to = "thumb"\n  [[circuit.line]]\n  from = "thumb"\n',
        (
            'a.toml, line 34, circuit "front", part "thumb": '
            'it pushes the same pistons as master cylinder "master"; '
            "two master cylinders on the same pistons are not reckoned"
        ),
    ),
}


@pytest.mark.parametrize("name", BEYOND)
def test_system_beyond_the_tool_is_said_to_be(name: str) -> None:
    old, new, said = BEYOND[name]
    text = changed(old, new)
    if name == "two masters":
        text += '  [[circuit.part]]\n  id = "thumb"\n  kind = "master cylinder"\n'
    with pytest.raises(BeyondToolError) as refused:
        read_bike("a.toml", text, GRADES)
    assert str(refused.value) == f"beyond this tool: {said}; the machine's manual or a workshop"


def test_beyond_among_other_faults_is_said_there() -> None:
    text = changed('kind = "master cylinder"', 'kind = "pump"').replace("= 20", "= -20")
    assert said_of(text)[1] == (
        'line 15, circuit "front", part "master", kind: "pump": a power-assisted unit; '
        "such a system is not reckoned (beyond this tool: the machine's manual or a workshop)"
    )


NO_TOML: dict[str, tuple[str, str]] = {
    "key twice": (
        "a = 1\na = 2\n",
        (
            "line 2, column 6: a key or table is given twice; "
            "each key once; a further part has two brackets"
        ),
    ),
    "key twice in braces": (
        "a = { b = 1, b = 2 }",
        "line 1, column 19: a key is given twice; each key once",
    ),
    "no equals sign": (
        "bike",
        "line 1, the end of the file: a key without an equals sign; key = value",
    ),
    "heading open": (
        "[bike\na = 1",
        "line 1, column 6: a heading is not closed; [bike], [[circuit]] or [[circuit.part]]",
    ),
    "decimal comma": (
        "a = 1,5",
        (
            "line 1, column 6: something follows where the line should end; "
            "one key = value in a line; text in quotation marks, decimals with a point"
        ),
    ),
    "text open at line end": (
        'a = "b\nc = 1',
        (
            "line 1, column 7: a text is not closed, or a control character is in it; "
            "text stands in one line between quotation marks"
        ),
    ),
    "no such date": (
        "a = 2024-02-30",
        "line 1, column 5: this date does not exist; a date as year-month-day: 2024-04-20",
    ),
    "text without quotation marks": (
        "a = pot",
        "line 1, column 5: the value cannot be read; a number, a date, or text in quotation marks",
    ),
    "bracket open": (
        "a = [1, 2",
        "line 1, the end of the file: a bracket is not closed; as many closing as opening brackets",
    ),
    "backslash": (
        'a = "c:\\garage"',
        "line 1, column 10: a backslash in a text; write it twice: \\\\",
    ),
    "text open at the end": (
        'a = """b',
        "line 1, the end of the file: a text is not closed; a quotation mark at its end",
    ),
    "something else": (
        "%PDF-1.7",
        (
            "line 1, column 1: this is not a circuit file; "
            "lines of key = value under headings such as [bike]"
        ),
    ),
    "endless number": (
        f"a = {'9' * 5000}",
        "the file: a number has thousands of digits; numbers of a usual length",
    ),
    "brackets": (
        "a = 1\nb = " + "[" * 500_000,
        "line 2, brackets: nested too deep; at most 12 levels",
    ),
    "dotted key": (
        "a" + ".a" * 400_000 + " = 1",
        "line 1, brackets: nested too deep; at most 12 levels",
    ),
}


@pytest.mark.parametrize("name", NO_TOML)
def test_text_that_is_no_toml(name: str) -> None:
    text, said = NO_TOML[name]
    assert said_of(text) == [said]


def test_twelve_levels_are_no_fault_of_nesting() -> None:
    assert "levels" not in said_of(f"format = 1\na = {'[' * 12}{']' * 12}")[0]
    assert "levels" in said_of(f"format = 1\na = {'[' * 13}{']' * 13}")[0]


def test_unbalanced_closing_brackets_open_no_room() -> None:
    assert "nested too deep" in said_of(f"a = {']' * 50}{'[' * 13}")[0]


# ----- every type of error that the models can raise has words of ours

_RAISED_BY: dict[str, set[str]] = {
    "model": {"model_type", "model_attributes_type"},
    "model-fields": {"missing", "extra_forbidden"},
    "list": {"list_type", "too_short", "too_long"},
    "tagged-union": {"union_tag_not_found", "union_tag_invalid", "model_attributes_type"},
    "function-plain": {"ours"},
    "literal": set(),  # format and kind, both decided before
    # these pass on what is inside them
    "model-field": set(),
    "default": set(),
    "nullable": set(),
    "definitions": set(),
    "definition-ref": set(),
}


def _node_types(node: Any) -> set[str]:
    if isinstance(node, dict):
        here = {node["type"]} if "type" in node and isinstance(node["type"], str) else set()
        parts = [
            value
            for key, value in node.items()
            if key not in ("metadata", "serialization", "function")
        ]
        return here.union(*map(_node_types, parts))
    if isinstance(node, list | tuple):
        return set().union(*map(_node_types, node))
    return set()


def test_every_error_the_models_can_raise_has_words() -> None:
    types = _node_types(models.Document.__pydantic_core_schema__)
    assert types <= set(_RAISED_BY)
    assert set().union(*(_RAISED_BY[name] for name in types)) == set(faults._WORDS)


def test_every_word_is_used_by_an_example_above() -> None:
    texts = [changed(old, new) for old, new, _ in ONE_FAULT.values()]
    texts += [text for text, _ in WHOLE.values()]
    raised: set[str] = set()
    for text in texts:
        raised |= _types_raised(text)
    assert raised == set(faults._WORDS) | {"literal_error"}


def _types_raised(text: str) -> set[str]:
    import tomllib

    try:
        models.Document.model_validate(tomllib.loads(text), context={"grades": GRADES})
    except ValidationError as error:
        return {fault["type"] for fault in error.errors()}
    return set()


def test_refused_file_is_named_with_its_count() -> None:
    with pytest.raises(CircuitFileError) as refused:
        read_bike("shed/a.toml", changed("max_ml = 20", "max_ml = -3"), GRADES)
    assert str(refused.value) == (
        "shed/a.toml: 1 thing to put right, nothing was changed\n"
        f"  line 12, {POT}, max_ml: -3 is too low; from 2 to 500 ml"
    )
