"""Whatever is typed: no traceback, nothing that was answered is lost, and nothing is taken for what it is not."""

from __future__ import annotations

import io
import unicodedata
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal, Keeper
from shorewalk.plain.moving import Place, converse
from shorewalk.plain.session import Session
from shorewalk.plain.start import Start
from shorewalk.plain.talk import Talk
from shorewalk.plain.voice import LONGEST, TOO_LONG, UNSEEN, Gone, Voice
from shorewalk.tree.library import Library
from shorewalk.walk.walk import Walk, begin

from ..front.conftest import TREE
from .conftest import Hear

HIDDEN = ["121\u200b.8", "\ufeff1", "\u202e1", "\x1b[A", "\x1b", "1\x00", "\x07", "1\u20281"]
PLACES = ((), ("m",), ("l",), ("o",), ("practice",), ("voltage",), ("the voltage is too low",), ("1",))


@pytest.fixture
def small(tmp_path: Path) -> Library:
    """A library with one small tree."""
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "small.yaml").write_text(TREE, encoding="utf-8")
    return Library(folder)


def walked(session: Session, library: Library) -> Place:
    """Begin the small tree."""
    return Talk(begin(library, "small", session.meter), Keeper(session.journal), session=session).walk_through


@pytest.mark.parametrize("typed", HIDDEN)
def test_a_character_that_nobody_sees_makes_no_answer(
    hear: Hear, small: Library, journal: Journal, typed: str
) -> None:
    """It is told, the question stands, and neither the reading nor a site nor a command comes of it."""
    heard = hear("1", "1", typed, at=lambda session: walked(session, small))
    assert UNSEEN in heard.said
    assert len(journal.answers(1)) == 2
    assert not [x for x in heard.said if x != "\n" and unicodedata.category(x) in ("Cc", "Cf", "Zl")]
    hear("1", "1", "x", "t", f"14{typed}", "", at=lambda session: walked(session, small))
    assert [entry.site for entry in journal.walks()] == [None, None]


@pytest.mark.parametrize("where", PLACES)
@pytest.mark.parametrize(
    "typed", ["9" * 5_000, "a" * 5_000, "a" * LONGEST, "%s {0} \\x00 $(id)", "-1", "1e9", "٣", "½", "..", ")"]
)
def test_anything_may_be_typed_anywhere(hear: Hear, where: tuple[str, ...], typed: str) -> None:
    """There is an answer to it, and the next line is heard."""
    heard = hear(*where, typed, "!")
    assert "Do not touch anybody" in heard.said
    assert (TOO_LONG in heard.said) is (len(typed) >= LONGEST)
    assert len(heard.said) < 20_000


def test_no_part_of_a_long_line_is_an_answer(hear: Hear, small: Library, journal: Journal) -> None:
    """Not its beginning, not its end; the line after it is."""
    heard = hear("1" + " " * 5_000 + "1", "1", at=lambda session: walked(session, small))
    assert heard.said.count(TOO_LONG) == 1
    assert len(journal.answers(1)) == 1


def test_lines_that_come_at_once_are_each_heard(hear: Hear, small: Library, journal: Journal) -> None:
    """A paste, or a slow link that lets go of what it held back."""
    hear("1", "1", "121.8", "1 2", "s", at=lambda session: walked(session, small))
    assert len(journal.answers(1)) == 4


@pytest.mark.parametrize("interrupted", [True, False])
def test_an_interrupt_keeps_what_was_answered(small: Library, journal: Journal, *, interrupted: bool) -> None:
    """Ctrl-C says how to go on, as the end of the input does; every answer is on the disk."""

    class Hands(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override]
            line = super().readline(-1 if size is None else size)
            if not line and interrupted:
                raise KeyboardInterrupt
            return line

    out = io.StringIO()
    session = Session(Voice(Hands("1\n1\n"), out, 80), journal)
    assert converse(walked(session, small), session) == Exit.UNFINISHED
    assert "shorewalk walk --resume 1 --plain" in " ".join(out.getvalue().split())
    assert len(journal.answers(1)) == 2


@pytest.mark.parametrize("again", [True, False])
def test_an_interrupt_while_an_answer_is_written_loses_none(
    small: Library, journal: Journal, monkeypatch: pytest.MonkeyPatch, *, again: bool
) -> None:
    """What was to be kept is kept before it is said that it is; also where nothing was kept yet."""
    keep = Keeper.keep
    broken: list[bool] = []

    def breaking(keeper: Keeper, walk: Walk) -> None:
        if len(walk.answers) == (2 if again else 1) and not broken:
            broken.append(True)
            raise KeyboardInterrupt
        keep(keeper, walk)

    monkeypatch.setattr(Keeper, "keep", breaking)
    out = io.StringIO()
    session = Session(Voice(io.StringIO("1\n1\n"), out, 400), journal)
    assert converse(walked(session, small), session) == Exit.UNFINISHED
    assert broken
    assert "shorewalk walk --resume 1 --plain" in out.getvalue()
    assert len(journal.answers(1)) == (2 if again else 1)


def test_an_interrupt_at_the_start_leaves(journal: Journal) -> None:
    """Without a word, and clean: there was nothing to lose."""

    class Hands(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override] # noqa: ARG002
            raise KeyboardInterrupt

    session = Session(Voice(Hands(), io.StringIO(), 80), journal)
    assert converse(Start(session).run, session) == Exit.CLEAN


def test_a_line_without_an_end_is_heard(journal: Journal) -> None:
    """The last line of a file often has none."""
    voice = Voice(io.StringIO("121.8"), io.StringIO(), 80)
    assert voice.listen() == "121.8"
    with pytest.raises(Gone):
        voice.listen()
    assert not journal.walks()
