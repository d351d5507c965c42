# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What every error says, word for word, and what a command ends with."""

import inspect

import pytest

from firmlever import errors
from firmlever.errors import (
    BeyondToolError,
    ChangedMeanwhileError,
    CircuitFileError,
    DamagedTableError,
    FileInTheWayError,
    FirmleverError,
    FluidRefusedError,
    ImpossibleOptionError,
    InputError,
    LooksError,
    MalformedEventError,
    MethodRefusedError,
    NoNetworkError,
    NoPagesError,
    NoSuchPageError,
    NotFromHereError,
    NotPairedError,
    NotUnderstoodError,
    NotWrittenError,
    OnlyHereError,
    OrderNeededError,
    OtherLeverTestError,
    OtherLookError,
    OthersJobError,
    OutOfRangeError,
    PairingRefusedError,
    PortTakenError,
    Problem,
    ReadingsError,
    TooLargeError,
    TooOftenError,
    UnknownJobError,
    UnknownLeverTestError,
    UnknownLookError,
    UnknownMachineError,
    UnknownNameError,
    UnknownPhoneError,
    UnknownPlanError,
    UnreadableFileError,
)

FIRST = Problem(3, "bike, mass_kg", "-1 is too low", "from 40 to 700 kg")
SECOND = Problem(14, 'circuit "front"', "it has no reservoir", "a circuit has one reservoir")
NOWHERE = Problem(0, "the file", "a number has thousands of digits", "usual numbers")

SAID: list[tuple[FirmleverError, str]] = [
    (
        OutOfRangeError("temperature", "above absolute zero"),
        "temperature must be above absolute zero",
    ),
    (
        CircuitFileError("skerry.toml", [FIRST]),
        (
            "skerry.toml: 1 thing to put right, nothing was changed\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg"
        ),
    ),
    (
        CircuitFileError("skerry.toml", [SECOND, FIRST, NOWHERE]),
        (
            "skerry.toml: 3 things to put right, nothing was changed\n"
            "  the file: a number has thousands of digits; usual numbers\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg\n"
            '  line 14, circuit "front": it has no reservoir; a circuit has one reservoir'
        ),
    ),
    (
        ReadingsError("pull.csv", [FIRST]),
        (
            "pull.csv: 1 thing to put right before it can be read\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg"
        ),
    ),
    (
        ReadingsError("pull.csv", [SECOND, FIRST]),
        (
            "pull.csv: 2 things to put right before it can be read\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg\n"
            '  line 14, circuit "front": it has no reservoir; a circuit has one reservoir'
        ),
    ),
    (
        DamagedTableError("grades.csv", [FIRST]),
        (
            "grades.csv, a table that comes with firmlever, is damaged: 1 fault; "
            "install firmlever again\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg"
        ),
    ),
    (
        DamagedTableError("grades.csv", [SECOND, FIRST]),
        (
            "grades.csv, a table that comes with firmlever, is damaged: 2 faults; "
            "install firmlever again\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg\n"
            '  line 14, circuit "front": it has no reservoir; a circuit has one reservoir'
        ),
    ),
    (UnreadableFileError("skerry.toml", "it is a folder"), "skerry.toml: it is a folder"),
    (
        FileInTheWayError("skerry.toml"),
        "skerry.toml is already there and was left as it is; choose another name or move it away",
    ),
    (
        NotWrittenError("skerry.toml", "no space left on device"),
        "skerry.toml was not written (no space left on device); what was there before is unchanged",
    ),
    (
        UnknownNameError("circuit", "frnt", ("front", "rear")),
        "there is no circuit called “frnt”; did you mean “front”? Known: front, rear",
    ),
    (
        UnknownNameError("circuit", "zzz", ("front", "rear")),
        "there is no circuit called “zzz”. Known: front, rear",
    ),
    (UnknownNameError("screw", "top", ()), "there is no screw called “top”. Known: none"),
    (
        ImpossibleOptionError("--target", "1.2", "a share between 0 and 1"),
        "--target cannot be 1.2; a share between 0 and 1",
    ),
    (
        FluidRefusedError("DOT 5", "DOT 4", "they do not mix"),
        "DOT 5 must not go into a circuit with DOT 4: they do not mix",
    ),
    (
        MethodRefusedError("reverse", "it drives dirt into the ABS unit"),
        "reverse is refused here: it drives dirt into the ABS unit",
    ),
    (
        OrderNeededError("fill", "front", ["“left” is an anti-dive unit", "“tee” is a valve"]),
        (
            "a fill of “front” needs the manual's order, for it is linked: “left” is an anti-dive "
            "unit; “tee” is a valve. Enter the order as [[sequence]] in the file, or leave it to "
            "a workshop"
        ),
    ),
    (
        BeyondToolError("a pump of its own"),
        "beyond this tool: a pump of its own; the machine's manual or a workshop",
    ),
    (
        LooksError("looks.csv", [FIRST]),
        (
            "looks.csv: 1 thing to put right before it can be judged\n"
            "  line 3, bike, mass_kg: -1 is too low; from 40 to 700 kg"
        ),
    ),
    (
        UnknownMachineError("b7"),
        "there is no machine “b7” here; it may have been removed: go back to the list of machines",
    ),
    (
        UnknownPlanError("p7"),
        (
            "there is no plan “p7” here; plans go when their machine is removed: "
            "go back to the list of machines"
        ),
    ),
    (
        ChangedMeanwhileError("Skerry 1100", 3, 5),
        (
            "Skerry 1100 was changed meanwhile (you read revision 3, it is now at 5); nothing was "
            "overwritten: read it again, then make your change"
        ),
    ),
    (
        NotUnderstoodError([NOWHERE, Problem(0, "seed", "“x”", "a whole number")]),
        (
            "what was sent cannot be used, nothing was changed\n"
            "  the file: a number has thousands of digits; usual numbers\n"
            "  seed: “x”; a whole number"
        ),
    ),
    (
        MalformedEventError([NOWHERE, Problem(0, "count", "0", "a whole number from 1 to 5000")]),
        (
            "this entry of the bench log cannot be used and was not kept\n"
            "  the file: a number has thousands of digits; usual numbers\n"
            "  count: 0; a whole number from 1 to 5000"
        ),
    ),
    (
        NoSuchPageError("GET", "/api/nothing"),
        "GET /api/nothing leads nowhere; the app starts at /",
    ),
    (
        NoPagesError(),
        (
            "the pages of the app are not built here, so no job can be carried out as one; "
            "run.py builds them"
        ),
    ),
    (
        NotFromHereError("host", "elsewhere.example", "http://127.0.0.1:8017/"),
        (
            "the host of this request is “elsewhere.example”, and only this machine is answered; "
            "open http://127.0.0.1:8017/"
        ),
    ),
    (
        UnknownJobError("j7"),
        "there is no job “j7” here: go back to the list of jobs",
    ),
    (
        UnknownLeverTestError("t7"),
        "there is no lever test “t7” of this circuit here: look at its list of tests",
    ),
    (
        OthersJobError("j7", "front"),
        (
            "the job “j7” is at another circuit, “front” of its own machine; the test was not "
            "kept: open the lever test from the bench of the right job"
        ),
    ),
    (
        OtherLeverTestError("t7"),
        (
            "another lever test is kept under “t7” and stays as it is; this one was not kept: "
            "keep it under an id of its own"
        ),
    ),
    (
        UnknownLookError("k7"),
        "there is no look “k7” at the level of this circuit here: look at its list of looks",
    ),
    (
        OtherLookError("k7"),
        (
            "another look is kept under “k7” and stays as it is; this one was not kept: "
            "keep it under an id of its own"
        ),
    ),
    (
        UnknownPhoneError("f7"),
        (
            "there is no paired phone “f7”; it may have been taken off already: look at the list "
            "of phones again"
        ),
    ),
    (
        NotPairedError("http://192.168.7.5:8017/pair"),
        (
            "this phone is not paired, or was taken off; what it has kept stays on it. Ask for a "
            "code on the computer, then open http://192.168.7.5:8017/pair"
        ),
    ),
    (
        NoNetworkError(),
        (
            "the app answers this computer only, so no phone could reach it; stop it and start it "
            "as firmlever serve --lan"
        ),
    ),
    (
        PairingRefusedError(),
        (
            "this code pairs nothing: it is wrong, was used already, or has run out. Show a new "
            "code on the computer and use it within two minutes"
        ),
    ),
    (
        OnlyHereError(),
        "phones are paired and taken off at the computer itself, not from a phone",
    ),
    (
        TooOftenError(1),
        "too many requests came from this phone; wait 1 second and try again",
    ),
    (
        TooOftenError(30),
        "too many requests came from this phone; wait 30 seconds and try again",
    ),
    (
        TooLargeError(1_000_000),
        (
            "what was sent is over 1 MB, and nothing was changed; a circuit file has a few "
            "kilobytes, so this is another file"
        ),
    ),
    (
        TooLargeError(64_000),
        (
            "what was sent is over 64 kB, and nothing was changed; a circuit file has a few "
            "kilobytes, so this is another file"
        ),
    ),
    (
        PortTakenError(8017),
        (
            "port 8017 is taken, perhaps by a firmlever that already runs: open "
            "http://127.0.0.1:8017/ or start with another one, as --port 8018"
        ),
    ),
]


@pytest.mark.parametrize(("error", "text"), SAID, ids=lambda value: type(value).__name__)
def test_message_word_for_word(error: FirmleverError, text: str) -> None:
    assert str(error) == text


def test_every_error_has_its_message_tested() -> None:
    bases = {FirmleverError, InputError}
    all_errors = {
        thing
        for _, thing in inspect.getmembers(errors, inspect.isclass)
        if issubclass(thing, FirmleverError)
    }
    assert all_errors - bases == {type(error) for error, _ in SAID}


def test_every_error_stands_in_the_tree_at_the_top() -> None:
    drawn = errors.__doc__ or ""
    for error, _ in SAID:
        assert f"── {type(error).__name__} " in drawn


@pytest.mark.parametrize("error", [error for error, _ in SAID], ids=str)
def test_exit_code_tells_input_from_the_rest(error: FirmleverError) -> None:
    assert error.exit_code == (2 if isinstance(error, InputError) else 1)


def test_errors_keep_what_they_were_built_from() -> None:
    assert OutOfRangeError("p_pa", "finite").quantity == "p_pa"
    assert CircuitFileError("a.toml", [SECOND, FIRST]).problems == (FIRST, SECOND)
    assert CircuitFileError("a.toml", [FIRST]).file == "a.toml"
    assert ReadingsError("pull.csv", [SECOND, FIRST]).problems == (FIRST, SECOND)
    assert ReadingsError("pull.csv", [FIRST]).file == "pull.csv"
    assert DamagedTableError("grades.csv", [FIRST]).problems == (FIRST,)
    assert DamagedTableError("grades.csv", [FIRST]).table == "grades.csv"
    assert UnreadableFileError("a.toml", "gone").file == "a.toml"
    assert FileInTheWayError("a.toml").file == "a.toml"
    assert NotWrittenError("a.toml", "full").file == "a.toml"
    unknown = UnknownNameError("screw", "top", ())
    assert (unknown.what, unknown.asked) == ("screw", "top")
    assert ImpossibleOptionError("--target", "2", "below 1").option == "--target"
    assert MethodRefusedError("reverse", "dirt").method == "reverse"
    assert UnknownMachineError("b7").machine_id == "b7"
    assert UnknownPlanError("p7").plan_id == "p7"
    assert UnknownJobError("j7").job_id == "j7"
    assert UnknownLeverTestError("t7").test_id == "t7"
    assert OtherLeverTestError("t7").test_id == "t7"
    others = OthersJobError("j7", "front")
    assert (others.job_id, others.circuit) == ("j7", "front")
    assert UnknownLookError("k7").look_id == "k7"
    assert OtherLookError("k7").look_id == "k7"
    assert UnknownPhoneError("f7").phone_id == "f7"
    assert NotPairedError("/pair").page == "/pair"
    assert TooOftenError(2).wait_s == 2
    assert NotUnderstoodError([SECOND, FIRST]).problems == (SECOND, FIRST)
    assert MalformedEventError([SECOND, FIRST]).problems == (SECOND, FIRST)
    assert NoSuchPageError("GET", "/x").path == "/x"
    assert TooLargeError(64_000).most_bytes == 64_000
    assert PortTakenError(8017).port == 8017
    foreign = NotFromHereError("origin", "null", "here")
    assert (foreign.what, foreign.found) == ("origin", "null")
    late = ChangedMeanwhileError("Skerry 1100", 3, 5)
    assert (late.name, late.read_revision, late.kept_revision) == ("Skerry 1100", 3, 5)
    refused = FluidRefusedError("DOT 5", "DOT 4", "no")
    assert (refused.new, refused.old) == ("DOT 5", "DOT 4")
