"""Handing a walk over in the app, and taking one over, on two machines with a folder between them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from shorewalk.app import ShorewalkApp
from shorewalk.handing import ENDING, NotTaken, read_handed
from shorewalk.handing.taking_over import SAME
from shorewalk.journal import Journal
from shorewalk.journal.store import connect_in_memory
from shorewalk.screens.choose import ChooseScreen
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

from .conftest import NOON, shown, type_line

SIZES = [(80, 24), (40, 20)]


@pytest.fixture
def left() -> Walk:
    """A walk of a shipped tree with two answers."""
    walk = begin(shipped(), "arrival", parse_meter("basic"))
    return walk.answer(Done(), time=NOON).answer(Done(), time=NOON)


def machine(folder: Path, walk: Walk | None = None) -> ShorewalkApp:
    """The app on a machine of its own, started in a folder that others see too."""
    journal = Journal(connect_in_memory(), clock=lambda: NOON)
    app = ShorewalkApp(walk, journal=journal, folder=folder, ascii_only=False)
    app.asks_site = False
    return app


def files(folder: Path) -> list[Path]:
    return sorted(folder.glob(f"*{ENDING}"))


@pytest.mark.parametrize("size", SIZES)
async def test_a_walk_goes_from_one_machine_to_another(
    tmp_path: Path, left: Walk, size: tuple[int, int]
) -> None:
    """One key saves the file and says what to do; on the other machine the start takes it over, and it goes on."""
    here = machine(tmp_path, left)
    async with here.run_test(size=size) as pilot:
        await type_line(pilot, "1")  # the third answer, which is kept before the next question
        await pilot.press("o")
        await pilot.pause()
        assert isinstance(here.screen, ChooseScreen)
        assert "3 answers" in shown(here)
        assert "shorewalk take-over" in " ".join(shown(here).split())
        await type_line(pilot, "0")
        assert isinstance(here.screen, WalkScreen)
    (file,) = files(tmp_path)
    assert len(read_handed(file.read_bytes()).answers) == 3
    there = machine(tmp_path)
    async with there.run_test(size=size) as pilot:
        await type_line(pilot, "o")
        assert file.name in " ".join(shown(there).split())
        await type_line(pilot, "1")
        assert isinstance(there.screen, WalkScreen)
        assert len(there.screen.walk.answers) == 3
        assert "Taken over: 3 answers" in " ".join(shown(there).split())


async def test_a_walk_that_was_left_is_handed_over_from_the_start(tmp_path: Path, left: Walk) -> None:
    """At the start, the walks that were left can be handed over, and what is here already is said to be."""
    app = machine(tmp_path)
    app.journal.begin(left)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "o")
        await type_line(pilot, "1")
        assert "Handed over" in shown(app)
        await type_line(pilot, "0")
        assert isinstance(app.screen, StartScreen)
        await type_line(pilot, "o")
        await type_line(pilot, files(tmp_path)[0].name)
        assert isinstance(app.screen, WalkScreen)
        assert SAME in shown(app)


async def test_a_damaged_file_is_told_of_and_changes_nothing(tmp_path: Path, left: Walk) -> None:
    """The start stays, and says in a sentence why the walk was not taken over."""
    here = machine(tmp_path, left)
    async with here.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "1")
        await pilot.press("o")
        await pilot.pause()
    (file,) = files(tmp_path)
    file.write_text(file.read_text().replace("sources_off", "sources_on"))
    with pytest.raises(NotTaken):
        read_handed(file.read_bytes())
    there = machine(tmp_path)
    async with there.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "o")
        await type_line(pilot, "1")
        assert isinstance(there.screen, StartScreen)
        assert "changed or damaged on its way" in " ".join(shown(there).split())
        assert not there.journal.walks()
        await type_line(pilot, "o")
        await type_line(pilot, "nowhere.walk.json")
        assert "cannot be read: No such file" in " ".join(shown(there).split())


async def test_nothing_answered_is_nothing_to_hand_over(tmp_path: Path) -> None:
    """At the first question no file is written."""
    app = machine(tmp_path, begin(shipped(), "arrival", parse_meter("basic")))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("o")
        await pilot.pause()
        assert "nothing to hand over" in shown(app)
    assert not files(tmp_path)


async def test_a_folder_that_cannot_be_written_is_told_of(tmp_path: Path, left: Walk) -> None:
    """The walk goes on where the file cannot be saved."""
    app = machine(tmp_path / "gone", left)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "1")
        await pilot.press("o")
        await pilot.pause()
        assert "could not be saved" in shown(app)
        assert isinstance(app.screen, WalkScreen)


async def test_while_an_answer_is_changed_the_walk_as_it_was_is_handed_over(
    tmp_path: Path, left: Walk
) -> None:
    """What is handed over is what is kept: the walk before the change."""
    app = machine(tmp_path, left)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "1")
        for _ in range(3):
            await type_line(pilot, "1")
        screen = app.screen
        assert isinstance(screen, WalkScreen)
        known = screen.walk.now.known
        await pilot.press("k")
        await pilot.pause()
        await type_line(pilot, str(known[0].index + 1))
        await pilot.press("o")
        await pilot.pause()
    (file,) = files(tmp_path)
    assert len(json.loads(file.read_text())["walk"]["answers"]) == len(screen.walk.answers)
