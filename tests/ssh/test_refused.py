"""The shared login over a real sshd, with the README's own lines: what it refuses."""

from __future__ import annotations

import shlex
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.guard.asking import ALLOWED, HELP
from shorewalk.guard.command import NO_TERMINAL

if TYPE_CHECKING:
    from ..bench.sshd import Sshd
    from .conftest import Login

ENDS = "tingle-at-the-door"


@pytest.mark.parametrize(
    "asked", ["sh", "cat /etc/passwd", "shorewalk lint", "walk zap --jsonl", "walk a.yaml"]
)
def test_other_commands_are_refused_in_one_line(server: Sshd, asked: str) -> None:
    """Whatever else is asked for does nothing but say what may be asked for."""
    ended = server.run("ann", shlex.quote(asked))
    assert (ended.returncode, ended.stdout) == (Exit.USAGE, "")
    (line,) = ended.stderr.splitlines()
    assert line.endswith(ALLOWED)


def test_no_file_is_copied(server: Sshd, tmp_path: Path) -> None:
    """Neither the old nor the new way of copying files gets one in or out; with a key that may all, both do."""
    mine, there = tmp_path / "mine", server.account / "there"
    mine.write_text("mine")
    for how in (["-O"], []):
        for key, copied in (("own", True), ("ann", False)):
            command = server.scp(key, *how)
            host = command.pop()
            for ways in ((str(mine), f"{host}:{there}"), (f"{host}:{mine}", str(tmp_path / "theirs"))):
                ended = subprocess.run([*command, *ways], capture_output=True, check=False)
                assert (ended.returncode == 0) == copied
            assert there.exists() == (tmp_path / "theirs").exists() == copied
            there.unlink(missing_ok=True)
            (tmp_path / "theirs").unlink(missing_ok=True)


@pytest.mark.parametrize("asked", [(), ("walk", "zap"), ("walk", "zap", "--plain"), ("practice",)])
def test_a_terminal_is_wanted(server: Sshd, asked: tuple[str, ...]) -> None:
    """Nothing is read from a pipe: without a terminal one line says how to get one."""
    ended = server.run("ann", *asked, given="1\n1\n")
    assert (ended.returncode, ended.stdout, ended.stderr) == (Exit.USAGE, "", f"{NO_TERMINAL}\n")


@pytest.mark.parametrize("front", ["app", "plain"])
def test_keys_that_stop_programs_do_nothing(server: Sshd, login: Login, front: str) -> None:
    """Ctrl-Z and Ctrl-backslash neither stop nor end it, and no palette opens: what comes next is taken as ever."""
    window = login("cleo", "walk", "zap", *(["--plain"] if front == "plain" else []))
    if front == "plain":
        window.wait_until(lambda text: text.endswith(">"))
    else:
        window.wait_for("Take your hands off")
    (process,) = server.started()
    window.type("\x1a\x1c" if front == "plain" else "\x1a\x1c\x10")
    if front == "plain":
        window.type("\r?\r")
    else:
        window.type("?")
    window.wait_for("not sure")
    state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    assert state in "RS"


def test_the_environment_of_a_client_changes_nothing(trusting: Sshd, tmp_path: Path) -> None:
    """Even where sshd lets all of it through: no log is written, and walks stay where they are."""
    log, elsewhere = tmp_path / "log", tmp_path / "walks"
    sent = {
        "TEXTUAL_LOG": log,
        "TEXTUAL_DEBUG": 1,
        "TEXTUAL_SCREENSHOT_LOCATION": tmp_path,
        "TEXTUAL_SCREENSHOT": 1,
        "TEXTUAL_DRIVER": "no_such:Driver",
        "SHOREWALK_HOME": elsewhere,
        "XDG_DATA_HOME": elsewhere,
        "COLUMNS": 20,
    }
    options = ("-tt", "-o", "SetEnv=" + " ".join(f"{name}={value}" for name, value in sent.items()))
    window = trusting.login("own", options=options)
    window.wait_for("What is going on?", "! emergency", "12 We are plugged in")
    window.type("2\r")
    window.wait_for("Take your hands off")
    window.type("1\r")
    window.wait_for("How is the person")
    window.hang_up()
    assert trusting.wait_until_alone() == []
    assert list(tmp_path.iterdir()) == []
    assert (trusting.walks / "people" / trusting.user / "walks.sqlite3").exists()


def test_what_python_reads_from_the_environment_does_nothing(trusting: Sshd, tmp_path: Path) -> None:
    """Let through all the same, it opens no prompt behind the program and runs no file before it."""
    ran = tmp_path / "ran"
    runs = f"open({str(ran)!r}, 'w')\n"
    for name in ("startup", "sitecustomize", "usercustomize", "category"):
        (tmp_path / f"{name}.py").write_text(runs)
    sent = {
        "PYTHONINSPECT": 1,
        "PYTHONSTARTUP": tmp_path / "startup.py",
        "PYTHONPATH": tmp_path,
        "PYTHONWARNINGS": "ignore::category.Category",
        "PYTHONUSERBASE": tmp_path,
    }
    options = ("-o", "SetEnv=" + " ".join(f"{name}={value}" for name, value in sent.items()))
    ended = subprocess.run(
        [*trusting.ssh("own", *options), "help"], input=runs, capture_output=True, text=True, check=False
    )
    assert (ended.returncode, ended.stdout, ended.stderr) == (Exit.CLEAN, f"{HELP}\n", "")
    assert not ran.exists()


def test_a_command_forced_by_the_configuration_is_as_guarded(trusting: Sshd) -> None:
    """Where sshd's own configuration forces the command, what was asked for is refused in the same way."""
    ended = trusting.run("own", "sh")
    assert (ended.returncode, ended.stdout) == (Exit.USAGE, "")
    assert ALLOWED in ended.stderr
