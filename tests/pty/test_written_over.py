"""Something else writes to the same terminal: the next question stands there as if nothing had."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from ..bench.slow import PAGES
from ..bench.walker import give_in_app, painted, read_on, steps
from .test_resized import cells_of

if TYPE_CHECKING:
    from .conftest import Open, Terminal

COURSE = "tingle-at-the-door"
NEWS = "\n\nNews for everybody on this computer:\n\n118.5 things will happen in 5 minutes\n\n 0\n"
BESIDE = 4
"""Answers after which something stands beside the page."""
LINE = 3
"""Rows from the one that is typed into to the last."""


def shown(window: Terminal, columns: int) -> list[str]:
    """Return the page and what stands in the line typed into, as they are seen."""
    typed = len(window.lines) - LINE - 1
    return [*(line[: PAGES[columns]].rstrip() for line in window.lines[2:typed]), window.lines[typed]]


@pytest.mark.parametrize("columns", PAGES)
@pytest.mark.parametrize("term", ["xterm-256color", "linux", "vt100"])
def test_the_next_question_covers_it(terminal: Open, term: str, columns: int) -> None:
    """Over other lines, and with its own moved up by them, each next page and the line below it are whole."""
    clean, other = (terminal("walk", "tingle", term=term, columns=columns, rows=24) for _ in range(2))
    for walk, answer in steps(COURSE):
        clean.wait_until(painted(walk, columns), walk.now.text)
        if answer is None:
            break
        other.wait_until(lambda _: shown(other, columns) == shown(clean, columns), shown(clean, columns))
        other.type("\x0c")
        other.wait_for("q leave")
        for window in (clean, other):
            read_on(window)
        other.scribble(NEWS)
        for window in (clean, other):
            give_in_app(window, walk, answer)


@pytest.mark.parametrize(("columns", "rows", "later"), [(80, 24, 11), (40, 36, 3)])
@pytest.mark.parametrize("term", ["xterm-256color", "vt100"])
def test_the_next_questions_cover_what_is_around_them(
    terminal: Open, term: str, columns: int, rows: int, later: int
) -> None:
    """Some of it comes with each: after so many answers nothing of the news is left anywhere."""
    clean, other = (terminal("walk", "arrival", term=term, columns=columns, rows=rows) for _ in range(2))
    for answered, (walk, answer) in enumerate(steps("arrival-30-good"), start=-BESIDE):
        clean.wait_until(painted(walk, columns), walk.now.text)
        other.wait_until(lambda _: shown(other, columns) == shown(clean, columns), shown(clean, columns))
        if answered == later:
            break
        if not answered:
            other.scribble(NEWS)
            assert cells_of(other) != cells_of(clean)
        assert answer is not None
        for window in (clean, other):
            give_in_app(window, walk, answer)
    other.wait_until(lambda _: cells_of(other) == cells_of(clean), clean.lines)
