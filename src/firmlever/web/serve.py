# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Runs the app on this machine, for this machine only."""

import errno
import socket
from collections.abc import Callable
from threading import Thread

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.plan import PlanRequest
from firmlever.errors import ImpossibleOptionError, PortTakenError
from firmlever.services.machines import furnish
from firmlever.services.planning import plan
from firmlever.web.app import DIST, create_app

LOOPBACK = "127.0.0.1"
_HIGHEST_PORT = 65535


def serve(open_workshop: Callable[[], KeptWorkshop], port: int, say: Callable[[str], None]) -> None:
    """Answer until somebody stops it; the machines are opened once the port is ours.

    Raises
    ------
    PortTakenError, ImpossibleOptionError
        When nothing can be answered at this port.
    """
    import uvicorn

    with _listening(port) as door:
        workshop = open_workshop()
        furnish(workshop.shelf)
        config = uvicorn.Config(
            create_app(workshop),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            ws="none",
        )
        Thread(target=_warm_up, args=[workshop], daemon=True).start()
        say(f"firmlever is at http://{LOOPBACK}:{door.getsockname()[1]}/ (stop it with Ctrl+C)")
        if not (DIST / "index.html").is_file():
            say("its pages are not built, only /api answers; python3 run.py builds them")
        uvicorn.Server(config).run(sockets=[door])


def _warm_up(workshop: KeptWorkshop) -> None:
    """Plan something once, so that the first plan somebody waits for is as quick as the next."""
    bike = workshop.files.demo()[0]
    request = PlanRequest(bike.circuits[0].name, workshop.clock.today())
    plan(bike, request, workshop.tables)


def _listening(port: int) -> socket.socket:
    """Take the port at once, so that a taken one is said before anything else happens."""
    if not 0 <= port <= _HIGHEST_PORT:
        raise ImpossibleOptionError("--port", f"{port}", f"it is at most {_HIGHEST_PORT}")
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((LOOPBACK, port))
        door.listen()
    except OSError as error:
        door.close()
        if error.errno == errno.EADDRINUSE:
            raise PortTakenError(port) from None
        reason = (error.strerror or "refused").lower()
        raise ImpossibleOptionError("--port", f"{port} ({reason})", "try one over 1024") from None
    return door
