"""What a terminal shows of commands that take their time or ask something: legible on a phone, and left quietly."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.starting import start

if TYPE_CHECKING:
    from pathlib import Path

    from .conftest import Open


@pytest.mark.parametrize("columns", [45, 80])
def test_a_trial_shows_how_far_it_is_on_one_line(terminal: Open, columns: int) -> None:
    """The line is drawn over, and nothing in it is shown as what cannot be seen."""
    window = terminal("trial", "tingle", "--variants", "1", columns=columns, rows=150)
    shown = window.wait_for("In use under a danger that nobody names: 0.")
    assert window.wait_for_exit() == Exit.CLEAN
    (line,) = [line for line in shown.splitlines() if "Trying tingle" in line]
    assert re.search(r"\[#+\] +100%", line)
    assert "?" not in line


def test_a_question_that_is_left_leaves_the_prompt_below_it(terminal: Open, tmp_path: Path) -> None:
    """On a phone no word of it is broken, and Ctrl-C deletes nothing, says nothing and ends its line."""
    journal = Journal.open(tmp_path / "home")
    journal.begin(start("tingle"))
    window = terminal("log", "--delete-all", columns=45, rows=25)
    shown = window.wait_for("y/N")
    words = shown.split()
    assert "site?" in words
    window.type("\x03")
    assert window.wait_for_exit() == Exit.UNFINISHED
    assert "Traceback" not in "\n".join(window.screen.display)
    assert window.screen.cursor.x == 0
    assert len(journal.walks()) == 1
    journal.close()
