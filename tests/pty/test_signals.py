"""What the system tells the program while somebody types: nothing is lost, and the terminal is as it was after it."""

from __future__ import annotations

import signal
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal

if TYPE_CHECKING:
    from .conftest import Open, Terminal

QUESTION = "Take your hands off"
WIPED, GIVEN_BACK = b"\x1b[2J", b"\x1b[?1049l"


def stopped(window: Terminal) -> None:
    """Read until the program stands still."""
    status = Path(f"/proc/{window.process}/status")
    window.read_for(0)
    while "State:\tT" not in status.read_text(encoding="utf-8"):
        window.read_for(0.01)


def threads(window: Terminal) -> int:
    """Return how many threads the program has."""
    return len([*Path(f"/proc/{window.process}/task").iterdir()])


@pytest.mark.parametrize("how", [signal.SIGSTOP, signal.SIGTSTP])
def test_a_program_that_was_stopped_goes_on(terminal: Open, how: signal.Signals) -> None:
    """All of the screen is there again, keys come in their order, and leaving leaves nothing behind."""
    window = terminal("walk", "tingle")
    window.wait_for(QUESTION, "q leave")
    before = threads(window)
    window.signal(how)
    stopped(window)
    window.screen.reset()
    seen = len(window.wire)
    window.signal(signal.SIGCONT)
    window.wait_until(lambda text: WIPED in window.wire[seen:] and QUESTION in text and "q leave" in text)
    for _ in range(5):
        for key in "1234567":
            window.type(key)
        window.wait_for("Number > 1234567")
        window.type("\x1b")
        window.wait_until(lambda text: "Number > 1" not in text)
    assert threads(window) == before
    window.type("q")
    window.wait_for("1 Leave")
    window.type("1\r")
    assert window.wait_for_exit() == Exit.CLEAN


@pytest.mark.parametrize(
    ("term", "how"),
    [("xterm-256color", signal.SIGTERM), ("vt100", signal.SIGTERM), ("xterm-256color", signal.SIGINT)],
)
def test_who_is_ended_gives_the_terminal_back(terminal: Open, term: str, how: signal.Signals) -> None:
    """Its modes and its page are as before; the program ends by that signal, and the answer is kept."""
    window = terminal("walk", "tingle", term=term)
    window.wait_for(QUESTION, "q leave")
    window.type("1\r")
    window.wait_for("How is the person", "q leave")
    assert not window.echoes
    seen = len(window.wire)
    window.signal(how)
    window.wait_until(lambda _: GIVEN_BACK in window.wire[seen:], "the terminal")
    assert window.echoes
    assert window.wait_for_end() == how
    assert b"\x1b[?7h" in window.wire[seen:]
    assert b"\x1b[?25h" in window.wire[seen:]
    journal = Journal.open(window.home)
    (kept,) = journal.unfinished()
    assert len(journal.load(kept.id).answers) == 1
    journal.close()


@pytest.mark.parametrize("term", ["vt100", "linux", "xterm-256color"])
def test_nothing_stays_on_a_terminal_of_one_page(terminal: Open, term: str) -> None:
    """After leaving, what the shell writes stands on an empty page, below what is said last."""
    window = terminal("walk", "tingle", term=term)
    window.wait_for(QUESTION, "q leave")
    window.type("q")
    window.wait_for("1 Leave")
    window.type("1\r")
    window.wait_for_exit()
    assert not any(words in window.text for words in (QUESTION, "emergency", "Number >"))


@pytest.mark.parametrize("between", [(30, 10), (80, 20)])
def test_a_window_that_is_back_at_its_size_is_drawn_anew(terminal: Open, between: tuple[int, int]) -> None:
    """However quickly: what the terminal kept of it at the size between is not relied on."""
    window = terminal("walk", "tingle")
    window.wait_for(QUESTION, "q leave")
    for _ in range(5):
        seen = len(window.wire)
        window.resize(*between)
        window.screen.reset()
        window.resize(80, 24)
        window.wait_until(lambda text, seen=seen: WIPED in window.wire[seen:] and QUESTION in text)  # type: ignore[misc]
        window.wait_for(QUESTION, "1 Done", "q leave")
