"""The window changes its size at the worst moment, and what else a terminal may send by itself: nothing is lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.journal import Journal
from shorewalk.tree.model import Measure
from shorewalk.walk.answers import Read

from ..bench.walker import give_in_app, painted, read_on, steps

if TYPE_CHECKING:
    from shorewalk.walk.walk import Walk

    from .conftest import Open, Terminal

COURSE = "lights-dim-battery-empty"
SIZES = ((40, 16), (120, 40), (20, 5), (200, 60), (1, 1), (24, 9), (80, 24))
TOO_SMALL = ((20, 5), (1, 1))
OPENED = {
    "p": "BLACK",
    "!": "Do not touch",
    "?": "How to answer",
    "k": "which lights",
    "\r": "What would you like",
}
"""What a key opens at a reading, and words of it."""
WIPED = b"\x1b[2J"
"""What is written before all of a screen."""
FOCUS_GONE, FOCUS_BACK = "\x1b[O", "\x1b[I"


def at_reading(window: Terminal) -> Walk:
    """Answer up to the first reading; return the walk as it stands there, and the next question."""
    for walk, answer in steps(COURSE):
        window.wait_until(painted(walk, 80), walk.now.text)
        if isinstance(walk.now.node, Measure):
            return walk
        assert answer is not None
        read_on(window)
        give_in_app(window, walk, answer)
    raise AssertionError(COURSE)


def takes_reading(window: Terminal, walk: Walk, rest: str) -> None:
    """Type the rest of 12.5 V; it is taken, and the walk goes on."""
    window.type(f"{rest}\r")
    after = walk.answer(Read("12.5"))
    window.wait_until(painted(after, 80), after.now.text)
    journal = Journal.open(window.home)
    (kept,) = journal.unfinished()
    assert journal.load(kept.id).answers[-1].answer == Read("12.5")
    journal.close()


def test_half_a_number_outlives_every_size(terminal: Open) -> None:
    """What is typed stands there at every size, and in one too small it waits."""
    window = terminal("walk", "lights-dim")
    walk = at_reading(window)
    window.type("12.")
    window.wait_for("Meter shows > 12.")
    for size in SIZES:
        window.resize(*size)
        if size == (20, 5):
            window.wait_for("Too small a window")
        elif size not in TOO_SMALL:
            window.wait_for("Meter shows > 12.", "! emergency")
    takes_reading(window, walk, "5")


@pytest.mark.parametrize("key", OPENED, ids=["picture", "emergency", "help", "known", "menu"])
def test_what_is_open_outlives_every_size(terminal: Open, key: str) -> None:
    """It is drawn for each size; closed in another one than it was opened in, the question is drawn for that."""
    window = terminal("walk", "lights-dim")
    walk = at_reading(window)
    read_on(window)
    window.type(key)
    window.wait_for(OPENED[key])
    for size in SIZES[:-1]:
        window.resize(*size)
        if size == (20, 5):
            window.wait_for("Do not touch" if key == "!" else "Too small a window")
        elif size not in TOO_SMALL:
            window.wait_for(OPENED[key], "! emergency")
    window.resize(40, 20)
    window.wait_for(OPENED[key], "! emergency")
    window.type("\x1b")
    window.wait_until(lambda text: painted(walk, 40)(text) and window.trimmed[19].endswith("q leave"))
    window.resize(80, 24)
    window.wait_until(painted(walk, 80))
    takes_reading(window, walk, "12.5")


def test_a_terminal_that_tells_of_its_focus_does_no_harm(terminal: Open) -> None:
    """Another window is looked at and this one again, with half a number typed: it stands there and counts."""
    window = terminal("walk", "lights-dim")
    walk = at_reading(window)
    window.type(f"12{FOCUS_GONE}")
    window.wait_for("Meter shows > 12")
    window.type(FOCUS_BACK)
    window.type(".")
    window.wait_for("Meter shows > 12.")
    takes_reading(window, walk, "5")


def test_the_mouse_is_left_to_the_terminal(terminal: Open) -> None:
    """Nothing asks for the mouse, nor for the shape of its pointer: people select text with it."""
    window = terminal("walk", "lights-dim")
    at_reading(window)
    for mode in (9, 1000, 1002, 1003, 1005, 1006, 1015, 1016):
        assert f"\x1b[?{mode}h".encode() not in window.wire
    assert b"\x1b]22;" not in window.wire
    assert b"\x1b[?2004h" in window.wire


def cells_of(window: Terminal) -> list[list[tuple[object, ...]]]:
    """Return what can be seen: of a blank its ground alone."""
    screen = window.screen
    return [
        [
            (" ", cell.bg, cell.reverse) if (cell := screen.buffer[y][x]).data == " " else tuple(cell)
            for x in range(screen.columns)
        ]
        for y in range(screen.lines)
    ]


def settle(window: Terminal) -> None:
    """Type a digit and take it back: what was to be drawn before that is drawn then."""

    def typed() -> bool:
        return any(line.endswith("> 9") for line in window.trimmed)

    window.type("9")
    window.wait_until(lambda _: typed(), "9")
    window.type("\x7f")
    window.wait_until(lambda _: not typed(), "an empty line")


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (40, 20)])
@pytest.mark.parametrize("term", ["xterm-256color", "linux", "vt100"])
def test_what_was_sent_piece_by_piece_is_the_whole(
    terminal: Open, term: str, columns: int, rows: int
) -> None:
    """Walking, opening cards and closing them leaves each cell as it is when all of it is drawn anew."""
    window = terminal("walk", "lights-dim", term=term, columns=columns, rows=rows)

    def drawn_anew(*wanted: str) -> None:
        window.wait_for(*wanted)
        settle(window)
        before = cells_of(window)
        seen = len(window.wire)
        window.type("\x0c")
        window.wait_until(lambda _: WIPED in window.wire[seen:], "all of it")
        assert cells_of(window) == before

    for walk, answer in steps(COURSE):
        window.wait_until(painted(walk, columns), walk.now.text)
        if answer is None:
            break
        read_on(window)
        for key, words in (("!", "EMERGENCY"), ("?", "How to answer")):
            window.type(key)
            drawn_anew(words)
            window.type("\x1b")
            window.wait_for("q leave")
        read_on(window)
        drawn_anew("! emergency", "q leave")
        give_in_app(window, walk, answer)


def test_all_of_it_is_drawn_anew(terminal: Open) -> None:
    """Where something else wrote over the screen, Ctrl+L mends it."""
    window = terminal("walk", "tingle")
    window.wait_for("Take your hands off")
    window.screen.reset()
    assert "Take your hands off" not in window.text
    window.type("\x0c")
    window.wait_for("Take your hands off", "! emergency")
