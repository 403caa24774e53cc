"""Leaving a walk in a shared login, where the disk failed."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.app import ShorewalkApp
from shorewalk.exits import Exit
from shorewalk.journal import Journal, Keeper
from shorewalk.plain import Talk
from shorewalk.reach import NOT_HERE
from shorewalk.screens.start import StartScreen
from shorewalk.starting import start
from shorewalk.walk.answers import Done
from shorewalk.walk.walk import Walk

from ..app.conftest import press, shown, type_line

KEEPER = "whoever keeps this computer"


def failing(folder: Path) -> tuple[Walk, Keeper]:
    """Return a walk of one answer, and what could not keep it: a file is where its folder would be."""
    (folder / "file").touch()
    walk, keeper = start("tingle").answer(Done()), Keeper(Journal.open(folder / "file" / "home"))
    keeper.keep(walk)
    return walk, keeper


async def test_the_app_asks_for_no_folder(ann: Path) -> None:
    """It says what is lost and who can help; a folder is neither offered nor taken."""
    walk, keeper = failing(ann)
    app = ShorewalkApp(walk, keeper, ascii_only=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await press(pilot, "q")
        said = " ".join(shown(app).split())
        assert "1 Leave shorewalk" in said
        assert "another folder" not in said
        assert KEEPER in said
        assert str(ann) not in said


def test_plain_text_asks_for_no_folder(ann: Path) -> None:
    """Leaving leaves: no path is asked for, and none is told."""
    walk, keeper = failing(ann)
    said = io.StringIO()
    assert Talk(walk, keeper, io.StringIO("q\n/tmp\n"), said).run() == Exit.UNFINISHED
    assert "folder" not in said.getvalue()
    assert KEEPER in " ".join(said.getvalue().split())
    assert str(ann) not in said.getvalue()


async def test_no_key_leaves_the_app_without_asking(ann: Path) -> None:
    """Ctrl-Q, which undoes a stopped screen, asks as Ctrl-C does."""
    walk, keeper = failing(ann)
    for key in ("ctrl+q", "ctrl+c"):
        app = ShorewalkApp(walk, keeper, ascii_only=False)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            await pilot.press(key)
            await pilot.pause()
            assert "What was answered since is gone when you leave." in " ".join(shown(app).split())


@pytest.mark.usefixtures("ann")
@pytest.mark.parametrize("typed", ["o", "hand over", "take over"])
async def test_a_word_for_what_is_barred_begins_no_walk(typed: str) -> None:
    """It says that it is not to be had here, as its key does."""
    app = ShorewalkApp(ascii_only=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, typed)
        assert isinstance(app.screen, StartScreen)
        assert NOT_HERE in " ".join(shown(app).split())
