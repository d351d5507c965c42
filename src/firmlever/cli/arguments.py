# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The commands and their options, with the help that shows them."""

from argparse import ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Sequence
from enum import StrEnum
from typing import Any, NoReturn

from firmlever import __version__
from firmlever.domain.tables import Method, Work
from firmlever.errors import InputError, UnknownNameError
from firmlever.report.layout import COLUMNS
from firmlever.report.words import WordSet

SCHEMAS = ("circuit", "plan", "lever", "level", "air")
_HELP_WORDS = ("-h", "--help")

COMMANDS = {
    "new": "start a circuit file from the class of a machine",
    "check": "read a circuit file and say how much of it is known",
    "set": "tell a circuit file what was measured",
    "level": "tell wear from a leak by dated looks at the level and the pads",
    "plan": "plan the flush, bleed or fill of one circuit in numbers with bands",
    "air": "show where air can rest, and whether it climbs by itself",
    "feel": "tell from readings at the lever how much air is left",
    "schema": "print the JSON Schema of a circuit file or of a result",
    "demo": "plan every circuit of an invented workshop",
    "serve": "start the app on this machine, for its own browser and paired phones",
}

_HELP = f"""\
firmlever: plans the flush of a motorcycle's hydraulic brake or clutch,
in numbers with bands

usage: firmlever COMMAND ...

commands:
{chr(10).join(f"  {name:8}{words}" for name, words in COMMANDS.items())}

a first plan:
  firmlever new skerry.toml --class tourer --name "Skerry 1100"
  firmlever check skerry.toml
  firmlever plan skerry.toml --circuit front

what else a command takes:
  firmlever COMMAND --help

exit codes:
  0 done   1 own fault   2 bad input   3 a finding to look at

The machine's manual, local rules and licensed practice come first.
"""

_Argument = tuple[tuple[str, ...], dict[str, Any]]


def _file(words: str) -> _Argument:
    return ("file",), {"metavar": "FILE", "help": words}


def _option(name: str, metavar: str, words: str, default: str | None = None) -> _Argument:
    said = f"{words} (usually {default})" if default else words
    return (name,), {"metavar": metavar, "help": said, "default": default}


def _switch(name: str, words: str) -> _Argument:
    return (name,), {"action": "store_true", "help": words}


def _many(name: str, metavar: str, words: str) -> _Argument:
    said = f"{words}; may be given again"
    return (name,), {"metavar": metavar, "help": said, "action": "append", "default": []}


def _members(kinds: type[StrEnum]) -> str:
    return "|".join(kind.value for kind in kinds)


_FILE = _file("circuit file")
_JSON = _switch("--json", "one JSON document for other programs")
_WORDS = _option("--words", _members(WordSet), "British or American words", WordSet.UK.value)
_ARGUMENTS: dict[str, tuple[_Argument, ...]] = {
    "new": (
        _file("circuit file to write; nothing is overwritten"),
        (
            ("--class",),
            {
                "metavar": "CLASS",
                "dest": "bike_class",
                "required": True,
                "help": "class of the machine, see below",
            },
        ),
        _option("--name", "NAME", "what you call the machine (else the name of the file)"),
    ),
    "check": (_FILE, _JSON, _WORDS),
    "set": (
        _FILE,
        (
            ("values",),
            {
                "metavar": "KEY=VALUE",
                "nargs": "+",
                "help": "circuit/part/key and a number or LOW..HIGH",
            },
        ),
    ),
    "level": (
        _FILE,
        (("looks",), {"metavar": "LOOKS.csv", "help": "table with one look a row, see below"}),
        _option("--circuit", "NAME", "which circuit; may be left out where there is one"),
        _option("--ruler", "MM", "nine in ten levels are read as finely as this", "0.5"),
        _option("--gauge", "MM", "the same for the pads", "0.5"),
        _option("--marks", "MM", "distance from MIN to MAX (else what is usual)"),
        _option("--on", "DATE", "day of the judgement, as 2026-05-01 (else today)"),
        _option("--seed", "N", "where the draws start; the same seed, the same result", "1"),
        _JSON,
        _WORDS,
    ),
    "plan": (
        _FILE,
        _option("--circuit", "NAME", "which circuit; may be left out where there is one"),
        _option("--work", _members(Work), "what for: new fluid, air out, or dry", Work.FLUSH.value),
        _option("--method", _members(Method), "what moves the fluid", Method.LEVER.value),
        _option("--technique", "NAME", "way of working the method (else the first of it)"),
        _option("--target", "SHARE", "share of new fluid at which a step ends", "0.95"),
        _switch("--pistons-home", "the pistons are pushed home first"),
        _option("--fluid", "GRADE", "what goes in (else the first grade the file allows)"),
        _option("--workshop", "DEGC", "temperature of the workshop"),
        _option("--on", "DATE", "day of the job, as 2026-05-01 (else today)"),
        _option("--seed", "N", "where the draws start; the same seed, the same plan", "1"),
        _JSON,
        _WORDS,
    ),
    "air": (
        _FILE,
        _option("--circuit", "NAME", "which circuit; may be left out where there is one"),
        _option("--bars", "DEG", "how far the bars are turned, left above nought", "0"),
        _option("--lean", "DEG", "how far the machine leans, left above nought", "0"),
        _many("--lift", "PART=MM", "a part held so much higher, or lower below nought"),
        _many("--screw-up", "PART", "a caliper taken off and turned until its screw is on top"),
        _option("--on", "DATE", "day of the map, as 2026-05-01 (else today)"),
        _option("--seed", "N", "where the draws start; the same seed, the same map", "1"),
        _JSON,
        _WORDS,
    ),
    "feel": (
        _FILE,
        (("readings",), {"metavar": "READINGS", "help": "table of set,force_n,travel_mm,seconds"}),
        _option("--circuit", "NAME", "which circuit; may be left out where there is one"),
        _option("--after", "READINGS", "the same taken after the work; tells what left"),
        _option("--ruler", "MM", "finest step of the ruler or gauge", "1"),
        _option("--altitude", "M", "height of the bench above the sea", "0"),
        _option("--on", "DATE", "day of the test, as 2026-05-01 (else today)"),
        _JSON,
        _WORDS,
    ),
    "schema": ((("of",), {"metavar": "|".join(SCHEMAS), "help": "what the schema is of"}),),
    "demo": (_WORDS,),
    "serve": (
        _option("--port", "N", "where the app answers; 0 takes a free one", "8017"),
        _option("--home", "DIR", "folder the machines are kept in (else FIRMLEVER_HOME)"),
        (
            ("--lan",),
            {
                "metavar": "ADDRESS",
                "nargs": "?",
                "const": "",
                "help": "answer paired phones too, at this machine's address or the one given",
            },
        ),
    ),
}

_EXAMPLES = {
    "new": """\
examples:
  firmlever new skerry.toml --class tourer --name "Skerry 1100"
  firmlever new mule.toml --class off-road

classes:
  small, commuter, scooter, naked, sport, tourer, adventure, cruiser, off-road
""",
    "check": """\
examples:
  firmlever check skerry.toml
  firmlever check skerry.toml --json
""",
    "set": """\
examples:
  firmlever set skerry.toml front/master/bore_mm=16
  firmlever set skerry.toml "front/left caliper/volume_ml=11..15"

LOW..HIGH means: 1 in 20 would lie below LOW, and 1 in 20 above HIGH.
""",
    "level": """\
examples:
  firmlever level skerry.toml looks.csv --circuit front
  firmlever level skerry.toml looks.csv --circuit front --gauge 0.1 --json

columns of the table, in any order:
  on                         day of the look
  level_ml                   content; or level_share, 0 at MIN and 1 at MAX;
                             or below_max_mm
  pad_mm CALIPER             thinnest pad, or both as 3.2/3.6
  disc_mm CALIPER            thickness of the disc, where known
  topped_up_ml               poured in since the look before
  km, degc, stand, new_pads  where known; stand is level or side stand

exit code 3 means: a leak is likely, or something else needs attention
""",
    "plan": """\
examples:
  firmlever plan skerry.toml --circuit front
  firmlever plan skerry.toml --circuit front --pistons-home --target 0.9
  firmlever plan skerry.toml --circuit rear --method vacuum --words us
  firmlever plan skerry.toml --circuit clutch --work fill
  firmlever plan skerry.toml --circuit front --json > plan.json

exit code 3 means: the plan holds a finding that needs attention
""",
    "air": """\
examples:
  firmlever air skerry.toml --circuit front
  firmlever air skerry.toml --circuit front --bars 30 --lean 10
  firmlever air skerry.toml --circuit front --lift master=150
  firmlever air skerry.toml --circuit rear --screw-up caliper --json
""",
    "feel": """\
examples:
  firmlever feel skerry.toml before.csv --circuit front
  firmlever feel skerry.toml before.csv --after after.csv --circuit front
  firmlever feel skerry.toml gauge.csv --circuit front --ruler 0.2 --json

Hook a hanging scale 50 mm in from the lever's end and read a ruler there, the
force going up only. Sets: first (slow, after standing), pumped (three quick
pumps, the lever never let back), wedged (pads wedged against the disc), hold
and hold fast (one force for 30 to 60 seconds, after a slow or a quick pull).
exit code 3 means: there is air in it, or the lever sinks
""",
    "schema": """\
examples:
  firmlever schema circuit > circuit.schema.json
  firmlever schema plan > plan.schema.json
  firmlever schema lever > lever.schema.json
  firmlever schema level > level.schema.json
  firmlever schema air > air.schema.json
""",
    "demo": """\
example:
  firmlever demo
""",
    "serve": """\
examples:
  firmlever serve
  firmlever serve --port 8020 --home bench
  firmlever serve --lan

The app answers this machine only, and with --lan the phones that were paired
on it; nothing that is sent to them is encrypted. Without --home and
FIRMLEVER_HOME the machines are kept where this system keeps your data. A new
folder starts with an invented workshop.
""",
}


class _Parser(ArgumentParser):
    """A parser whose complaints are errors like all others."""

    def error(self, message: str) -> NoReturn:
        raise InputError(f"{message}; see {self.prog} --help")


def read_arguments(words: Sequence[str]) -> Namespace | str:
    """Read a command line; a text comes back when help or the version was asked for.

    Raises
    ------
    InputError
        When a word is unknown or one is missing.
    """
    if not words or words[0] in (*_HELP_WORDS, "help"):
        return _HELP
    if words[0] == "--version":
        return f"firmlever {__version__}\n"
    if words[0] not in COMMANDS:
        raise UnknownNameError("command", words[0], list(COMMANDS))
    parser, options = _parser(words[0])
    if not set(words).isdisjoint(_HELP_WORDS):
        return parser.format_help()
    found, unknown = parser.parse_known_args(words[1:], Namespace(command=words[0]))
    if unknown:
        raise UnknownNameError(f"{parser.prog} option", unknown[0], options)
    return found


def _parser(command: str) -> tuple[ArgumentParser, list[str]]:
    """Build the parser of one command, and list its options."""
    parser = _Parser(
        prog=f"firmlever {command}",
        description=COMMANDS[command],
        epilog=_EXAMPLES[command],
        formatter_class=lambda prog: RawDescriptionHelpFormatter(prog, width=COLUMNS),
        allow_abbrev=False,
        add_help=False,
    )
    arguments = _ARGUMENTS[command]
    for names, settings in arguments:
        parser.add_argument(*names, **settings)
    return parser, [name for names, _ in arguments for name in names if name.startswith("-")]
