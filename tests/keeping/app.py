# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The app as a process that may be killed, on a door that outlives it; run as a program.

One interpreter has everything imported and forks a server for each line it reads, so that a
new one answers within milliseconds; the database is opened by each server for itself. It
says "child" with the number of the process, and "gone" when that has ended.
"""

import os
import socket
import sys
from pathlib import Path
from secrets import token_bytes, token_hex

import uvicorn
from fastapi import FastAPI

from firmlever.bootstrap import KeptWorkshop, open_workshop
from firmlever.store.database import database_on
from firmlever.store.database.opening import FILE_NAME, sqlite_engine
from firmlever.web.app import create_app


def app_on(folder: Path) -> FastAPI:
    """The app on a database that is there; nothing of it is opened yet."""
    bare, kept = open_workshop(), database_on(sqlite_engine(folder / FILE_NAME), FILE_NAME)
    workshop = KeptWorkshop(
        bare.files,
        bare.tables,
        bare.clock,
        kept.machines,
        kept.jobs,
        kept.phones,
        kept.levers,
        kept.looks,
        new_id=lambda: token_hex(6),
        chance=token_bytes,
    )
    return create_app(workshop)


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def main() -> None:
    app = app_on(Path(sys.argv[1]))
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
    door = socket.create_server(("127.0.0.1", 0), backlog=64)
    say(f"port {door.getsockname()[1]}")
    for _ in sys.stdin:
        child = os.fork()
        if not child:
            server.run(sockets=[door])
            os._exit(0)
        say(f"child {child}")
        os.waitpid(child, 0)
        say("gone")


if __name__ == "__main__":
    main()
