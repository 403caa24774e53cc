"""The shared login over a real sshd, with the README's own lines: what it gives, and what it refuses."""

from __future__ import annotations

import shlex
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.guard.asking import ALLOWED
from shorewalk.guard.command import NO_TERMINAL
from shorewalk.journal import Journal
from shorewalk.reach import FETCH, GO_ON, NOT_HERE

from ..bench.walker import beginning, give_in_app, keys_in_plain, painted, steps

if TYPE_CHECKING:
    from ..bench.sshd import Sshd
    from ..bench.terminal import Terminal
    from .conftest import Login

ENDS = "tingle-at-the-door"


def walk_to_the_end(window: Terminal) -> None:
    """Walk a recorded walk in the app, to its ending."""
    for walk, answer in steps(ENDS):
        window.wait_until(painted(walk, 80), walk.now.text)
        if answer is not None:
            give_in_app(window, walk, answer)


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


def test_no_port_is_forwarded(server: Sshd) -> None:
    """A shared login is no way into the network behind it: sshd itself refuses, and says so in its log."""
    door = f"127.0.0.1:{server.port}"
    ended = subprocess.run(server.ssh("ann", "-W", door), capture_output=True, text=True, check=False)
    assert (ended.returncode, ended.stdout) == (255, "")
    assert "refused local port forward" in server.log


@pytest.mark.parametrize("asked", [(), ("walk", "zap"), ("walk", "zap", "--plain"), ("practice",)])
def test_a_terminal_is_wanted(server: Sshd, asked: tuple[str, ...]) -> None:
    """Nothing is read from a pipe: without a terminal one line says how to get one."""
    ended = server.run("ann", *asked, given="1\n1\n")
    assert (ended.returncode, ended.stdout, ended.stderr) == (Exit.USAGE, "", f"{NO_TERMINAL}\n")


def test_help_is_to_be_had(server: Sshd) -> None:
    """`help` says what may be asked for, without a terminal too."""
    ended = server.run("ann", "help")
    assert ended.returncode == Exit.CLEAN
    assert "walk --resume last" in ended.stdout


def test_two_people_on_one_account_see_their_own_walks_alone(server: Sshd, login: Login) -> None:
    """What Cleo answers is in her folder; neither Bob nor the account's owner is offered it."""
    (first, answer), *_ = steps("arrival-30-good")
    window = login("cleo", "walk", "arrival")
    window.wait_until(painted(first, 80))
    assert answer is not None
    give_in_app(window, first, answer)
    window.wait_until(lambda text: beginning(first.now.text) not in text)
    window.type("q")
    window.wait_for("1 Leave shorewalk", "2 To the list")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN
    journal = Journal.open(server.walks / "people" / "cleo")
    assert [(entry.tree, entry.answers) for entry in journal.unfinished()] == [("arrival", 1)]
    journal.close()
    for key, words in (("bob", ()), ("own", ("shorewalk",))):
        other = login(key, *words)
        assert "We just arrived and want to plug in 1 answer" not in other.wait_for(
            "What is going on?", "! emergency"
        )
        other.hang_up()
    own = server.run("own", "shorewalk log")
    assert "We just arrived" not in own.stdout
    again = login("cleo")
    again.wait_for("Go on with", "We just arrived and want to plug in 1 answer")


def test_what_is_saved_lies_in_the_own_folder(server: Sshd, login: Login) -> None:
    """Record, page to print and exports go to one place; the person is told a name and who can fetch it."""
    window = login("ann", "walk", "tingle")
    walk_to_the_end(window)
    window.type("s")
    window.wait_for("Saved as shorewalk-tingle-", ".md and shorewalk-tingle-", FETCH)
    window.type("l")
    window.wait_for("Log", "walk")
    for key, ending in (("e", ".csv"), ("j", ".json")):
        window.type(key)
        window.wait_for("Saved as shorewalk-log-", f"{ending}. {FETCH}")
    assert str(server.account) not in window.text
    saved = server.walks / "people" / "ann" / "saved"
    assert sorted(path.suffix for path in saved.iterdir()) == [".csv", ".json", ".md", ".pdf"]
    assert {path.stat().st_mode & 0o077 for path in (saved, *saved.iterdir())} == {0}
    assert (next(saved.glob("*.pdf"))).read_bytes().startswith(b"%PDF-")


def test_no_file_is_taken_over_from_a_path(login: Login) -> None:
    """The start neither lists `o` nor asks for a file: it says whom to ask."""
    window = login("bob")
    said = window.wait_for("What is going on?", "! emergency")
    assert "hand over" not in said
    window.type("o\r")
    window.wait_for(NOT_HERE)
    window.type("?\r")
    assert "another machine" not in window.wait_for("Help", "Esc")


def test_plain_text_takes_no_path_either(login: Login) -> None:
    """The start in plain sentences names no file, and says whom to ask where one is asked for."""
    window = login("bob", "shorewalk", "--plain")
    window.wait_until(lambda text: text.endswith(">"))
    window.type("o\r")
    window.wait_until(lambda text: window.said(NOT_HERE[:40]) and text.endswith(">"))
    assert not window.said("Take over:")


def test_a_walk_that_is_handed_over_lies_in_the_own_folder(server: Sshd, login: Login) -> None:
    """`o` within a walk saves it for whoever keeps the computer, and names no path."""
    first, second = list(steps(ENDS))[:2]
    window = login("bob", "walk", "tingle")
    window.wait_until(painted(first[0], 80))
    assert first[1] is not None
    give_in_app(window, first[0], first[1])
    window.wait_until(painted(second[0], 80))
    window.type("o")
    said = window.wait_for("Handed over", "1 Leave shorewalk")
    assert FETCH in said
    assert "/" not in said.partition("is in ")[2].partition(FETCH)[0]
    assert list((server.walks / "people" / "bob" / "saved").glob("tingle-*"))


def test_practice_with_its_meter_works_behind_the_fence(login: Login) -> None:
    """A make-believe pedestal is worked out, its meter reads, and the code of a message is drawn."""
    window = login("ann", "practice", "creek-1")
    window.wait_for("Before you start", "A practice walk is not kept.")
    window.type("u")
    window.wait_for("The meter in your hands")
    window.type("dial ac black N red L\r")
    window.wait_for("black at N, red at L", "dial: AC volts")


@pytest.mark.parametrize("front", ["app", "plain"])
def test_keys_that_stop_programs_do_nothing(server: Sshd, login: Login, front: str) -> None:
    """Ctrl-Z and Ctrl-backslash neither stop nor end it: the next answer is taken as ever."""
    window = login("cleo", "walk", "zap", *(["--plain"] if front == "plain" else []))
    if front == "plain":
        window.wait_until(lambda text: text.endswith(">"))
    else:
        window.wait_for("Take your hands off")
    (process,) = server.started()
    window.type("\x1a\x1c")
    if front == "plain":
        window.type("\r?\r")
    else:
        window.type("?")
    window.wait_for("not sure")
    state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    assert state in "RS"


def test_ctrl_c_leaves_plain_text_with_all_kept(login: Login) -> None:
    """Ctrl-C says that the walk is kept, and ends it without a traceback."""
    course = list(steps("breaker-trips-too-much-running"))
    window = login("cleo", "walk", "breaker-trips", "--plain")
    window.wait_until(lambda text: window.said("Question 1,") and text.endswith(">"))
    assert course[0][1] is not None
    window.type(f"{keys_in_plain(course[0][0], course[0][1])}\r")
    window.wait_until(lambda text: window.said("Question 2,") and text.endswith(">"))
    window.type("\x03")
    assert window.wait_for_exit() == Exit.UNFINISHED
    assert window.said(GO_ON)
    assert not window.said("Traceback")


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


def test_a_command_forced_by_the_configuration_is_as_guarded(trusting: Sshd) -> None:
    """Where sshd's own configuration forces the command, what was asked for is refused in the same way."""
    ended = trusting.run("own", "sh")
    assert (ended.returncode, ended.stdout) == (Exit.USAGE, "")
    assert ALLOWED in ended.stderr
