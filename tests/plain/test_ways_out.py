"""Words that leave, go back or are nothing here are heard alike at every question, and nothing typed is lost."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.heard_words import LEAVING
from shorewalk.journal import Journal, Keeper
from shorewalk.plain.moving import Place, converse
from shorewalk.plain.session import Session
from shorewalk.plain.talk import AGAIN, END_AGAIN, Talk
from shorewalk.plain.unfinished import WHICH
from shorewalk.plain.voice import CARD_ENDS, Voice
from shorewalk.reach import NOT_HERE, Reach, narrow, reach
from shorewalk.starting import start

from .conftest import EVENING, Hear, Keep

LATER = "shorewalk walk --resume 1 --plain"
LEFT = "A walk of this was left unfinished:"


def offered(session: Session) -> Place:
    """Begin the tree of which a walk was left."""
    talk = Talk(start("voltage-low"), Keeper(session.journal), session=session)
    return lambda: talk.walk_through(offer=True)


@pytest.fixture
def left(keep: Keep) -> int:
    """A walk that was left after one answer."""
    return keep(EVENING, "2024-05-02T18:00:00Z", answers=1)


@pytest.mark.parametrize("typed", [*sorted(LEAVING), None])
@pytest.mark.usefixtures("left")
def test_at_the_offer_of_a_walk_one_can_leave(hear: Hear, typed: str | None) -> None:
    """And the end of the input is no other: the walk that was left is kept, and how it goes on is said."""
    heard = hear(*filter(None, [typed]), at=offered)
    assert LATER in heard.words
    assert "Nothing of this walk is kept" not in heard.words
    assert heard.code == Exit.UNFINISHED


@pytest.mark.usefixtures("left")
def test_an_interrupt_there_says_the_same(journal: Journal) -> None:
    """Ctrl-C at the offer loses nothing and says so."""

    class Hands(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override] # noqa: ARG002
            raise KeyboardInterrupt

    out = io.StringIO()
    session = Session(Voice(Hands(), out, 400), journal)
    assert converse(offered(session), session) == Exit.UNFINISHED
    assert LATER in out.getvalue()


@pytest.mark.parametrize("typed", ["back", "b", "start"])
@pytest.mark.usefixtures("left")
def test_at_the_offer_one_gets_to_the_start(hear: Hear, typed: str) -> None:
    """The walk stands there first."""
    assert "1. The voltage is too low. 1 answer, left" in hear(typed, at=offered).said


@pytest.mark.parametrize("typed", ["", "help", "?", "0", "not sure", "3"])
def test_at_the_offer_nothing_else_begins_anything(
    hear: Hear, journal: Journal, left: int, typed: str
) -> None:
    """Enter alone neither: it is said again what there is, and that 2 is for whoever is not sure."""
    said = hear(typed, at=offered).said
    assert said.count(WHICH) == 2
    assert "Question" not in said
    assert journal.entry(left).answers == 1


@pytest.mark.parametrize("typed", ["q", "quit", "leave", "exit", "close", "back", "b", "start"])
@pytest.mark.parametrize("asked", ["o", "m", "the voltage is too low"])
def test_a_word_for_leaving_leaves_the_question(hear: Hear, tmp_path: Path, asked: str, typed: str) -> None:
    """For a file, for the meter, for the site: it is none of these, and the start comes again."""
    heard = hear(asked, typed, "log")
    assert "No walk is kept yet." in heard.words
    assert "cannot be read" not in heard.words
    assert "is no meter" not in heard.words
    assert not [*(tmp_path / "here").iterdir()]


@pytest.mark.parametrize("typed", ["exit", "leave", "close", "back", "b"])
def test_a_page_of_the_log_is_closed_by_all_of_them(hear: Hear, keep: Keep, typed: str) -> None:
    """As by `q`."""
    keep(EVENING, "2024-05-02T12:00:00Z")
    assert "The log is closed." in hear("log", typed).said


def test_help_is_no_file(hear: Hear) -> None:
    """Where a file is asked for a word for the program is told apart from one."""
    said = hear("o", "help").words
    assert '"help" is a word for shorewalk itself' in said
    assert "cannot be read" not in said


@pytest.mark.parametrize("lines", [("k", "back"), ("k", "b"), ("k", "1", "back")])
def test_back_from_what_is_known_takes_no_answer_back(
    hear: Hear, journal: Journal, keep: Keep, lines: tuple[str, ...]
) -> None:
    """In the list, and while an answer is changed, `back` is back to the question."""
    number = keep(EVENING, "2024-05-02T18:00:00Z", answers=2)

    def on(session: Session) -> Place:
        return Talk(
            session.journal.load(number), Keeper(session.journal, number), session=session
        ).walk_through

    assert "Type the number of an answer to change it." in hear(*lines, at=on).said
    assert journal.entry(number).answers == 2


@pytest.mark.parametrize("typed", ["o", "hand over", "Take Over"])
def test_a_shared_login_bars_the_words_too(hear: Hear, tmp_path: Path, typed: str) -> None:
    """Not the key alone: neither looks for a tree of that name, which would begin a walk."""
    before = reach()
    narrow(Reach("ann", tmp_path))
    try:
        said = hear(typed).words
    finally:
        narrow(before)
    assert NOT_HERE in said
    assert "may mean" not in said
    assert "One question at a time." not in said


def test_what_is_no_number_of_the_menu_is_heard(hear: Hear, journal: Journal) -> None:
    """An answer in words counts; a number that the menu has not is told, for it may be meant for the menu."""
    hear("tingle", "", "done")
    assert journal.walks()[0].answers == 1
    assert hear("", "", "", "", "", "the voltage is too low").words.count("which site are you at?") == 1
    assert "99 is none of the numbers here. Enter: back to the question." in hear("tingle", "", "99").words


def test_a_number_where_nothing_is_listed_says_so(hear: Hear) -> None:
    """It does not say that numbers go from 1 to 0."""
    said = hear("xyzzy", "1").words
    assert "1 is none of the numbers here: there is none now. Enter: the whole list." in said


@pytest.mark.parametrize("typed", ["?", "!", "i"])
def test_after_something_long_it_is_said_how_to_hear_the_question_again(hear: Hear, typed: str) -> None:
    """Help, the card, what is possible: nobody can look up where they are."""
    said = hear("tingle", "1", typed, *[""] * 9).said
    assert AGAIN in said
    if typed == "!":
        assert f"{CARD_ENDS}\n{AGAIN}\n" in said


def test_at_the_end_it_is_the_ending(hear: Hear, keep: Keep) -> None:
    """The same after an ending."""
    number = keep(EVENING, "2024-05-02T12:00:00Z")

    def again(session: Session) -> Place:
        return Talk(
            session.journal.load(number), Keeper(session.journal, number), session=session
        ).walk_through

    assert f"{CARD_ENDS}\n{END_AGAIN}\n" in hear("!", at=again).said
