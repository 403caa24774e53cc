"""Leaving plain text: nothing that is on no disk goes without a word, from wherever somebody leaves."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.plain.moving import converse
from shorewalk.plain.session import Session
from shorewalk.plain.start import Start
from shorewalk.plain.voice import Voice

from .conftest import NOW, Hear

ASKED = "What you answered is on no disk, and gone when you leave."
LOST = "What was answered since the disk failed is not kept."
TO_START = ("tingle", "1", "start")


@pytest.fixture
def journal(tmp_path: Path) -> Journal:
    """A journal whose folder cannot be made."""
    (tmp_path / "file").touch()
    return Journal.open(tmp_path / "file" / "home", clock=lambda: NOW)


@pytest.mark.parametrize("then", [("q",), ("practice", "q"), ("practice", "1", "q"), ("tingle", "q")])
def test_leaving_asks_for_a_folder_from_anywhere(hear: Hear, tmp_path: Path, then: tuple[str, ...]) -> None:
    """From the start, from practice, from another walk without an answer: the walk of before is kept where one says."""
    heard = hear(*TO_START, *then, str(tmp_path / "stick"))
    assert heard.said.count(ASKED) == 1
    assert "shorewalk walk --resume 1 --plain" in heard.words
    kept = Journal.open(tmp_path / "stick")
    assert [entry.answers for entry in kept.unfinished()] == [1]
    kept.close()


def test_the_end_of_the_input_says_what_is_lost(hear: Hear) -> None:
    """Nobody can be asked any more; it is said, and the exit code is that of a walk that was left."""
    heard = hear(*TO_START)
    assert heard.words.endswith(LOST)
    assert heard.code == Exit.UNFINISHED


def test_a_word_for_leaving_or_going_back_is_no_folder(hear: Hear, tmp_path: Path) -> None:
    """`back` goes back to the question, `help` asks once more, `q` leaves: no folder of that name is made."""
    said = hear("tingle", "1", "q", "back", "q", "help", "exit").words
    assert said.count(ASKED) == 3
    assert '"help" is a word for shorewalk itself' in said
    assert said.endswith(LOST)
    assert not [*(tmp_path / "here").iterdir()]


class Breaking(io.StringIO):
    """Hands that press Ctrl-C for every line that says so."""

    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override] # noqa: ARG002
        line = super().readline()
        if line == "^C\n":
            raise KeyboardInterrupt
        return line


@pytest.mark.parametrize("before", [("tingle", "1"), TO_START])
def test_an_interrupt_asks_once_and_the_second_leaves(
    journal: Journal, tmp_path: Path, before: tuple[str, ...]
) -> None:
    """In a walk and at the start: the first asks for a folder, the second leaves and says what is lost."""

    def typed(*lines: str) -> str:
        out = io.StringIO()
        given = Breaking("".join(f"{line}\n" for line in lines))
        session = Session(Voice(given, out, 400), journal)
        assert converse(Start(session).run, session) in (Exit.UNFINISHED, Exit.CLEAN)
        return " ".join(out.getvalue().split())

    assert typed(*before, "^C", "^C").endswith(LOST)
    assert typed(*before, "^C", "back", "^C", str(tmp_path / "stick")).count(ASKED) == 2
    assert (tmp_path / "stick").is_dir()
