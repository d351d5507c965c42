# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Changing one value leaves every other byte, and no failure leaves half a file."""

import errno
import os
import re
import stat
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.machine import Change
from firmlever.domain.quantities import keys_of, spec_of
from firmlever.domain.quantity import Between, Exact, Quantity
from firmlever.errors import (
    CircuitFileError,
    FileInTheWayError,
    ImpossibleOptionError,
    NotWrittenError,
    UnknownNameError,
    UnreadableFileError,
)
from firmlever.store.circuit_file import TomlCircuitFiles
from firmlever.store.circuit_file.read import read_bike
from firmlever.store.circuit_file.write import with_value
from unit.circuit_file_texts import GRADES, PACKAGED, SHORT, changed

ALL_GRADES = (*GRADES, "ISO 6", "ISO 7")
FILES = TomlCircuitFiles(ALL_GRADES)
KEPT = Path(__file__).parents[1] / "formats" / "circuit_format_1.toml"


@pytest.fixture
def short(tmp_path: Path) -> Path:
    file = tmp_path / "short.toml"
    file.write_bytes(SHORT.encode())
    return file


CHANGES: dict[str, tuple[str, Quantity, str, str]] = {
    "number": ("front/pot/max_ml", Exact(22.5), "max_ml = 20", "max_ml = 22.5"),
    "number to range": (
        "front/pot/max_ml",
        Between(18, 22),
        "max_ml = 20",
        "max_ml = { low = 18, high = 22 }",
    ),
    "range to number": (
        "front/caliper/volume_ml",
        Exact(10),
        "{ low = 8, high = 12 }  # a guess",
        "10  # a guess",
    ),
    "line": ("front/master > caliper/length_mm", Exact(870), "mm = 900", "mm = 870"),
    "screw": ("front/screw:caliper/hex_mm", Exact(7), "hex_mm = 8", "hex_mm = 7"),
    "new in a part": (
        "front/pot/min_ml",
        Exact(9),
        "  max_ml = 20\n",
        "  max_ml = 20\n  min_ml = 9\n",
    ),
    "new behind a comment": (
        "front/caliper/pad_mm",
        Exact(3),
        "# a guess\n",
        "# a guess\n  pad_mm = 3\n",
    ),
    "new in a screw": (
        "front/screw:caliper/above_ml",
        Between(0, 0.5),
        "    hex_mm = 8\n",
        "    hex_mm = 8\n    above_ml = { low = 0, high = 0.5 }\n",
    ),
    "new in the machine": (
        "bike/mass_kg",
        Exact(161),
        'class = "small"\n',
        'class = "small"\nmass_kg = 161\n',
    ),
    "new in a line": (
        "front/pot > master/bore_mm",
        Exact(5),
        '  to = "master"\n',
        '  to = "master"\n  bore_mm = 5\n',
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_only_the_value_changes(name: str, short: Path) -> None:
    key, value, old, new = CHANGES[name]
    FILES.change(str(short), [Change(key, value)])
    assert short.read_text("utf-8") == changed(old, new)


def test_dos_line_ends_and_byte_order_mark_stay(short: Path) -> None:
    dos = "\ufeff" + SHORT.replace("\n", "\r\n")
    short.write_bytes(dos.encode())
    FILES.change(str(short), [Change("bike/mass_kg", Exact(161))])
    expected = dos.replace('"small"\r\n', '"small"\r\nmass_kg = 161\r\n')
    assert short.read_bytes().decode() == expected


def test_value_is_put_in_where_the_file_ends_without_a_line_end(short: Path) -> None:
    short.write_text(SHORT.rstrip("\n"), "utf-8")
    FILES.change(str(short), [Change("front/master > caliper/bore_mm", Exact(3.2))])
    assert short.read_text("utf-8") == SHORT + "  bore_mm = 3.2"


def test_value_is_put_into_braces(tmp_path: Path) -> None:
    file = tmp_path / "kept.toml"
    kept = KEPT.read_text("utf-8")
    file.write_text(kept, "utf-8")
    TomlCircuitFiles(("DOT 4", "DOT 5.1")).change(
        str(file), [Change("rear/link/height_mm", Exact(500))]
    )
    assert file.read_text("utf-8") == kept.replace(
        "unswept_ml = 0.4 }", "unswept_ml = 0.4, height_mm = 500 }"
    )


def test_value_spread_over_keys_is_left_to_a_hand(short: Path) -> None:
    spread = changed("max_ml = 20", "max_ml.low = 18\n  max_ml.high = 22")
    short.write_text(spread, "utf-8")
    with pytest.raises(NotWrittenError) as refused:
        FILES.change(str(short), [Change("front/pot/max_ml", Exact(20))])
    assert str(refused.value) == (
        f"{short} was not written (max_ml is written in a way only a hand can change, "
        "near line 12); what was there before is unchanged"
    )
    assert short.read_text("utf-8") == spread


def test_table_without_heading_is_left_to_a_hand(short: Path) -> None:
    dotted = changed('[bike]\nname = "Skerry 250"\nclass', 'bike.name = "Skerry 250"\nbike.class')
    short.write_text(dotted, "utf-8")
    with pytest.raises(NotWrittenError, match=r"mass_kg is written in a way .* near line 2"):
        FILES.change(str(short), [Change("bike/mass_kg", Exact(161))])


UNKNOWN: dict[str, str] = {
    "max_ml": "there is no quantity called “max_ml”. Known: bike/KEY, CIRCUIT/PART/KEY",
    "bike/mas_kg": "there is no quantity of the machine called “mas_kg”; "
    "did you mean “mass_kg”? Known: mass_kg, rider_kg",
    "back/pot/max_ml": "there is no circuit called “back”. Known: front",
    "front/jar/max_ml": "there is no part called “jar”. Known: pot, master, caliper",
    "front/pot/bore_mm": "there is no quantity of a reservoir called “bore_mm”. "
    "Known: max_ml, min_ml, left_after_draw_ml, height_mm",
    "front/pot > caliper/bore_mm": "there is no line called “pot > caliper”; "
    "did you mean “master > caliper”? Known: pot > master, master > caliper",
    "front/screw:top/hex_mm": "there is no screw called “top”. Known: caliper",
    "front/pot > master/wide": "there is no quantity of a line called “wide”. "
    "Known: bore_mm, length_mm",
}


@pytest.mark.parametrize("key", UNKNOWN)
def test_unknown_address_is_named(key: str, short: Path) -> None:
    with pytest.raises(UnknownNameError) as refused:
        FILES.change(str(short), [Change(key, Exact(10))])
    assert str(refused.value) == UNKNOWN[key]
    assert short.read_text("utf-8") == SHORT


@pytest.mark.parametrize(
    "value", [Exact(-3), Exact(float("nan")), Between(9, 3), Between(3, float("inf"))], ids=str
)
def test_impossible_value_is_not_written(value: Quantity, short: Path) -> None:
    with pytest.raises(CircuitFileError, match=r"line 12, .* part \"pot\", max_ml: "):
        FILES.change(str(short), [Change("front/pot/max_ml", value)])
    assert short.read_text("utf-8") == SHORT


def addresses(bike: Bike) -> Iterator[tuple[str, str, str]]:
    for key in keys_of("bike"):
        yield f"bike/{key}", "bike", key
    for circuit in bike.circuits:
        things = [(part.id, part.kind.value) for part in circuit.parts]
        things += [(f"{line.start} > {line.end}", "line") for line in circuit.lines]
        things += [(f"screw:{s.id}", "screw") for part in circuit.parts for s in part.screws]
        for name, kind in things:
            for key in keys_of(kind):
                yield f"{circuit.name}/{name}/{key}", kind, key


TEXTS = {file.stem: file.read_text("utf-8") for file in (*PACKAGED, KEPT)}


@settings(deadline=None, max_examples=60)
@given(st.data())
def test_any_quantity_of_any_file_can_be_set(data: Any) -> None:
    text = TEXTS[data.draw(st.sampled_from(sorted(TEXTS)))]
    bike = read_bike("a.toml", text, ALL_GRADES)
    key, kind, name = data.draw(st.sampled_from(list(addresses(bike))))
    spec = spec_of(kind, name)
    numbers = st.floats(spec.low, spec.high)
    value = data.draw(
        numbers.map(Exact)
        | st.tuples(numbers, numbers).filter(lambda p: p[0] < p[1]).map(lambda p: Between(*p))
    )
    new_text = with_value("a.toml", text, bike, key, value)
    _assert_only_this_changed(text, new_text, name)
    new, problems = read_or_problems(new_text)
    if new is None:
        # another quantity of the same part may now contradict it
        assert all("does not fit" in problem for problem in problems)
        return
    assert dict(values(new))[key] == value
    rest = {k: v for k, v in values(new) if k != key}
    assert rest == {k: v for k, v in values(bike) if k != key}


def read_or_problems(text: str) -> tuple[Bike | None, list[str]]:
    try:
        return read_bike("a.toml", text, ALL_GRADES), []
    except CircuitFileError as error:
        return None, [str(problem) for problem in error.problems]


def values(bike: Bike) -> Iterator[tuple[str, Quantity]]:
    for key, value in bike.given.items():
        yield f"bike/{key}", value
    for circuit in bike.circuits:
        things: list[tuple[str, Any]] = [(part.id, part.given) for part in circuit.parts]
        things += [(f"{line.start} > {line.end}", line.given) for line in circuit.lines]
        things += [(f"screw:{s.id}", s.given) for part in circuit.parts for s in part.screws]
        for name, given_there in things:
            for key, value in given_there.items():
                yield f"{circuit.name}/{name}/{key}", value


def common_start(one: str, other: str) -> int:
    pairs = enumerate(zip(one, other, strict=False))
    return next((i for i, (a, b) in pairs if a != b), min(len(one), len(other)))


def _assert_only_this_changed(old: str, new: str, key: str) -> None:
    same_start = common_start(old, new)
    same_end = common_start(old[same_start:][::-1], new[same_start:][::-1])
    gone = old[same_start : len(old) - same_end]
    assert re.fullmatch(r"[-\w.{}=, ]*", gone), f"{key}: {gone}"


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_setting_what_is_there_gives_identical_bytes(text: str, tmp_path: Path) -> None:
    file = tmp_path / "a.toml"
    file.write_text(text, "utf-8", newline="")
    bike = FILES.read(str(file))
    for key, value in values(bike):
        FILES.change(str(file), [Change(key, value)])
    assert file.read_bytes() == text.encode()


# ----- new files


@pytest.mark.parametrize("bike_class", BikeClass)
def test_new_file_is_the_outline_with_the_name(bike_class: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    FILES.write_new(str(file), bike_class, 'The "red" one, é')
    bike = FILES.read(str(file))
    assert (bike.name, bike.bike_class) == ('The "red" one, é', bike_class)
    outline = TEXTS[bike_class]
    written = file.read_text("utf-8")
    assert written.splitlines()[0] == outline.splitlines()[0]
    assert len(written.splitlines()) == len(outline.splitlines())


def test_new_file_never_overwrites(short: Path) -> None:
    with pytest.raises(FileInTheWayError) as refused:
        FILES.write_new(str(short), "small", "Skerry")
    assert str(refused.value).startswith(f"{short} is already there")
    assert short.read_text("utf-8") == SHORT


def test_of_two_at_once_one_wins(tmp_path: Path) -> None:
    file = str(tmp_path / "mine.toml")
    outcomes: list[str] = []

    def write(name: str) -> None:
        try:
            FILES.write_new(file, "small", name)
            outcomes.append(name)
        except FileInTheWayError:
            outcomes.append("in the way")

    threads = [threading.Thread(target=write, args=(f"name {i}",)) for i in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    winners = [outcome for outcome in outcomes if outcome != "in the way"]
    assert winners == [FILES.read(file).name]


def test_new_file_of_no_class(tmp_path: Path) -> None:
    with pytest.raises(UnknownNameError, match="there is no class called “tourr”; did you mean “t"):
        FILES.write_new(str(tmp_path / "mine.toml"), "tourr", "Skerry")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["", "a\nb", "x" * 201, "\udc80"])
def test_new_file_with_an_impossible_name(name: str, tmp_path: Path) -> None:
    with pytest.raises(ImpossibleOptionError):
        FILES.write_new(str(tmp_path / "mine.toml"), "small", name)
    assert list(tmp_path.iterdir()) == []


def test_impossible_name_word_for_word(tmp_path: Path) -> None:
    with pytest.raises(ImpossibleOptionError) as refused:
        FILES.write_new(str(tmp_path / "mine.toml"), "small", "a\nb")
    assert str(refused.value) == (
        'the name cannot be used: "a\\nb" holds a control character; plain text in one line'
    )


# ----- what the disk may do


def refusing(error: int) -> Callable[..., Any]:
    def refuse(*_args: object, **_more: object) -> Any:
        raise OSError(error, os.strerror(error))

    return refuse


STEPS = {
    "making the file beside": "tempfile.mkstemp",
    "opening it": "os.fdopen",
    "settling it": "os.fsync",
    "its permissions": "pathlib.Path.chmod",
    "putting it in place": "pathlib.Path.replace",
}


@pytest.mark.parametrize("step", STEPS)
def test_full_disk_at_any_step_leaves_the_old_file(
    step: str, short: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(STEPS[step], refusing(errno.ENOSPC))
    with pytest.raises(NotWrittenError) as refused:
        FILES.change(str(short), [Change("front/pot/max_ml", Exact(22))])
    monkeypatch.undo()
    assert str(refused.value) == (
        f"{short} was not written (no space left on device); what was there before is unchanged"
    )
    assert short.read_text("utf-8") == SHORT
    assert list(short.parent.iterdir()) == [short]


@pytest.mark.parametrize("step", ["os.fdopen", "os.fsync"])
def test_full_disk_leaves_no_half_new_file(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(step, refusing(errno.ENOSPC))
    with pytest.raises(NotWrittenError):
        FILES.write_new(str(tmp_path / "mine.toml"), "small", "Skerry")
    monkeypatch.undo()
    assert list(tmp_path.iterdir()) == []


def test_new_file_in_a_folder_that_is_not_there(tmp_path: Path) -> None:
    file = tmp_path / "no" / "mine.toml"
    with pytest.raises(NotWrittenError) as refused:
        FILES.write_new(str(file), "small", "Skerry")
    assert str(refused.value) == (
        f"{file} was not written (no such file or directory); what was there before is unchanged"
    )


def test_name_with_a_nought_in_it_cannot_be_used() -> None:
    with pytest.raises(NotWrittenError, match="the name cannot be used"):
        FILES.write_new("a\0b", "small", "Skerry")
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read("a\0b")
    assert str(refused.value) == "a\0b: it cannot be opened (the name cannot be used)"


def test_folder_that_cannot_be_settled_is_no_failure(
    short: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.fsync

    def only_files(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "no fsync of folders here")
        real(handle)

    monkeypatch.setattr("os.fsync", only_files)
    FILES.change(str(short), [Change("front/pot/max_ml", Exact(22))])
    assert short.read_text("utf-8") == changed("max_ml = 20", "max_ml = 22")


def test_permissions_and_links_stay(short: Path) -> None:
    short.chmod(0o640)
    link = short.with_name("link.toml")
    link.symlink_to(short)
    FILES.change(str(link), [Change("front/pot/max_ml", Exact(22))])
    assert link.is_symlink()
    assert stat.S_IMODE(short.stat().st_mode) == 0o640
    assert short.read_text("utf-8") == changed("max_ml = 20", "max_ml = 22")


# ----- what cannot be read


def test_missing_file(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(tmp_path / "none.toml"))
    assert str(refused.value) == (
        f"{tmp_path / 'none.toml'}: there is no such file; check the name and the folder"
    )


def test_folder_for_a_file(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(tmp_path))
    assert str(refused.value) == f"{tmp_path}: it is a folder; name a file in it"


def test_pipe_for_a_file_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(tmp_path / "pipe"))
    assert str(refused.value) == f"{tmp_path / 'pipe'}: it is not a plain file"


def test_file_that_may_not_be_read(short: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pathlib.Path.open", refusing(errno.EACCES))
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(short))
    assert str(refused.value) == f"{short}: it may not be read; check its permissions"


def test_disk_that_fails(short: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pathlib.Path.open", refusing(errno.EIO))
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(short))
    assert str(refused.value) == f"{short}: it cannot be opened (input/output error)"


def test_file_of_ten_megabytes(short: Path) -> None:
    short.write_bytes(b"#" * 10_000_000)
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(short))
    assert str(refused.value) == (
        f"{short}: it is over 1 MB; a circuit file has a few kilobytes, so this is another file"
    )


def test_file_of_just_one_megabyte_is_read(short: Path) -> None:
    short.write_bytes(SHORT.encode() + b"#" * (1_000_000 - len(SHORT)))
    assert FILES.read(str(short)).name == "Skerry 250"


def test_file_that_is_no_text(short: Path) -> None:
    short.write_bytes(b"format = 1\n# caf\xe9\n")
    with pytest.raises(UnreadableFileError) as refused:
        FILES.read(str(short))
    assert str(refused.value) == (
        f"{short}: line 2 is not UTF-8 text; save it as plain text in UTF-8"
    )


def test_demo_machines_are_read() -> None:
    names = [bike.name for bike in FILES.demo()]
    assert len(names) == len(set(names)) == sum(f.parent.name == "demo" for f in PACKAGED)
