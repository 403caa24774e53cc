"""Whole walks in a real terminal, read back from its screen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from operator import ne
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
from shorewalk.screens.base import NARROW
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Answer, Read, Running, Unable
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from .conftest import Open, Terminal

SIZES = [(80, 24), (40, 20)]
WALKS = ["arrival-30-good", "breaker-trips-too-much-running", "tingle-at-the-door"]


def steps(name: str) -> Iterator[tuple[Walk, Answer | None]]:
    """Yield a recorded walk at every question with its answer, then at its ending."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        yield walk, answer
        walk = walk.answer(answer)
    yield walk, None


def asked(window: Terminal, question: int) -> Callable[[str], bool]:
    """Return whether this question was asked and an answer is waited for."""
    return lambda text: window.said(f"Question {question},") and text.endswith(">")


def number_of(walk: Walk, answer: Answer) -> str:
    """Return the number of an answer, as both front ends list them."""
    options = options_of(walk.now.node, walk.library.site, {})
    return str(next(option.number for option in options if option.answer == answer))


def keys_in_app(walk: Walk, answer: Answer) -> list[str]:
    """Return what somebody types in the app, a line at a time."""
    match answer:
        case Read(text):
            return [text]
        case Unable():
            return ["x"]
        case Running(loads):
            options = options_of(walk.now.node, walk.library.site, {})
            numbers = {option.load: str(option.number) for option in options if option.load}
            return [*(numbers[load] for load, count in loads for _ in range(count)), str(len(numbers) + 1)]
    return [number_of(walk, answer)]


def beginning(text: str, count: int = 3) -> str:
    """Return the first words, which stand on one line however narrow the window."""
    return " ".join(text.split()[:count])


def keys_in_plain(walk: Walk, answer: Answer) -> str:
    """Return the line that somebody types in plain text."""
    match answer:
        case Read(text):
            return text
        case Unable():
            return "x"
        case Running(loads):
            options = options_of(walk.now.node, walk.library.site, {})
            numbers = {option.load: str(option.number) for option in options}
            return " ".join(numbers[load] for load, count in loads for _ in range(count))
    return number_of(walk, answer)


def last_option(walk: Walk) -> str:
    """Return the answer that stands last on the page; the prompt where one is typed."""
    for option in reversed(options_of(walk.now.node, walk.library.site, {})):
        return f"{option.number} {beginning(option.says, 2)}"
    return "Meter shows"


def shows(every: Iterable[str], one: Iterable[str]) -> Callable[[str], bool]:
    """Return whether a screen's text has all of `every` and one of `one`."""
    return lambda text: all(part in text for part in every) and any(part in text for part in one)


def read_on(window: Terminal) -> str:
    """Press Enter as long as there is more below; return all that was on the screen."""
    said = window.text
    while "more below" in window.text:
        before = window.text
        window.type("\r")
        said += " " + window.wait_until(partial(ne, before), "what is below")
    return said


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
            head = left_words(view_of(walk), narrow=columns < NARROW), beginning(walk.now.text)
            ends = ("more below", last_option(walk))
            window.wait_until(shows(head, ends), (head, ends))
            if walk.now.cautions_full:
                read_on(window)
            *ticks, last = keys_in_app(walk, answer)
            for keys in ticks:  # each is seen to be taken before the next one is typed
                window.type(keys)
                window.wait_for_line(f"Number > {keys}")
                window.type("\r")
                window.wait_for_line("Number >")
            window.type(last if last == "x" else f"{last}\r")
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
