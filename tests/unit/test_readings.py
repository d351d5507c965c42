# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Tables of readings: what is taken, and every fault at once, by line."""

import pytest

from firmlever.domain.lever import Hold, Moment, Pace, ReadingSet, SetKind
from firmlever.domain.readings import readings_of
from firmlever.errors import ReadingsError

HEAD = "set,force_n,travel_mm\n"
NAMES = "a set is called first, pumped, wedged, hold or hold fast, a repeat as “wedged 2”"
HELD = "".join(f"hold,100,{30 + i / 2},{10 * i}\n" for i in range(7))
GOOD = HEAD + "first,10,12\nfirst,20,19\nfirst,40,24\nfirst,80,29\n"


def refused(text: str) -> str:
    with pytest.raises(ReadingsError) as caught:
        readings_of("pull.csv", text)
    return str(caught.value)


def test_sets_come_in_the_order_of_the_table_and_repeats_stand_apart() -> None:
    text = (
        "\ufeff# wedged, after the ride\r\nset, force_n, travel_mm, seconds\r\n"
        "wedged,10,8,\r\nwedged,20,11,\r\nwedged,40,14,\r\nwedged,80,17,\r\n\r\n"
        "wedged 2,10,9,1\r\nwedged 2,20,11,2\r\nwedged 2,40,14,3\r\nwedged 2,80,18,4\r\n"
    )
    force = (10.0, 20.0, 40.0, 80.0)
    assert readings_of("pull.csv", text, Moment.AFTER).sets == (
        ReadingSet(SetKind.WEDGED, force, (8.0, 11.0, 14.0, 17.0), Moment.AFTER),
        ReadingSet(SetKind.WEDGED, force, (9.0, 11.0, 14.0, 18.0), Moment.AFTER),
    )


def test_every_fault_is_named_at_once_by_its_line() -> None:
    text = HEAD + "first,10,12\nsecond,20,19\nfirst,nan,24\nfirst,80,1e9\nfirst,,\n"
    assert refused(text) == (
        "pull.csv: 5 things to put right before it can be read\n"
        f"  line 3, set: “second”; {NAMES}\n"
        "  line 4, force_n: “nan”; a number from 0.5 to 400\n"
        "  line 5, travel_mm: “1e9”; a number from 0 to 200\n"
        "  line 6, force_n: “”; a number from 0.5 to 400\n"
        "  line 6, travel_mm: “”; a number from 0 to 200"
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "line 1, the heading: the file is empty; it starts with set,force_n,travel_mm"),
        ("a,b\n1,2\n", "line 1, the heading: “a,b”; it starts with set,force_n,travel_mm"),
        (
            "set;force_n;travel_mm\nfirst;8;12\n",
            "line 1, the heading: “set;force_n;travel_mm”; it starts with set,force_n,travel_mm",
        ),
        (
            "x" * 999_000,
            f"line 1, the heading: “{'x' * 40}…”; it starts with set,force_n,travel_mm",
        ),
        (
            GOOD + "first,100,91\n",
            (
                "line 2, first: a travel of 91 mm; "
                "a lever meets the grip before 90 mm; read from where it rests"
            ),
        ),
        (
            HEAD + HELD,
            (
                "the table: holds only; "
                "a slow pull beside it, set first; a hold tells of sinking, not of air"
            ),
        ),
        (
            GOOD + "hold,100,30,0\nhold,100,30,10\nhold,100,30,20\nhold,100,30,60\n",
            "line 6, hold: 4 readings in 60 s; at least 5 readings over 30 s or more",
        ),
        (
            GOOD + HELD.replace(",60\n", ",50\n"),
            (
                "line 12, hold: the clock goes from 50 to 50 s; "
                "seconds go up; a repeat is a hold of its own"
            ),
        ),
        (
            GOOD + HELD + "hold,70,34,70\n",
            "line 13, hold: the force goes from 100 to 70 N; a hold keeps to one force",
        ),
        (
            GOOD + HELD + "hold,100,34,\n",
            "line 13, seconds: “”; a number from 0 to 600",
        ),
        (HEAD, "the table: no readings; at least one set of readings"),
        (
            HEAD + "first,10,12\n" * 100_000,
            "the table: 100000 rows; 500 at most",
        ),
        (
            HEAD + "first,10,12\nfirst,20,19\nfirst,40,24\n",
            "line 2, first: 3 readings; at least 4, from a light pull to a firm one",
        ),
        (
            GOOD + "first,60,30\n",
            (
                "line 6, first: the force goes from 80 to 60 N; "
                "readings go up only; a repeat is a set of its own"
            ),
        ),
        (
            GOOD + "first,100,20\n",
            (
                "line 6, first: the travel goes back from 29 to 20 mm; "
                "more force moves a lever further"
            ),
        ),
        (
            HEAD + "first,10,12\nfirst,20,12\nfirst,40,12\nfirst,80,12\n",
            "line 2, first: the travel never changes; read it at each force",
        ),
        (
            HEAD + "first,1,12\nfirst,2,19\nfirst,4,24\nfirst,8,29\n",
            (
                "line 2, first: 29 mm with at most 8 N; "
                "that looks like kilograms; newtons are ten times as many"
            ),
        ),
    ],
)
def test_what_cannot_be_a_pull_is_refused(text: str, says: str) -> None:
    assert refused(text) == f"pull.csv: 1 thing to put right before it can be read\n  {says}"


def test_a_slip_of_the_ruler_is_no_fault() -> None:
    (one,) = readings_of("pull.csv", GOOD + "first,100,28\n").sets
    assert one.travel_mm[-1] == 28.0


def test_holds_are_read_with_their_pace_and_mean_force() -> None:
    text = GOOD + HELD + HELD.replace("hold,100", "hold fast 2,90")
    seconds = (0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0)
    travel = (30.0, 30.5, 31.0, 31.5, 32.0, 32.5, 33.0)
    read = readings_of("pull.csv", text)
    assert len(read.sets) == 1
    assert read.holds == (
        Hold(Pace.SLOW, 100.0, seconds, travel),
        Hold(Pace.FAST, 90.0, seconds, travel),
    )
