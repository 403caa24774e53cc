"""Links that drop, with a real sshd: nothing is left, nothing is lost, and the walk stands first at the next login."""

from __future__ import annotations

import os
import signal
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from shorewalk.pages.question import left_words, view_of

from ..bench.drops import dropped
from ..bench.guide import SECTION, hurried, key_options, own_accounts, shared_account, silent_seconds
from ..bench.kills import TAKEN_UP
from ..bench.sshd import NoSshd
from ..bench.walker import beginning, give_in_app, painted, read_on, steps
from .conftest import PROGRAM, USER, started

if TYPE_CHECKING:
    from ..bench.sshd import Sshd
    from ..bench.terminal import Terminal
    from .conftest import Login

WALK = "tingle-at-the-door"
SLACK = 4.0
"""Seconds that a busy computer may need besides."""


def drop(server: Sshd, window: Terminal, how: str) -> None:
    """Cut the link: the client killed, its terminal closed, or the part of sshd that serves it killed."""
    if how == "client killed":
        window.kill()
    elif how == "terminal closed":
        window.hang_up()
    else:
        os.kill(server.session_of(server.started()[-1]), signal.SIGKILL)


@pytest.mark.parametrize("how", ["client killed", "terminal closed", "session killed"])
@pytest.mark.parametrize(
    ("key", "words"), [("own", ("shorewalk",)), ("ann", ())], ids=["own login", "shared login"]
)
def test_a_walk_in_the_app_outlives_the_link(
    server: Sshd, login: Login, key: str, words: tuple[str, ...], how: str
) -> None:
    """Two answers, then the link drops: the program is gone, and the next login offers the walk first, both there."""
    course = list(steps(WALK))
    window = login(key, *words)
    window.wait_for("What is going on?", "! emergency")
    window.type("2\r" if "Go on with" not in window.text else "1\r")
    for walk, answer in course[:2]:
        window.wait_until(painted(walk, 80), walk.now.text)
        assert answer is not None
        give_in_app(window, walk, answer)
    third = course[2][0]
    window.wait_until(painted(third, 80), third.now.text)
    drop(server, window, how)
    assert server.wait_until_alone() == []
    again = login(key, *words)
    again.wait_for("Go on with", "Somebody felt a tingle or a shock 2 answers")
    again.type("1\r")
    again.wait_for(beginning(third.now.text), left_words(view_of(third), narrow=False))
    for _ in range(2):
        again.type("b")
        again.wait_for("One answer taken back.")
    again.wait_until(painted(course[0][0], 80))


@pytest.mark.parametrize("how", ["client killed", "session killed"])
@pytest.mark.parametrize(
    ("key", "words"), [("own", ("shorewalk walk tingle --plain",)), ("bob", ("walk tingle --plain",))]
)
def test_a_walk_in_plain_text_outlives_the_link(
    server: Sshd, login: Login, key: str, words: tuple[str, ...], how: str
) -> None:
    """The same in plain sentences: it is offered before the first question, and goes on at the second."""
    window = login(key, *words)
    window.wait_until(lambda text: text.endswith(">"))
    window.type("2\r" if "left unfinished" in window.text else "r\r")
    window.wait_until(lambda text: window.said("Question 1,") and text.endswith(">"))
    window.type("1\r")
    window.wait_until(lambda text: window.said("Question 2,") and text.endswith(">"))
    drop(server, window, how)
    assert server.wait_until_alone() == []
    again = login(key, *words)
    again.wait_for("1. Go on with it (1 answer,")
    again.type("1\r")
    again.wait_until(lambda text: again.said("Question 2,") and text.endswith(">"))


def test_a_dropped_link_ends_what_was_typed_in_a_login_shell(server: Sshd, login: Login) -> None:
    """The shell stands between: it ends, and the program with it."""
    window = login("own")
    window.type(f"{PROGRAM} walk arrival\r")
    window.wait_for("Before you start")
    read_on(window)
    window.kill()
    assert server.wait_until_alone() == []


def test_no_traceback_comes_of_it(server: Sshd, login: Login) -> None:
    """What the program says beside the walk goes to a file here, and stays empty when the link drops."""
    window = login("own", f"{PROGRAM} walk arrival --plain 2> $HOME/said")
    window.wait_until(lambda text: text.endswith(">"))
    window.kill()
    assert server.wait_until_alone() == []
    assert (server.account / "said").read_text() == ""


@pytest.mark.parametrize("lines", [shared_account(USER), own_accounts(USER)], ids=["shared", "own accounts"])
def test_the_lines_end_a_silent_link_within_the_minute_that_is_said(lines: list[str]) -> None:
    """The README's own numbers come to no more than it says."""
    assert silent_seconds(lines) <= 60
    assert "so that a dead link ends within a minute" in SECTION


def test_a_link_that_falls_silent_ends(tmp_path: Path) -> None:
    """A client that is gone without a word, as where a phone loses its network: sshd asks, and ends the program.

    The README's lines, as many questions, a second between them: it ends when that many are worked out to be over.
    """
    lines = hurried(shared_account(USER))
    assert "    ClientAliveInterval 1" in lines
    for server in started(tmp_path, {"ann": key_options("ann")}, lines):
        window = server.login("ann", "walk", "zap")
        window.wait_for("Take your hands off")
        os.kill(window.process, signal.SIGSTOP)
        assert server.wait_until_alone(silent_seconds(lines) + SLACK) == []
        window.kill()


def test_links_that_drop_at_any_moment_lose_nothing(tmp_path: Path) -> None:
    """With each key, in the app and in plain text: no answer is lost, twice or changed, nothing is left of a login.

    `python -m bench.drops` (in `tests/`) does the same by the hundred.
    """
    try:
        count, wrong = dropped(1, seed=3, folder=tmp_path)
    except NoSshd as reason:
        pytest.skip(str(reason))
    assert wrong == []
    assert count["kills"] >= 4
    assert count[TAKEN_UP] >= 4
    assert count["processes left over"] == 0
