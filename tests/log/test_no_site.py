"""A word for the program is no site, wherever a site is asked for; nobody is sent to one."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.commands import COMMANDS
from shorewalk.heard_words import WORDS
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.where import read_where
from shorewalk.log.handing_out import message_of
from shorewalk.log.kept import Kept
from shorewalk.plain.moving import converse
from shorewalk.plain.session import Session
from shorewalk.plain.start import Start
from shorewalk.plain.voice import Voice
from shorewalk.plain.words import HERE_ONLY
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.where import WhereScreen

from .conftest import SUPPER, Keep, Run
from .driving import app_on, begin, press, shown
from .test_placed import URGENT, said_at_the_end

TYPED = ("help", "?", "x", "s", "0", "not sure", "HELP", "site help", "help, Someday Flats")
NO_SITE = "is a word for shorewalk itself, and no site."


@pytest.mark.parametrize(
    "word",
    sorted(
        {key for command in (*COMMANDS, *HERE_ONLY) for key in command.keys}
        | {word for words in WORDS.values() for word in words}
    ),
)
def test_no_command_is_a_site(word: str) -> None:
    """Neither a key nor a word of any command, with and without `site` before it; more than a word may be one."""
    for typed in (word, word.upper(), f"site {word}", f"{word}, Someday Flats"):
        with pytest.raises(ValueError, match="no site"):
            read_where(typed)
    assert read_where(f"row {word}").site == f"row {word}"


@pytest.mark.parametrize("typed", TYPED)
def test_plain_text_asks_once_more(journal: Journal, keep: Keep, typed: str) -> None:
    """At the end of a walk, of a walk in the log, and before a walk: it is told, and the next line is the site."""
    urgent = keep(URGENT, "2024-05-02T07:00:00")
    text = said_at_the_end(journal, urgent, "t", typed, "14")
    assert NO_SITE in text
    assert "Say: Site 14" in text
    assert journal.entry(urgent).site == "14"

    def hear(*lines: str) -> str:
        out = io.StringIO()
        given = io.StringIO("".join(f"{line}\n" for line in lines))
        session = Session(Voice(given, out, 400), journal)
        converse(Start(session).run, session)
        return out.getvalue()

    assert NO_SITE in hear("log", "2", "t", typed, "15")
    assert journal.entry(urgent).site == "15"
    journal.delete(urgent)
    assert NO_SITE in hear("the voltage is too low", typed, "16", "1")
    assert journal.walks()[0].site == "16"


@pytest.mark.parametrize("typed", ["exit", "quit", "leave", "close", "back", "start", "q", "b"])
async def test_words_for_leaving_leave_the_question_in_the_app(
    journal: Journal, tmp_path: Path, typed: str
) -> None:
    """Before a walk they go back to the start, where no walk was begun."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "voltage-low")
        await press(pilot, typed, "enter")
        assert app.screen.kind == "start"  # type: ignore[attr-defined]
        assert not journal.walks()


@pytest.mark.parametrize("typed", ["help", "0", "x", "not sure"])
async def test_the_app_asks_once_more(journal: Journal, keep: Keep, tmp_path: Path, typed: str) -> None:
    """Before a walk and at its end the question stands, and no message has the word."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await begin(pilot, "voltage-low")
        await press(pilot, typed, "enter")
        assert isinstance(app.screen, WhereScreen)
        assert NO_SITE in " ".join(shown(app).split())
    urgent = keep(URGENT, "2024-05-02T07:00:00")
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        app.go_on(urgent)
        await pilot.pause()
        assert isinstance(app.screen, EndingScreen)
        await press(pilot, "t", typed, "enter")
        assert NO_SITE in " ".join(shown(app).split())
        await press(pilot, "exit", "enter")
        assert f"ite {typed}" not in shown(app)
        assert journal.entry(urgent).site is None


def test_the_command_line_says_so(journal: Journal, keep: Keep, run: Run) -> None:
    """`log --at` refuses it in a line, and what was kept stays."""
    number = keep(SUPPER, "2024-05-02T07:00:00")
    ended = run("log", str(number), "--at", "help")
    assert ended.returncode == 2
    assert NO_SITE in " ".join(ended.stderr.split())
    assert journal.entry(number).site is None


@pytest.mark.parametrize("word", ["help", "0", "Site x"])
def test_no_message_sends_anybody_to_one_that_was_kept(journal: Journal, keep: Keep, word: str) -> None:
    """An older journal, or a file from elsewhere, may have such a site: the message is without it."""
    urgent = keep(URGENT, "2024-05-02T07:00:00")
    journal.label(urgent, site=word, placed="said")
    assert Keeper(journal, urgent).placing.where.site == word
    assert f"ite {word}" not in said_at_the_end(journal, urgent)
    kept = Kept(journal, journal.entry(urgent))
    assert f"ite {word}" not in message_of(kept, "park", "2024-05-02T08:00:00Z")
