"""Plain text in a real terminal: where nothing can be drawn, on a phone, after a dropped link, with a clumsy hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit

if TYPE_CHECKING:
    from .conftest import Open

ESCAPE = "\x1b"


@pytest.mark.parametrize("term", ["dumb", "unknown"])
def test_a_terminal_that_draws_nothing_begins_in_plain_text(terminal: Open, term: str) -> None:
    """A bare `shorewalk` says what there is, one types own words, and no terminal code is written."""
    window = terminal(columns=40, rows=20, term=term)
    window.wait_for("Somebody is hurt or cannot let go.", "Enter: 19 more")
    window.type("tingle\r")
    window.wait_for("Question 1,", "1. Done")
    window.type("start\r")
    window.wait_for("Act now:", "Enter: 19 more")
    window.type("q\r")
    assert window.wait_for_exit() == Exit.CLEAN
    assert not window.said(ESCAPE)


def test_the_whole_way_from_the_start_to_practice(terminal: Open) -> None:
    """`shorewalk --plain` on a phone: to the sites, to the meter, back; no code is written here either."""
    window = terminal("--plain", columns=40, rows=20)
    window.wait_for("Enter: 19 more")
    window.type("practice\r")
    window.wait_for("next fair sites.")
    window.type("1\r")
    window.wait_for("1. Done", "0. I can't do that")
    window.type("u\r")
    window.wait_for("Display: dark.")
    window.type("1\r")
    window.wait_for("Dial: AC volts.")
    window.type("0\r")
    window.wait_for("Read these cautions aloud")
    window.type("q\r")
    assert window.wait_for_exit() == Exit.UNFINISHED
    assert not window.said(ESCAPE)


def test_a_walk_is_first_after_a_dropped_link(terminal: Open) -> None:
    """Every answer is there, and its next question is asked."""
    window = terminal("--plain")
    window.wait_for("Enter: 19 more")
    window.type("tingle\r")
    window.wait_for("Question 1,")
    window.type("1\r")
    window.wait_for("Question 2,")
    window.hang_up()
    again = terminal("--plain")
    again.wait_for("1. Somebody felt a tingle or a shock. 1 answer, left")
    again.type("1\r")
    again.wait_for("Question 2,")


@pytest.mark.parametrize(("keys", "code"), [("\x03", Exit.UNFINISHED), ("\x04", Exit.UNFINISHED)])
def test_ctrl_c_and_ctrl_d_leave_and_say_how_to_go_on(terminal: Open, keys: str, code: Exit) -> None:
    """No traceback, and the answer is kept."""
    window = terminal("--plain")
    window.wait_for("Enter: 19 more")
    window.type("tingle\r")
    window.wait_for("Question 1,")
    window.type("1\r")
    window.wait_for("Question 2,")
    window.type(keys)
    assert window.wait_for_exit() == code
    assert "shorewalk walk --resume 1 --plain" in window.text
    assert "Traceback" not in window.text


def test_a_line_that_is_far_too_long_is_told_and_the_next_one_counts(terminal: Open) -> None:
    """5,000 letters pasted by mistake: a terminal hands over what it holds, and none of it is an answer."""
    window = terminal("walk", "tingle", "--plain")
    window.wait_for("Question 1,", "0. I can't do that")
    window.type("1" * 3_000 + "\r")
    window.wait_for("That line is too long")
    window.type("1\r")
    window.wait_for("Question 2,")


def test_a_window_that_grows_narrow_gets_narrow_lines(terminal: Open) -> None:
    """Who turns the phone in mid-walk has the next question whole, folded between words."""
    window = terminal("walk", "tingle", "--plain")
    window.wait_for("Question 1,", "0. I can't do that")
    window.resize(30, 24)
    window.type("r\r")
    window.wait_for_line("left. Hands off.")
