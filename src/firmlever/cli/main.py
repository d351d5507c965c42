# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The entry: runs a command and turns whatever happens into an exit code."""

import os
import sys
from argparse import Namespace
from collections.abc import Callable, Sequence

from firmlever.bootstrap import Workshop, open_workshop
from firmlever.cli.arguments import read_arguments
from firmlever.cli.screen import Screen
from firmlever.errors import InputError

DONE = 0
OWN_FAULT = 1
STOPPED = 130


def run(
    words: Sequence[str],
    screen: Screen,
    build: Callable[[], Workshop] = open_workshop,
) -> int:
    """Run one command line and return its exit code; no traceback gets out."""
    try:
        arguments = read_arguments(words)
        if isinstance(arguments, str):
            screen.document(arguments)
            return DONE
        return _obey(arguments, screen, build)
    except InputError as error:
        screen.complain(str(error))
        return error.exit_code
    except KeyboardInterrupt:
        return STOPPED
    except BrokenPipeError:
        raise
    except Exception as fault:  # noqa: BLE001 - the last line of defence: nobody reads a traceback
        screen.complain(_own_fault(fault, traced=screen.traces))
        return OWN_FAULT


def main() -> int:
    """Run the command line of this process."""
    screen = Screen(sys.stdout, sys.stderr, os.environ)
    try:
        return run(sys.argv[1:], screen)
    except BrokenPipeError:
        # whoever read us has had enough; the interpreter must not complain when it flushes
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE


def _obey(arguments: Namespace, screen: Screen, build: Callable[[], Workshop]) -> int:
    from firmlever.cli.commands import COMMANDS

    return COMMANDS[arguments.command](arguments, build(), screen)


def _own_fault(fault: Exception, traced: bool) -> str:
    what = f"{type(fault).__name__}: {fault}" if str(fault) else type(fault).__name__
    line = f"firmlever met a fault of its own ({' '.join(what.split())})"
    if not traced:
        return f"{line}; FIRMLEVER_TRACE=1 shows where, please report it with your circuit file"
    from traceback import format_exception

    return "".join([*format_exception(fault), line])
