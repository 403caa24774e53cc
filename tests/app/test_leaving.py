"""Leaving a walk: what is kept is said, and where the disk failed another folder is asked for."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.journal import Journal, Keeper
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Done
from shorewalk.walk.walk import Walk

from .conftest import NOON, Make, press, shown, type_line


@pytest.fixture
def failing(walk: Walk, library: Library, tmp_path: Path) -> ShorewalkApp:
    """The app in a walk of one answer, where no folder for walks can be made."""
    (tmp_path / "file").touch()
    keeper = Keeper(Journal.open(tmp_path / "file" / "home", clock=lambda: NOON))
    begun = walk.answer(Done(), NOON)
    keeper.keep(begun)
    return ShorewalkApp(begun, keeper, library=library, folder=tmp_path, ascii_only=False)


def running(text: str) -> str:
    return " ".join(text.split())


async def test_what_is_on_no_disk_can_be_kept_elsewhere(failing: ShorewalkApp, tmp_path: Path) -> None:
    """The third way out asks for a folder until one can be written, then stays in the walk and says how to go on."""
    stick = tmp_path / "stick"
    async with failing.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Walks are not kept on disk" in running(shown(failing))
        await press(pilot, "q")
        assert "The walk is gone when you leave, unless you keep it elsewhere." in running(shown(failing))
        await type_line(pilot, "3")
        await type_line(pilot, str(tmp_path / "file"))
        assert "Another folder?" in running(shown(failing))
        await type_line(pilot, str(stick))
        assert isinstance(failing.screen, WalkScreen)
        assert "shorewalk walk --resume 1" in running(shown(failing))
        await press(pilot, "q")
        assert "Every answer is kept" in shown(failing)
    kept = Journal.open(stick)
    assert [entry.answers for entry in kept.unfinished()] == [1]
    kept.close()


async def test_who_thinks_better_of_it_is_back_where_they_were(failing: ShorewalkApp) -> None:
    """No folder leads back to the question whether to leave, and from there to the walk."""
    async with failing.run_test(size=(80, 24)) as pilot:
        await press(pilot, "q")
        await type_line(pilot, "3")
        await type_line(pilot, "0")
        assert "Leave?" in shown(failing)
        await type_line(pilot, "0")
        assert isinstance(failing.screen, WalkScreen)


async def test_what_is_kept_offers_no_other_folder(make: Make, walk: Walk) -> None:
    """With a disk that works there is nothing to ask."""
    app = make(walk)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "q")
        assert "another folder" not in shown(app)
        assert "Every answer is kept" in shown(app)


async def test_the_ending_says_once_more_that_it_is_on_no_disk(failing: ShorewalkApp) -> None:
    """Who was told long ago is told again where the walk ends, and the verdict still stands first."""
    async with failing.run_test(size=(40, 20)) as pilot:
        await pilot.pause()
        while isinstance(failing.screen, WalkScreen):
            await type_line(pilot, "0" if failing.screen.kind != "measure" else "x")
        assert "This walk is on no disk. Leave (q) to keep it elsewhere." in running(shown(failing))
        assert shown(failing).splitlines()[1].strip().endswith("STAY UNPLUGGED")


QUITTING = pytest.mark.parametrize("key", ["ctrl+c", "ctrl+q"])
"""What a hurried hand quits with; the second also undoes a stop of the screen."""


async def press_key(pilot: Pilot[int], key: str) -> None:
    await pilot.press(key)
    await pilot.pause()


@QUITTING
async def test_quitting_twice_leaves_where_all_is_kept(
    walk: Walk, library: Library, tmp_path: Path, key: str
) -> None:
    """In a walk the first asks whether to leave, the second leaves; on any other card it closes the card."""
    keeper = Keeper(Journal.open(tmp_path / "home", clock=lambda: NOON))
    app = ShorewalkApp(walk, keeper, library=library, folder=tmp_path, ascii_only=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "?")
        await press_key(pilot, key)
        assert isinstance(app.screen, WalkScreen)
        await press_key(pilot, key)
        assert "Leave?" in shown(app)
        await press_key(pilot, key)
    assert app.return_code == 0
    assert app._exit


@QUITTING
async def test_quitting_twice_loses_no_answer(failing: ShorewalkApp, key: str) -> None:
    """Where the walk would be gone, the second one goes back to it."""
    async with failing.run_test(size=(80, 24)) as pilot:
        await press_key(pilot, key)
        assert "The walk is gone when you leave" in running(shown(failing))
        await press_key(pilot, key)
        assert isinstance(failing.screen, WalkScreen)


@QUITTING
@pytest.mark.parametrize("over", ["", "k", "?", "!"])
async def test_quitting_from_any_screen_loses_no_answer(failing: ShorewalkApp, over: str, key: str) -> None:
    """From what is known it asks, a card it closes, also with something typed."""
    async with failing.run_test(size=(80, 24)) as pilot:
        if over:
            await press(pilot, over)
        await pilot.press("1", "2")
        await press_key(pilot, key)
        assert failing._exit is False
        assert isinstance(failing.screen, WalkScreen) or "The walk is gone when you leave" in running(
            shown(failing)
        )


@QUITTING
async def test_leaving_the_start_asks_while_a_walk_is_on_no_disk(
    failing: ShorewalkApp, tmp_path: Path, key: str
) -> None:
    """By way of the list of symptoms it is asked too, and the folder that is named has the walk."""
    stick = tmp_path / "stick"
    async with failing.run_test(size=(80, 24)) as pilot:
        await press(pilot, "q")
        await type_line(pilot, "2")
        assert isinstance(failing.screen, StartScreen)
        await type_line(pilot, "q")
        assert "The walk is gone when you leave, unless you keep it elsewhere." in running(shown(failing))
        await type_line(pilot, "0")
        await press_key(pilot, key)
        await press_key(pilot, key)
        assert isinstance(failing.screen, StartScreen)
        await press_key(pilot, key)
        await type_line(pilot, "3")
        await type_line(pilot, str(stick))
        assert isinstance(failing.screen, StartScreen)
        assert "shorewalk walk --resume 1" in running(shown(failing))
        assert "not kept on disk" not in running(shown(failing))
        await type_line(pilot, "q")
    assert failing.return_code == 0
    kept = Journal.open(stick)
    assert [entry.answers for entry in kept.unfinished()] == [1]
    kept.close()


async def test_a_walk_left_before_is_asked_for_in_the_next_one(failing: ShorewalkApp, walk: Walk) -> None:
    """The next walk has no answer yet, and leaving it would take the other one along."""
    async with failing.run_test(size=(80, 24)) as pilot:
        failing.show_walk(walk, Keeper(failing.journal))
        await pilot.pause()
        await press(pilot, "q")
        assert "3 Keep this walk in another folder" in running(shown(failing))


@pytest.mark.parametrize(
    ("typed", "title"), [("exit", "Leave?"), ("back", "Leave?"), ("help", "which folder?")]
)
async def test_a_word_for_the_program_is_no_folder(
    failing: ShorewalkApp, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: str, title: str
) -> None:
    """One for leaving goes back to what was asked before, any other is told; no folder of that name is made."""
    monkeypatch.chdir(tmp_path)
    async with failing.run_test(size=(80, 24)) as pilot:
        await press(pilot, "q")
        await type_line(pilot, "3")
        await type_line(pilot, typed)
        assert title in shown(failing)
        assert not (tmp_path / typed).exists()


@pytest.mark.parametrize(("typed", "told"), [("exit", ""), ("help", "is a word for shorewalk itself")])
async def test_a_word_for_the_program_is_no_file(make: Make, typed: str, told: str) -> None:
    """Where a walk is taken over from a file, the start comes again, and only a word that is no way out is told."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "o")
        await type_line(pilot, typed)
        assert isinstance(app.screen, StartScreen)
        assert told in running(shown(app))
        assert "cannot be read" not in running(shown(app))


async def test_leaving_after_handing_over_asks_too(failing: ShorewalkApp, walk: Walk) -> None:
    """The file holds one walk; another may be on no disk."""
    async with failing.run_test(size=(80, 24)) as pilot:
        other = Keeper(failing.journal)
        other.keep(walk.answer(Done(), NOON))
        await press(pilot, "o")
        assert "Handed over" in shown(failing)
        await type_line(pilot, "1")
        assert "The walk is gone when you leave" in running(shown(failing))
