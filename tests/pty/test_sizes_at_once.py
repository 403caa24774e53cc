"""The window changes while the program cannot look: what is drawn in the end is what the last size asks for."""

from __future__ import annotations

import signal
import sys
from typing import TYPE_CHECKING, Any

import pytest

from .test_resized import cells_of
from .test_signals import stopped

if TYPE_CHECKING:
    from .conftest import Open, Terminal

QUESTION, LEFT, END = "Take your hands off", "12 left", "q leave"
ANEW = "\x0c"
WIPED = b"\x1b[2J"
TIMES = 10
LARGER = ((80, 40), (120, 40), (100, 24))
SMALLER = ((30, 10), (60, 20), (1, 1))
BACK_AS_IT_IS_READ = """
import fcntl, shutil, struct, sys, termios
read = shutil.get_terminal_size
def read_late(*how):
    size = read(*how)
    if size == (80, 40):
        fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    return size
shutil.get_terminal_size = read_late
from shorewalk.cli import main
sys.exit(main())
"""
"""Runs the program in a window that is 80 by 24 again as soon as it has read that it is 80 by 40."""


def at_question(terminal: Open, columns: int = 80, rows: int = 24, **how: Any) -> Terminal:
    window = terminal("walk", "tingle", columns=columns, rows=rows, **how)
    window.wait_for(QUESTION, LEFT, "Number >", END)
    return window


def wait_for_cells(window: Terminal, cells: list[list[tuple[object, ...]]]) -> None:
    """Read until all of the screen is as it should be, and nothing is as it should not."""
    window.wait_until(lambda _: cells_of(window) == cells, "the screen as it was")


@pytest.mark.parametrize("between", [(80, 40), (100, 24), (30, 10)])
def test_a_window_that_is_at_once_back_is_as_it_was(terminal: Open, between: tuple[int, int]) -> None:
    """However quickly the second size follows the first: the one told last is the one there is."""
    window = at_question(terminal)
    before = cells_of(window)
    for _ in range(TIMES):
        window.screen.reset()  # whatever is seen from here on was drawn for this round
        for size in (between, (80, 24)) * 2:
            window.resize(*size)
        seen = len(window.wire)
        window.wait_until(lambda _, seen=seen: WIPED in window.wire[seen:])  # type: ignore[misc]
        wait_for_cells(window, before)


def test_a_size_that_comes_as_the_last_is_read(terminal: Open) -> None:
    """A signal comes in the middle of following the one before it; the older size is not taken for the newer."""
    window = at_question(terminal, through=(sys.executable, "-c", BACK_AS_IT_IS_READ))
    before = cells_of(window)
    seen = len(window.wire)
    window.resize(80, 40)
    window.wait_until(lambda _: WIPED in window.wire[seen:])
    window.screen.resize(24, 80)
    window.type(ANEW)
    wait_for_cells(window, before)


def test_the_last_of_many_sizes_is_drawn(terminal: Open) -> None:
    """Dragged through every size without a pause, it ends in what a window that began at the last one shows."""
    meant = cells_of(at_question(terminal, 100, 30))
    window = at_question(terminal)
    for _ in range(3):
        for columns in range(20, 120, 3):
            window.resize(columns, columns // 3)
        window.resize(100, 30)
        wait_for_cells(window, meant)


def test_a_size_that_comes_while_a_drawing_is_half_sent(terminal: Open) -> None:
    """Nobody reads, so the program waits in the middle of a drawing: the rest of it is drawn over."""
    meant = cells_of(at_question(terminal, 40, 20))
    window = at_question(terminal)
    window.type(ANEW * 60)  # more than any system keeps for who does not read
    seen = len(window.wire)
    window.wait_until(lambda _: WIPED in window.wire[seen:])
    window.resize(40, 20)
    wait_for_cells(window, meant)


def test_a_window_told_to_be_as_it_is_is_drawn_anew(terminal: Open) -> None:
    """Who attaches to a session often tells it of a size that it has: what was written over is mended."""
    window = at_question(terminal)
    before = cells_of(window)
    window.screen.reset()
    window.signal(signal.SIGWINCH)
    wait_for_cells(window, before)


@pytest.mark.parametrize("last", [(80, 24), (40, 20)])
def test_a_window_that_changes_while_the_program_stands_still(terminal: Open, last: tuple[int, int]) -> None:
    """It goes on in the size there is then, whatever sizes there were meanwhile."""
    meant = cells_of(at_question(terminal, *last))
    window = at_question(terminal)
    for _ in range(3):
        window.signal(signal.SIGSTOP)
        stopped(window)
        for size in (*LARGER, *SMALLER, last):
            window.resize(*size)
        window.screen.reset()
        window.signal(signal.SIGCONT)
        wait_for_cells(window, meant)
