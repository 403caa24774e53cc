"""Over ssh with a key that may all: as somebody does on their own computer."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shorewalk.exits import Exit
from shorewalk.journal import Journal

from .conftest import PROGRAM

if TYPE_CHECKING:
    from ..bench.sshd import Sshd
    from .conftest import Login

ANSWERED = "1\n1\n"
"""Two answers to the questions of the tree about a tingle."""


def test_a_login_shell_and_the_program_typed_in_it(server: Sshd, login: Login) -> None:
    """Whoever logs in and types the command is asked what is going on; leaving leads back to the shell."""
    window = login("own")
    window.type(f"{PROGRAM}\r")
    window.wait_for("What is going on?", "! emergency")
    window.type("q\r")
    window.wait_until(lambda _: len(server.started()) == 1, "the shell alone")
    window.type("exit\r")
    assert window.wait_for_exit() == 0


def test_the_command_named_at_once_opens_the_app(login: Login) -> None:
    """`ssh -t rig shorewalk` opens the start, and a symptom behind it the first question."""
    window = login("own", "shorewalk walk zap")
    window.wait_for("Somebody felt a tingle", "Take your hands off everything metal")
    window.type("q")
    window.wait_for("1 Leave shorewalk")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN


def test_without_a_terminal_it_says_how_to_ask_for_one(server: Sshd) -> None:
    """`ssh rig shorewalk` has no terminal: the answer names -t, and nothing else has to be understood."""
    ended = server.run("own", "shorewalk")
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    assert "ssh -t HOST shorewalk" in ended.stderr
    assert len(ended.stderr.splitlines()) == 2


def test_plain_text_walks_without_a_terminal(server: Sshd) -> None:
    """Plain questions need none: answers come line by line, and the walk is kept when they end."""
    ended = server.run("own", "shorewalk walk zap --plain", given=ANSWERED)
    assert ended.returncode == Exit.UNFINISHED
    assert "Question 3," in ended.stdout
    assert "This walk is kept." in ended.stdout
    assert ended.stderr == ""


def test_a_walk_goes_from_one_machine_to_another_through_a_pipe(server: Sshd, tmp_path: Path) -> None:
    """What hand-over writes over ssh, take-over reads: every answer is there, and the way back does it too."""
    server.run("own", "shorewalk walk lights-dim --plain", given=ANSWERED)
    handed = server.run("own", "shorewalk hand-over last -")
    assert handed.returncode == Exit.CLEAN, handed.stderr
    environment = {**os.environ, "SHOREWALK_HOME": str(tmp_path)}
    taken = subprocess.run(
        [sys.executable, "-m", "shorewalk", "take-over", "-"],
        input=handed.stdout,
        capture_output=True,
        text=True,
        check=True,
        env=environment,
    )
    assert "2 answers" in taken.stdout
    journal = Journal.open(tmp_path)
    (kept,) = journal.unfinished()
    assert (kept.tree, kept.answers) == ("lights-dim", 2)
    journal.close()
    back = server.run("own", "shorewalk take-over -", given=handed.stdout)
    assert back.returncode == Exit.CLEAN
    assert "already, with the same answers" in back.stdout


def test_the_size_of_the_window_passes_through(login: Login) -> None:
    """A window made small amid a walk shows the same question, laid out for little room."""
    window = login("own", "shorewalk walk arrival")
    window.wait_for("Before you start", "Type a number, then Enter. Enter alone: what else you can do.")
    window.resize(40, 20)
    window.wait_for("Before you start", "Read on with Enter, to the end.")
    assert max(map(len, window.lines)) <= 40


def test_the_kind_of_terminal_arrives(login: Login) -> None:
    """A client that can draw nothing is asked in plain sentences."""
    window = login("own", "shorewalk walk arrival", term="dumb")
    window.wait_for("Question 1,", "1. Done")
    assert not window.said("\x1b[")
