"""What sshd lets through to a forced command, by the README's lines, where it lets all else through."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from ..bench.guide import key_options, own_accounts, shared_account
from ..bench.sshd import Sshd
from .conftest import USER, started

ALL = ["AcceptEnv *", "X11Forwarding yes"]
"""What stands before the README's lines here."""
SHOWS = "env"
"""The forced command here: it shows what reached it."""
SENT = (
    "PYTHONINSPECT",
    "PYTHONSTARTUP",
    "PYTHONPATH",
    "PYTHONWARNINGS",
    "BASH_ENV",
    "ENV",
    "LD_LIBRARY_PATH",
    "TMPDIR",
)
FORWARDED = ("SSH_AUTH_SOCK", "DISPLAY")
WAYS = {
    "shared account": (key_options("ann", SHOWS), shared_account(USER)),
    "own accounts": ("", own_accounts(USER, SHOWS)),
    "neither": (f'command="{SHOWS}"', []),
}


@pytest.fixture(scope="module", params=WAYS)
def way(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[str, Sshd]]:
    """A kind of login, and an sshd that has it."""
    before, lines = WAYS[request.param]
    for server in started(tmp_path_factory.mktemp("sshd"), {"ann": before}, [*ALL, *lines]):
        yield request.param, server


@pytest.fixture
def agent(tmp_path: Path) -> Iterator[Path]:
    """An agent without keys, at the client's end; where it listens."""
    door = tmp_path / "agent"
    with subprocess.Popen(["ssh-agent", "-D", "-a", door], stdout=subprocess.PIPE) as running:
        assert running.stdout is not None
        assert running.stdout.readline()  # it listens
        yield door
        running.terminate()


def reached(server: Sshd, agent: Path, script: Path) -> dict[str, str]:
    """Send what could do harm, ask for an agent and for windows to be forwarded; return what reached the command."""
    sent = " ".join(f"{name}={script}" for name in SENT)
    command = server.ssh("ann", "-A", "-Y", "-o", f"SetEnv={sent} LANG=C")
    ended = subprocess.run(
        [word.replace("IdentityAgent=none", f"IdentityAgent={agent}") for word in command],
        env={**os.environ, "DISPLAY": "127.0.0.1:9"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=True,
    )
    return dict(line.split("=", 1) for line in ended.stdout.splitlines() if "=" in line)


def holds(server: Sshd) -> set[str]:
    """Return what sshd says that holds for who logs in: each line as `sshd -T` writes it."""
    who = f"user={server.user},host=127.0.0.1,addr=127.0.0.1"
    asked = [server._program, "-T", "-f", str(server.folder / "sshd_config"), "-C", who]
    return {*subprocess.run(asked, capture_output=True, text=True, check=True).stdout.splitlines()}


def test_no_variable_and_no_forwarding_reaches_the_program(
    way: tuple[str, Sshd], agent: Path, tmp_path: Path
) -> None:
    """A language arrives; nothing that a shell, Python or the system's loader reads; no agent, no windows."""
    kind, server = way
    script = tmp_path / "script"
    script.write_text(f"touch {tmp_path}/ran\n")
    there = reached(server, agent, script)
    assert there["LANG"] == "C"
    if kind == "neither":
        windows = ["DISPLAY"] if shutil.which("xauth") else []
        own = {name for name in SENT if name in os.environ}  # of whoever runs the tests, and sshd hands it on
        assert {*SENT, "SSH_AUTH_SOCK", *windows} - own <= there.keys()
    else:
        assert not {name for name in SENT if there.get(name) == str(script)}
        assert not {*FORWARDED} & there.keys()
        assert not (tmp_path / "ran").exists()


def test_it_is_no_way_into_the_network_behind_it(way: tuple[str, Sshd]) -> None:
    """A port that only this computer sees is not reached through it: sshd itself refuses, and says so in its log."""
    kind, server = way
    door = f"127.0.0.1:{server.port}"
    ended = subprocess.run(
        server.ssh("ann", "-W", door), stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False
    )
    assert ended.stdout.startswith("SSH-2.0") == (kind == "neither")
    assert (ended.returncode == 255) == (kind != "neither")
    assert ("refused local port forward" in server.log) == (kind != "neither")


def test_no_port_is_opened_here_for_there(way: tuple[str, Sshd]) -> None:
    """A port that would be listened to on this computer, and lead to the client's, is refused."""
    kind, server = way
    asked = ("-o", "ExitOnForwardFailure=yes", "-R", f"0:127.0.0.1:{server.port}")
    ended = subprocess.run(server.ssh("ann", *asked), capture_output=True, text=True, check=False)
    assert (ended.returncode == 0) == (kind == "neither")
    assert ("remote port forwarding failed" in ended.stderr) == (kind != "neither")


def test_no_tunnel_and_no_file_of_the_account_is_run(way: tuple[str, Sshd]) -> None:
    """What sshd itself says that holds for these accounts: neither `~/.ssh/rc` nor a tunnel, nor a key less."""
    kind, server = way
    now = holds(server)
    wanted = {
        "permituserrc no",
        "permittunnel no",
        "disableforwarding yes",
        "allowagentforwarding no",
        "x11forwarding no",
    }
    if kind == "neither":
        assert not wanted - {"permittunnel no"} & now
    else:
        assert wanted <= now
        assert {line for line in now if line.startswith("acceptenv")} == {
            "acceptenv LANG",
            "acceptenv LC_*",
        }
    assert ("authenticationmethods publickey" in now) == (kind == "shared account")
