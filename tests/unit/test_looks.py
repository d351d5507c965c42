# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A table of looks at the level: what it may hold, and every complaint word for word."""

from datetime import date

import pytest

from firmlever.domain.circuit import Circuit
from firmlever.domain.level import LevelLook, LevelMeasure, PadReading, Stand
from firmlever.domain.looks import MOST_LOOKS, looks_of
from firmlever.errors import LooksError
from solve.machines import tourer

ON = date(2026, 5, 1)
FRONT, REAR, CLUTCH = (tourer().circuit(name) for name in ("front", "rear", "clutch"))
HEAD = "on,level_ml,pad_mm left caliper,pad_mm right caliper\n"


def read(text: str, circuit: Circuit = FRONT) -> tuple[LevelLook, ...]:
    return looks_of("looks.csv", text, circuit, ON)


def complaint(text: str, circuit: Circuit = FRONT) -> str:
    with pytest.raises(LooksError) as caught:
        read(text, circuit)
    return str(caught.value)


def test_everything_a_look_can_hold() -> None:
    text = (
        "\ufeffkm, on ,below_max_mm,pad_mm left caliper,disc_mm left caliper,topped_up_ml,degc,"
        "stand,new_pads\n"
        "1200,2026-01-02,3.5,3.6/3.2,4.85,,12,side stand,\n"
        "\n"
        "1900,2026-04-02,0,4.8,,-2.5,,,yes\n"
    )
    assert read(text) == (
        LevelLook(
            date(2026, 1, 2),
            LevelMeasure.BELOW_MAX,
            3.5,
            {"left caliper": PadReading(3.2, 3.6)},
            {"left caliper": 4.85},
            0.0,
            1200.0,
            12.0,
            Stand.SIDE,
        ),
        LevelLook(
            date(2026, 4, 2),
            LevelMeasure.BELOW_MAX,
            0.0,
            {"left caliper": PadReading(4.8)},
            topped_up_ml=-2.5,
            km=1900.0,
            new_pads=True,
        ),
    )


def test_the_only_caliper_needs_no_name() -> None:
    [look] = read("on,level_share,pad_mm\n2026-01-02,0.5,3.3\n", REAR)
    assert look.pads == {"rear caliper": PadReading(3.3)}


def test_a_clutch_has_no_pads() -> None:
    [look] = read("on,level_ml\n2026-01-02,12\n", CLUTCH)
    assert look.pads == {}
    assert complaint("on,level_ml,pad_mm\n2026-01-02,12,3\n", CLUTCH) == (
        "looks.csv: 1 thing to put right before it can be judged\n"
        "  line 1, the heading: “pad_mm”; this circuit has no caliper"
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "",
            (
                "line 1, the heading: no column “on”; the day of each look, as 2026-05-01\n"
                "  line 1, the heading: no level; one column out of level_ml, level_share, "
                "below_max_mm\n"
                "  line 1, the heading: no pads; without them wear explains nothing: "
                "“pad_mm left caliper” or “pad_mm right caliper”"
            ),
        ),
        (
            "on,pad_mm left caliper\n2026-01-02,3\n",
            "line 1, the heading: no level; one column out of level_ml, level_share, below_max_mm",
        ),
        (
            "on,level_ml,level_share,pad_mm left caliper\n",
            (
                "line 1, the heading: “level_ml” and “level_share”; "
                "one column out of level_ml, level_share, below_max_mm"
            ),
        ),
        (
            "on,level_ml\n2026-01-02,30\n",
            (
                "line 1, the heading: no pads; without them wear explains nothing: "
                "“pad_mm left caliper” or “pad_mm right caliper”"
            ),
        ),
        (
            "on,level_ml,pad_mm front caliper\n",
            (
                "line 1, the heading: “pad_mm front caliper”; it names a caliper: "
                "pad_mm left caliper, pad_mm right caliper"
            ),
        ),
        (
            "on,on,level_ml,pad_mm left caliper\n",
            "line 1, the heading: “on” twice; each column once",
        ),
        (
            "on,levl_ml,pad_mm left caliper\n",
            (
                "line 1, the heading: “levl_ml”; did you mean “level_ml”? known: on, level_ml, "
                "level_share, below_max_mm, topped_up_ml, km, degc, stand, new_pads, pad_mm, "
                "disc_mm"
            ),
        ),
        (HEAD, "the table: no looks; one row for each day somebody looked"),
        (
            HEAD + "2026-01-02,30,3,3\n" * (MOST_LOOKS + 1),
            f"the table: {MOST_LOOKS + 1} looks; {MOST_LOOKS} at most",
        ),
        (
            HEAD + "x" * 200_000 + "\n",
            "the table: a cell that never ends; short cells with commas between",
        ),
        (HEAD + "2026-01-02,30,3,3,9\n", "line 2, the row: 5 cells; 4 at most"),
        (HEAD + "2026-01-02,30,3\n", "line 2, pad_mm right caliper: empty; a number from 0 to 15"),
        (HEAD + "2026-01-02,,3,3\n", "line 2, level_ml: empty; a number from 0 to 500"),
        (HEAD + "2026-01-02,nan,3,3\n", "line 2, level_ml: “nan”; a number from 0 to 500"),
        (HEAD + "2026-01-02,-1,3,3\n", "line 2, level_ml: “-1”; a number from 0 to 500"),
        (
            HEAD + "2026-01-02,30,3,3/3/3\n",
            (
                "line 2, pad_mm right caliper: “3/3/3”; one number, or two with a stroke between, "
                "as 3.2/3.6"
            ),
        ),
        (
            HEAD + "20260102,30,3,3\n",
            "line 2, on: “20260102”; year, month and day, as 2026-05-01",
        ),
        (
            HEAD + "2026-02-30,30,3,3\n",
            "line 2, on: “2026-02-30”; year, month and day, as 2026-05-01",
        ),
        (
            HEAD + "2026-05-02,30,3,3\n",
            "line 2, on: 2026-05-02; a day from 1950-01-01 to 2026-05-01",
        ),
        (
            HEAD + "2026-01-02,39,3,3\n",
            (
                "line 2, level_ml: 39 is above MAX (38 ml); draw off down to MAX, look again and "
                "note it in topped_up_ml, below zero"
            ),
        ),
        (
            HEAD + "2026-01-02,30,3,5.6\n",
            (
                "line 2, pad_mm right caliper: 5.6 mm, and a new pad has 4.8; friction material "
                "only, without the backing; or set pad_new_mm"
            ),
        ),
        (
            HEAD + "2026-01-02,30,2,3\n2026-02-02,30,4.5,3\n",
            (
                "line 3, pad_mm left caliper: 2.5 mm thicker than at the look before; pads only "
                "wear; put yes under new_pads if they were changed"
            ),
        ),
        (
            HEAD + "2026-01-02,30,3,3\n2026-01-02,30,3,3\n",
            "line 3, on: 2026-01-02 again; one look a day: keep the better one",
        ),
        (
            HEAD + "2026-01-02,30,3,3\n2026-01-01,30,3,3\n",
            "line 3, on: 2026-01-01 after 2026-01-02; earliest day first",
        ),
        (
            (
                "on,level_ml,pad_mm left caliper,km,disc_mm left caliper\n"
                "2026-01-02,30,3,900,4\n2026-02-01,30,3,800,6\n"
            ),
            (
                "line 3, disc_mm left caliper: 2 mm thicker than at the look before; a new disc "
                "starts a new table\n  line 3, km: 800 after 900; the odometer only goes up"
            ),
        ),
        (
            "on,level_share,pad_mm left caliper,stand,new_pads\n2026-01-02,1.1,3,lying,1\n",
            (
                "line 2, level_share: “1.1”; a number from -2 to 1\n"
                "  line 2, new_pads: “1”; yes, no or empty\n"
                "  line 2, stand: “lying”; one of level, side stand"
            ),
        ),
    ],
)
def test_a_complaint_says_what_would_do(text: str, said: str) -> None:
    count = said.count("\n") + 1
    things = "1 thing" if count == 1 else f"{count} things"
    assert complaint(text) == f"looks.csv: {things} to put right before it can be judged\n  {said}"


def test_pads_may_read_a_little_thicker() -> None:
    assert len(read(HEAD + "2026-01-02,30,3,3\n2026-02-02,30,4.4,3\n")) == 2
