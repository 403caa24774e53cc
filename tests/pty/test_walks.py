"""Whole walks in a real terminal, read back from its screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.exits import Exit
from shorewalk.folders import demo_data
from shorewalk.journal import Journal, meter_text
from shorewalk.marks import verdict_mark
from shorewalk.pages.ending import call_words
from shorewalk.pages.options import options_of
from shorewalk.pages.question import left_words, view_of
from shorewalk.replay import read_recorded
from shorewalk.walk.answers import Read
from shorewalk.walk.message import ending

from ..bench.walker import (
    asked,
    beginning,
    give_in_app,
    keys_in_plain,
    last_option,
    number_of,
    painted,
    read_on,
    steps,
)

if TYPE_CHECKING:
    from .conftest import Open

SIZES = [(80, 24), (40, 20)]
WALKS = ["arrival-30-good", "breaker-trips-too-much-running", "tingle-at-the-door"]


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("name", WALKS)
def test_a_walk_in_the_app_reaches_its_ending(terminal: Open, name: str, columns: int, rows: int) -> None:
    """Every question is on the screen before it is answered; then verdict, action, call and all the rest."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    meter = meter_text(recorded.meter)
    window = terminal("walk", recorded.walk, "--meter", meter, columns=columns, rows=rows)
    for walk, answer in steps(name):
        if answer is None:
            end = ending(walk)
            window.wait_for(verdict_mark(end.verdict).word.upper())
            said = read_on(window)
            for part in (end.safe_action, call_words(end), end.because, *end.not_ruled_out):
                assert beginning(part, 2) in said
            window.type("7\r")
            window.wait_for("1 Leave shorewalk")
            window.type("1\r")
        else:
            window.wait_until(painted(walk, columns), walk.now.text)
            give_in_app(window, walk, answer)
    assert window.wait_for_exit() == Exit.CLEAN


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("name", WALKS)
def test_a_walk_in_plain_text_reaches_its_ending(terminal: Open, name: str, columns: int, rows: int) -> None:
    """The same walks in plain sentences: the answers to choose from stand right above the prompt."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    meter = meter_text(recorded.meter)
    window = terminal("walk", recorded.walk, "--plain", "--meter", meter, columns=columns, rows=rows)
    for walk, answer in steps(name):
        if answer is None:
            window.wait_for("The record is kept as walk 1.", "q: leave. >")
            window.type("q\r")
        else:
            last = walk.now.step
            window.wait_until(asked(window, last), last)
            for option in options_of(walk.now.node, walk.library.site, {})[-2:]:
                assert f"{option.number}. {beginning(option.says, 2)}" in window.text
            window.type(f"{keys_in_plain(walk, answer)}\r")
    assert window.wait_for_exit() == Exit.CLEAN


def test_a_walk_goes_on_where_the_link_dropped(terminal: Open) -> None:
    """After a dropped link the start offers the walk first, and it stands where it was, every answer there."""
    (first, _), (second, _), (third, _) = list(steps("arrival-30-good"))[:3]
    window = terminal("walk", "arrival")
    window.wait_for(beginning(first.now.text))
    read_on(window)
    window.type("1\r")
    window.wait_for(beginning(second.now.text))
    window.type("1\r")
    window.wait_for(beginning(third.now.text))
    window.hang_up()
    again = terminal()
    again.wait_for("Go on with", "2 answers")
    again.type("1\r")
    again.wait_for(beginning(third.now.text), left_words(view_of(third), narrow=False))


def test_the_emergency_card_is_one_key_away(terminal: Open) -> None:
    """Its first line is on the screen after one key, from the start and amid typing a reading."""
    window = terminal(columns=40, rows=20)
    window.wait_for("! emergency")
    window.type("!")
    window.wait_for("Do not touch anybody", "in contact")


def test_a_dumb_terminal_gets_plain_sentences(terminal: Open) -> None:
    """Where the terminal can draw nothing, walking a symptom is plain without being asked."""
    window = terminal("walk", "arrival", term="dumb")
    window.wait_for("Question 1,", "1. Done")


def test_keys_that_come_in_one_burst_are_each_taken(terminal: Open) -> None:
    """A slow link holds keys back and lets them go at once; every answer still goes to its own question."""
    course = list(steps("arrival-30-good"))
    readings = [number for number, (_, answer) in enumerate(course) if isinstance(answer, Read)]
    first, last = readings[0], readings[4]
    window = terminal("walk", "arrival")
    window.wait_for(beginning(course[0][0].now.text))
    read_on(window)
    for walk, answer in course[:first]:
        window.wait_for(left_words(view_of(walk), narrow=False), beginning(walk.now.text), last_option(walk))
        read_on(window)
        assert answer is not None
        window.type(f"{number_of(walk, answer)}\r")
    window.wait_for(left_words(view_of(course[first][0]), narrow=False), "Meter shows")
    window.type(
        "".join(f"{answer.text}\r" for _, answer in course[first : last + 1] if isinstance(answer, Read))
    )
    after = course[last + 1][0]
    window.wait_for(left_words(view_of(after), narrow=False), beginning(after.now.text))
    journal = Journal.open(window.home)
    (kept,) = journal.unfinished()
    there = journal.load(kept.id)
    assert [one.answer for one in there.answers] == [one.answer for one in after.answers]
    journal.close()
