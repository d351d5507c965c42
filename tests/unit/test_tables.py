# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The reader of the data tables, on sound and on damaged files."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from firmlever.domain.tables import Basis, FluidBase, Method, Prior, Technique, Work
from firmlever.errors import DamagedTableError, FirmleverError, InputError
from firmlever.store.tables import BACK_SUCTION, CsvTables

PRIOR_HEADER = "kind,key,family,classes,unit,low,high,basis,source,note\n"
GRADE_HEADER = (
    "name,base,rank,dry_boiling_min_degc,wet_boiling_min_degc,cold_viscosity_max_mm2_s,"
    "hot_viscosity_min_mm2_s,typical_cold_viscosity_mm2_s,typical_hot_viscosity_mm2_s,"
    "density_kg_m3,expansion_1_k,air_held_low,air_held_high,basis,source\n"
)
TECHNIQUE_HEADER = (
    "method,name,works,delivered_low,delivered_high,seconds_low,seconds_high,drive_kpa_low,"
    "drive_kpa_high,back_suction,steps,basis,source\n"
)
BASES = ", ".join(Basis)
WHOLE = "is damaged: 1 fault; install firmlever again\n"


def priors_of(folder: Path, rows: str, header: str = PRIOR_HEADER) -> Sequence[Prior]:
    (folder / "priors.csv").write_text(header + rows, encoding="utf-8")
    return CsvTables(folder).priors()


def message_of(read: Callable[[], object]) -> str:
    with pytest.raises(DamagedTableError) as caught:
        read()
    return str(caught.value)


def test_a_row_becomes_a_prior(tmp_path: Path) -> None:
    row = "line,bore_mm,any,small; sport,mm,3,3.5,from memory,from-memory,hose\n"
    assert priors_of(tmp_path, row) == (
        Prior(
            kind="line",
            key="bore_mm",
            family="any",
            classes=("small", "sport"),
            unit="mm",
            low=3.0,
            high=3.5,
            basis=Basis.FROM_MEMORY,
            source="from-memory",
            note="hose",
        ),
    )


def test_the_most_special_rows_come_first(tmp_path: Path) -> None:
    rows = (
        "line,bore_mm,any,,mm,4,5,judgement,judgement,\n"
        "line,bore_mm,any,sport,mm,3,5,judgement,judgement,\n"
        "line,bore_mm,rear,,mm,2,5,judgement,judgement,\n"
        "line,bore_mm,rear,sport,mm,1,5,judgement,judgement,\n"
    )
    assert [prior.low for prior in priors_of(tmp_path, rows)] == [1, 2, 3, 4]


def test_a_table_is_read_once(tmp_path: Path) -> None:
    (tmp_path / "priors.csv").write_text(PRIOR_HEADER, encoding="utf-8")
    tables = CsvTables(tmp_path)
    first = tables.priors()
    (tmp_path / "priors.csv").unlink()
    assert tables.priors() is first


@pytest.mark.parametrize(
    ("row", "fault"),
    [
        (
            "line,bore_mm,side,,mm,3,4,judgement,judgement,\n",
            "line 2, family: “side”; one of front, rear, clutch, any",
        ),
        (
            "line,bore_mm,any,hovercraft,mm,3,4,judgement,judgement,\n",
            (
                "line 2, classes: “hovercraft”; some of small, commuter, scooter, naked, sport, "
                "tourer, adventure, cruiser, off-road"
            ),
        ),
        (
            "line,bore_mm,any,,furlong,3,4,judgement,judgement,\n",
            "line 2, unit: “furlong”; a unit known to firmlever",
        ),
        (
            "line,bore_mm,any,,mm,thick,4,judgement,judgement,\n",
            "line 2, low: “thick”; a number",
        ),
        (
            "line,bore_mm,any,,mm,3,nan,judgement,judgement,\n",
            "line 2, high: “nan”; a number",
        ),
        (
            "line,bore_mm,any,,mm,3,inf,judgement,judgement,\n",
            "line 2, high: “inf”; a number",
        ),
        (
            "line,bore_mm,any,,mm,4,3.5,judgement,judgement,\n",
            "line 2, low: 4 above 3.5; at most high",
        ),
        (
            "line,bore_mm,any,,mm,3,4,hearsay,judgement,\n",
            f"line 2, basis: “hearsay”; one of {BASES}",
        ),
        (
            "line,bore_mm,any,,mm,3,4,judgement,,\n",
            "line 2, source: empty; it must not be",
        ),
        (
            "line,bore_mm,any,,mm,3,4,judgement\n",
            "line 2, whole row: 8 cells; 10, one for each column",
        ),
        (
            'line,bore_mm,any,,mm,3,4,judgement,judgement,"hose\n',
            "line 2, the line: unexpected end of data; a line of a CSV table",
        ),
    ],
)
def test_a_fault_in_a_row_is_named(tmp_path: Path, row: str, fault: str) -> None:
    message = message_of(lambda: priors_of(tmp_path, row))
    assert message == f"priors.csv, a table that comes with firmlever, {WHOLE}  {fault}"


def test_every_fault_is_named_at_once(tmp_path: Path) -> None:
    rows = (
        "line,bore_mm,any,,mm,4,3,hearsay,judgement,\n"
        "line,length_mm,any,,mm,x,3,judgement,judgement,\n"
    )
    message = message_of(lambda: priors_of(tmp_path, rows))
    assert message == (
        "priors.csv, a table that comes with firmlever, is damaged: 3 faults; "
        "install firmlever again\n"
        f"  line 2, basis: “hearsay”; one of {BASES}\n"
        "  line 2, low: 4 above 3; at most high\n"
        "  line 3, low: “x”; a number"
    )


@pytest.mark.parametrize(("first", "second"), [("", ""), ("sport;naked", "tourer;naked")])
def test_two_rows_for_the_same_case_are_refused(tmp_path: Path, first: str, second: str) -> None:
    rows = (
        f"line,bore_mm,any,{first},mm,3,4,judgement,judgement,\n"
        f"line,bore_mm,any,{second},mm,3,5,judgement,judgement,\n"
    )
    message = message_of(lambda: priors_of(tmp_path, rows))
    fault = "line 3, whole row: says the same as line 2; one of them must go"
    assert message == f"priors.csv, a table that comes with firmlever, {WHOLE}  {fault}"


def test_rows_for_other_families_or_classes_may_stand_together(tmp_path: Path) -> None:
    rows = (
        "line,bore_mm,any,,mm,3,4,judgement,judgement,\n"
        "line,bore_mm,rear,,mm,3,4,judgement,judgement,\n"
        "line,bore_mm,any,sport,mm,3,4,judgement,judgement,\n"
        "line,bore_mm,any,naked,mm,3,4,judgement,judgement,\n"
    )
    assert len(priors_of(tmp_path, rows)) == 4


def test_columns_are_those_known_each_once(tmp_path: Path) -> None:
    header = PRIOR_HEADER.replace("note", "remark").replace("key", "kind")
    message = message_of(lambda: priors_of(tmp_path, "", header))
    columns = "kind, key, family, classes, unit, low, high, basis, source, note"
    assert message == (
        "priors.csv, a table that comes with firmlever, is damaged: 4 faults; "
        "install firmlever again\n"
        "  line 1, key: a column is missing; it must be there\n"
        "  line 1, kind: a column stands there twice; once is right\n"
        "  line 1, note: a column is missing; it must be there\n"
        f"  line 1, remark: a column not known here; the columns are {columns}"
    )


def test_an_empty_file_misses_every_column(tmp_path: Path) -> None:
    with pytest.raises(DamagedTableError) as caught:
        priors_of(tmp_path, "", "")
    assert len(caught.value.problems) == len(PRIOR_HEADER.split(","))


@pytest.mark.parametrize("content", [None, b"\xff\xfe\x00kind"])
def test_an_absent_file_or_one_that_is_not_text(tmp_path: Path, content: bytes | None) -> None:
    if content is not None:
        (tmp_path / "techniques.csv").write_bytes(content)
    message = message_of(CsvTables(tmp_path).techniques)
    fault = "the file: absent or not text; it belongs to the package"
    assert message == f"techniques.csv, a table that comes with firmlever, {WHOLE}  {fault}"


def test_a_damaged_installation_is_nothing_the_user_gave() -> None:
    error = DamagedTableError("priors.csv", [])
    assert isinstance(error, FirmleverError)
    assert not isinstance(error, InputError)
    assert error.exit_code == 1


def test_a_row_becomes_a_grade(tmp_path: Path) -> None:
    row = "Plain oil,mineral oil,0,,,,,15,4,850,0.0008,0.07,0.12,judgement,judgement\n"
    (tmp_path / "grades.csv").write_text(GRADE_HEADER + row, encoding="utf-8")
    (grade,) = CsvTables(tmp_path).grades()
    assert grade.base is FluidBase.MINERAL
    assert grade.rank == 0
    assert grade.dry_boiling_min_degc is None
    assert (grade.density_kg_m3, grade.air_held) == (850.0, (0.07, 0.12))


def test_a_grade_stands_once_and_its_rank_is_whole(tmp_path: Path) -> None:
    rows = (
        "Plain oil,mineral oil,0.5,,,,,15,4,850,0.0008,0.07,0.12,judgement,judgement\n"
        "Plain oil,mineral oil,x,,,,,15,4,850,0.0008,0.07,0.12,judgement,judgement\n"
    )
    (tmp_path / "grades.csv").write_text(GRADE_HEADER + rows, encoding="utf-8")
    message = message_of(CsvTables(tmp_path).grades)
    assert message == (
        "grades.csv, a table that comes with firmlever, is damaged: 3 faults; "
        "install firmlever again\n"
        "  line 2, rank: “0.5”; a whole number\n"
        "  line 3, rank: “x”; a number\n"
        "  line 3, whole row: says the same as line 2; one of them must go"
    )


def test_a_technique_has_steps_and_whole_bands(tmp_path: Path) -> None:
    rows = (
        "lever,one,flush | bled,0.5,,3,2,,,maybe,,judgement,judgement\n"
        "lever,one,fill,,,,,,,none,Pull. | Let go.,judgement,judgement\n"
    )
    (tmp_path / "techniques.csv").write_text(TECHNIQUE_HEADER + rows, encoding="utf-8")
    message = message_of(CsvTables(tmp_path).techniques)
    assert message == (
        "techniques.csv, a table that comes with firmlever, is damaged: 6 faults; "
        "install firmlever again\n"
        "  line 2, back_suction: “maybe”; one of none, possible, likely\n"
        "  line 2, delivered_high: “”; a number\n"
        "  line 2, seconds_low: 3 above 2; at most seconds_high\n"
        "  line 2, steps: empty; it must not be\n"
        "  line 2, works: “bled”; one or several of flush, bleed, fill\n"
        "  line 3, whole row: says the same as line 2; one of them must go"
    )


def test_every_method_has_a_technique_with_what_the_method_needs() -> None:
    techniques = CsvTables().techniques()
    assert {technique.method for technique in techniques} == set(Method)
    for technique in techniques:
        by_lever = technique.method is Method.LEVER
        assert (technique.delivered is not None) is by_lever, technique.name
        assert (technique.seconds is not None) is by_lever, technique.name
        driven = technique.method not in (Method.LEVER, Method.GRAVITY)
        assert (technique.drive_kpa is not None) is driven, technique.name
        assert technique.back_suction in BACK_SUCTION
        assert len(technique.steps) >= 4, technique.name
        assert all(step.endswith(".") for step in technique.steps), technique.name


def test_techniques_against_air_are_not_offered_for_a_flush() -> None:
    against_air = {
        "pump up and crack",
        "fast sweeping pull",
        "full strokes then rest",
        "short strokes near the port",
        "hung slave",
    }
    rows = {row.name: row.works for row in CsvTables().techniques()}
    assert against_air == {name for name, works in rows.items() if Work.FLUSH not in works}


def test_the_first_technique_of_a_method_does_for_every_job() -> None:
    first: dict[Method, Technique] = {}
    for row in CsvTables().techniques():
        first.setdefault(row.method, row)
    assert {row.works for row in first.values()} == {tuple(Work)}


def test_the_default_lever_technique_closes_before_release() -> None:
    (default, *others) = (
        technique for technique in CsvTables().techniques() if technique.method is Method.LEVER
    )
    assert default.name == "close before release"
    assert default.back_suction == "none"
    assert default.delivered is not None
    lows = [other.delivered[0] for other in others if other.delivered is not None]
    assert len(lows) == len(others)
    assert max(lows) <= default.delivered[0]


def test_no_technique_delivers_more_than_was_swept_or_sucks_more_than_there_is() -> None:
    atmosphere_kpa = 101.325
    for technique in CsvTables().techniques():
        low, high = technique.delivered or (1.0, 1.0)
        assert 0.0 < low <= high <= 1.0
        if technique.method is Method.VACUUM:
            assert technique.drive_kpa is not None
            assert technique.drive_kpa[1] < atmosphere_kpa
