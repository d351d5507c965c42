# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Runs the app on this machine: for itself only, or for paired phones of its network as well."""

import errno
import socket
from collections.abc import Callable
from contextlib import ExitStack
from ipaddress import AddressValueError, IPv4Address
from threading import Thread

from firmlever.bootstrap import KeptWorkshop
from firmlever.domain.plan import PlanRequest
from firmlever.errors import ImpossibleOptionError, PortTakenError
from firmlever.services.machines import furnish
from firmlever.services.planning import plan
from firmlever.web.app import DIST, create_app
from firmlever.web.doors import LOOPBACK

_HIGHEST_PORT = 65535
_MOST_CONNECTIONS = 200
# an address set aside for documents (RFC 5737): no packet is sent to it
_FAR_AWAY = ("192.0.2.1", 9)


def serve(
    open_workshop: Callable[[], KeptWorkshop],
    port: int,
    say: Callable[[str], None],
    lan: str | None = None,
) -> None:
    """Answer until somebody stops it; the machines are opened once the port is ours.

    Parameters
    ----------
    open_workshop
        Opens what is kept.
    port
        Where to answer; 0 takes a free one.
    say
        Tells the person at the terminal a line.
    lan
        The address of this machine at which paired phones are answered too; "" finds the
        one it has; None answers no phone.

    Raises
    ------
    PortTakenError, ImpossibleOptionError
        When nothing can be answered at this port or address.
    """
    import uvicorn

    with ExitStack() as doors:
        own = doors.enter_context(_listening(LOOPBACK, port))
        port = own.getsockname()[1]
        sockets, lan_home = [own], None
        if lan is not None:
            address = lan_address(lan)
            sockets.append(doors.enter_context(_listening(address, port)))
            lan_home = f"http://{address}:{port}/"
        workshop = open_workshop()
        furnish(workshop.shelf)
        config = uvicorn.Config(
            create_app(workshop, lan_home=lan_home),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            ws="none",
            limit_concurrency=_MOST_CONNECTIONS,
        )
        Thread(target=_warm_up, args=[workshop], daemon=True).start()
        say(f"firmlever is at http://{LOOPBACK}:{port}/ (stop it with Ctrl+C)")
        if lan_home:
            say(f"paired phones reach it at {lan_home} (not encrypted: use your own network only)")
        if not (DIST / "index.html").is_file():
            say("its pages are not built, only /api answers; python3 run.py builds them")
        uvicorn.Server(config).run(sockets=sockets)


def lan_address(asked: str) -> str:
    """Return the address for phones: the one asked for, or the one this machine has.

    Raises
    ------
    ImpossibleOptionError
        When it is none of a private network.
    """
    try:
        address = IPv4Address(asked or _own_address())
    except AddressValueError:
        raise ImpossibleOptionError(
            "--lan", asked, "it is an address of this machine such as 192.168.1.20"
        ) from None
    if address.is_loopback or address.is_unspecified or not address.is_private:
        raise ImpossibleOptionError(
            "--lan", f"{address}", "phones are answered on one address of a private network only"
        )
    return str(address)


def _own_address() -> str:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_FAR_AWAY)
        except OSError:
            raise ImpossibleOptionError(
                "--lan", "used now", "this machine is on no network; join one first"
            ) from None
        return str(probe.getsockname()[0])


def _warm_up(workshop: KeptWorkshop) -> None:
    """Plan something once, so that the first plan somebody waits for is as quick as the next."""
    bike = workshop.files.demo()[0]
    request = PlanRequest(bike.circuits[0].name, workshop.clock.today())
    plan(bike, request, workshop.tables)


def _listening(address: str, port: int) -> socket.socket:
    """Take the port at once, so that a taken one is said before anything else happens."""
    if not 0 <= port <= _HIGHEST_PORT:
        raise ImpossibleOptionError("--port", f"{port}", f"it is at most {_HIGHEST_PORT}")
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((address, port))
        door.listen()
    except OSError as error:
        door.close()
        if error.errno == errno.EADDRINUSE:
            raise PortTakenError(port) from None
        if error.errno == errno.EADDRNOTAVAIL:
            raise ImpossibleOptionError(
                "--lan", address, "it is not an address of this machine"
            ) from None
        reason = (error.strerror or "refused").lower()
        raise ImpossibleOptionError("--port", f"{port} ({reason})", "try one over 1024") from None
    return door
