# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The command that starts the app, as a process: its address, its folder, a taken port."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from firmlever.errors import ImpossibleOptionError, PortTakenError
from firmlever.web.doors import LOOPBACK
from firmlever.web.serve import lan_address, serve


@contextmanager
def serving(*words: str, **environ: str) -> Iterator[str]:
    """Start the app on a free port, hand out its address, and stop it as a hand would."""
    with subprocess.Popen(
        [sys.executable, "-m", "firmlever", "serve", "--port", "0", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, **environ},
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        line = process.stdout.readline()
        found = re.fullmatch(r"firmlever is at (http://127\.0\.0\.1:\d+/) \(.*\)\n", line)
        assert found, line + process.stderr.read()
        yield found[1]
        process.send_signal(signal.SIGINT)
        assert process.wait(10) == 130
        assert "Traceback" not in process.stderr.read()


def ask(address: str, path: str, method: str = "GET") -> Any:
    with urllib.request.urlopen(urllib.request.Request(address + path, method=method)) as answer:
        return json.loads(answer.read() or b"null")


def test_a_new_folder_starts_with_the_demo_and_keeps_what_is_done(tmp_path: Path) -> None:
    home = tmp_path / "bench"
    with serving("--home", str(home)) as address:
        machines = ask(address, "api/machines")["machines"]
        assert len(machines) == 4
        ask(address, f"api/machines/{machines[0]['id']}?read_revision=1", "DELETE")
    with serving(FIRMLEVER_HOME=str(home)) as address:
        kept = ask(address, "api/machines")["machines"]
    assert kept == machines[1:]


def test_a_taken_port_is_one_clear_line(tmp_path: Path) -> None:
    with socket.create_server((LOOPBACK, 0)) as other:
        port = other.getsockname()[1]
        done = subprocess.run(
            [
                *(sys.executable, "-m", "firmlever", "serve"),
                *("--port", str(port), "--home", str(tmp_path / "bench")),
            ],
            capture_output=True,
            text=True,
            check=False,
        )
    assert (done.returncode, done.stdout, done.stderr) == (2, "", f"{PortTakenError(port)}\n")
    assert not (tmp_path / "bench").exists(), "nothing was opened"


@pytest.mark.parametrize("port", [65536, 10**9])
def test_a_port_that_cannot_be(port: int) -> None:
    with pytest.raises(ImpossibleOptionError) as refused:
        serve(pytest.fail, port, pytest.fail)
    assert str(refused.value) == f"--port cannot be {port}; it is at most 65535"


def test_a_port_that_is_not_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    class Barred(socket.socket):
        def bind(self, _address: object) -> None:
            raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("firmlever.web.serve.socket.socket", Barred)
    with pytest.raises(ImpossibleOptionError) as refused:
        serve(pytest.fail, 80, pytest.fail)
    assert str(refused.value) == ("--port cannot be 80 (permission denied); try one over 1024")


def test_only_this_machine_is_listened_to(tmp_path: Path) -> None:
    with serving("--home", str(tmp_path)) as address:
        port = int(address.rsplit(":", 1)[1].strip("/"))
        with socket.socket() as elsewhere:
            # Linux takes all of 127/8 for this machine; only the one address is listened to
            assert elsewhere.connect_ex(("127.0.0.2", port)) != 0


def test_the_first_plan_is_made_before_anybody_waits_for_it(tmp_path: Path) -> None:
    from firmlever.bootstrap import open_kept_workshop
    from firmlever.web.serve import _warm_up

    workshop = open_kept_workshop(str(tmp_path))
    _warm_up(workshop)
    assert workshop.machines.all() == ()


# Over the network


@pytest.fixture
def own_address() -> str:
    """The address of this machine on its network."""
    try:
        return lan_address("")
    except ImpossibleOptionError:
        pytest.skip("NOT TRIED OVER A NETWORK: this machine is on none")


def refusal_at(address: str, path: str) -> tuple[int, Any]:
    with pytest.raises(urllib.error.HTTPError) as refused:
        ask(address, path)
    answer = refused.value
    with answer:
        return answer.code, json.loads(answer.read())["error"]


def test_a_phone_is_paired_over_the_network_and_taken_off(tmp_path: Path, own_address: str) -> None:
    with serving("--lan", "--home", str(tmp_path)) as here:
        port = here.rsplit(":", 1)[1]
        there = f"http://{own_address}:{port}"
        assert refusal_at(there, "api/machines") == (401, "not-paired")
        offer = ask(here, "api/pairing", "POST")
        assert offer["address"] == f"{there}pair"
        claim = urllib.request.Request(
            f"{there}api/pairing/claim",
            json.dumps({"code": offer["code"], "name": "red"}).encode(),
            {"content-type": "application/json", "origin": there.rstrip("/")},
        )
        with urllib.request.urlopen(claim) as answer:
            cookie = answer.headers["set-cookie"].split(";")[0]
            phone = json.loads(answer.read())
        paired = urllib.request.Request(f"{there}api/serving", headers={"cookie": cookie})
        with urllib.request.urlopen(paired) as answer:
            assert json.loads(answer.read())["level"] == "open page"
        ask(here, f"api/phones/{phone['id']}", "DELETE")
        with pytest.raises(urllib.error.HTTPError, match="401") as refused:
            urllib.request.urlopen(paired)
        refused.value.close()


def test_without_the_option_the_network_is_not_answered(tmp_path: Path, own_address: str) -> None:
    with serving("--home", str(tmp_path)) as address:
        assert ask(address, "api/heartbeat") == {"ok": True}
        port = int(address.rsplit(":", 1)[1].strip("/"))
        with socket.socket() as elsewhere:
            assert elsewhere.connect_ex((own_address, port)) != 0


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("here", "here; it is an address of this machine such as 192.168.1.20"),
        ("8.8.8.8", "8.8.8.8; phones are answered on one address of a private network only"),
        ("0.0.0.0", "0.0.0.0; phones are answered on one address of a private network only"),
        ("127.0.0.1", "127.0.0.1; phones are answered on one address of a private network only"),
        ("10.255.255.1", "10.255.255.1; it is not an address of this machine"),
    ],
)
def test_an_address_that_cannot_be(asked: str, said: str) -> None:
    with pytest.raises(ImpossibleOptionError) as refused:
        serve(pytest.fail, 0, pytest.fail, asked)
    assert str(refused.value) == f"--lan cannot be {said}"


def test_a_machine_on_no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    class Alone(socket.socket):
        def connect(self, _address: object) -> None:
            raise OSError(101, "Network is unreachable")

    monkeypatch.setattr("firmlever.web.serve.socket.socket", Alone)
    with pytest.raises(ImpossibleOptionError) as refused:
        lan_address("")
    assert str(refused.value) == (
        "--lan cannot be used now; this machine is on no network; join one first"
    )
