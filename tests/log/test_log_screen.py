"""The log in the app: seen, exported, corrected, deleted."""

from __future__ import annotations

import csv
import sqlite3
from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.journal.store import FILE
from shorewalk.log.deleting import TRACE
from shorewalk.pages.left import walks_left
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.log import KeptWalkScreen, LogScreen
from shorewalk.screens.log_site import SiteScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.library import shipped

from .conftest import SITE, SUPPER, Keep
from .driving import app_on, press, shown


@pytest.mark.parametrize("size", [(80, 24), (40, 20)])
async def test_sites_and_walks_are_opened_by_number(
    full: Journal, tmp_path: Path, size: tuple[int, int]
) -> None:
    """The site first, compared; then a walk; q goes back each time."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=size) as pilot:
        await press(pilot, "l", "enter")
        assert isinstance(app.screen, LogScreen)
        assert "1 Site 14, Someday Flats: 4 walks, compared" in shown(app)
        await press(pilot, "1", "enter")
        assert isinstance(app.screen, SiteScreen)
        assert "Hot to neutral, chosen rig outlet" in shown(app)
        await press(pilot, "q", "2", "enter")
        assert isinstance(app.screen, KeptWalkScreen)
        assert "Walk 5: The voltage is too low" in shown(app)
        await press(pilot, "q", "q")
        assert type(app.screen).__name__ == "StartScreen"


async def test_an_export_is_a_new_file(full: Journal, tmp_path: Path) -> None:
    """Of what is shown; a second one takes another name."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "e", "e", "j")
        assert "Saved in" in shown(app)
    files = sorted(path.name for path in tmp_path.glob("shorewalk-log-*"))  # noqa: ASYNC240 (a folder of the test)
    assert files == [
        "shorewalk-log-2024-05-02-2.csv",
        "shorewalk-log-2024-05-02.csv",
        "shorewalk-log-2024-05-02.json",
    ]
    with (tmp_path / files[1]).open(encoding="utf-8", newline="") as file:
        assert {row["walk"] for row in csv.DictReader(file)} == {"5"}


async def test_where_a_walk_was_can_be_said_there(full: Journal, tmp_path: Path) -> None:
    """`t` asks for it; the list has the walk under its new site."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "6", "enter", "t", "7, Cedar Bend", "enter")
        assert "site 7, Cedar Bend" in shown(app)
        await press(pilot, "q")
        assert "Site 7, Cedar Bend: 1 walk" in shown(app)
    assert full.entry(2).site == "7"


async def test_deleting_asks_once_and_goes_back(full: Journal, tmp_path: Path) -> None:
    """Enter alone keeps it; 1 deletes it, and the list is without it."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "d", "enter")
        assert isinstance(app.screen, KeptWalkScreen)
        assert len(full.walks()) == 5
        await press(pilot, "d", "1", "enter")
        assert isinstance(app.screen, LogScreen)
        assert "Deleted." in shown(app)
        assert "3 walks, compared" in shown(app)
    assert [entry.id for entry in full.walks()] == [4, 3, 2, 1]


async def test_everything_can_be_deleted_there(full: Journal, tmp_path: Path) -> None:
    """From the list; then it says that nothing is kept."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "l", "enter", "d", "1", "enter")
        assert "No walk is kept yet." in shown(app)
    assert not full.walks()


async def test_the_end_of_a_walk_leads_to_its_site(full: Journal, tmp_path: Path) -> None:
    """`l` at the ending: this evening beside this morning."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        app.go_on(5)
        await pilot.pause()
        assert isinstance(app.screen, EndingScreen)
        await press(pilot, "l")
        assert isinstance(app.screen, SiteScreen)
        await press(pilot, "q")
        assert isinstance(app.screen, EndingScreen)


async def test_a_walk_deleted_behind_its_own_ending_goes_on_afresh(full: Journal, tmp_path: Path) -> None:
    """Taking back its last answer keeps it again, for it is walked again; nothing falls over."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        app.go_on(5)
        await press(pilot, "l", "d", "1", "enter")
        assert isinstance(app.screen, EndingScreen)
        assert [entry.id for entry in full.walks()] == [2]
        await press(pilot, "b")
        assert isinstance(app.screen, WalkScreen)
        assert {entry.answers for entry in full.walks()} == {20, 21}
    assert full.problem is None


async def test_a_walk_is_opened_from_the_log(full: Journal, tmp_path: Path) -> None:
    """`g` shows its end with the message, as it was."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "g")
        assert isinstance(app.screen, EndingScreen)
        assert "Our supply is low: 110.9 V" in shown(app)


async def test_nothing_is_deleted_where_the_disk_failed(full: Journal, home: Path, tmp_path: Path) -> None:
    """What is in memory alone is not the file: nobody is told that a walk is gone that is still there."""
    app = app_on(full, tmp_path)
    full._fail(sqlite3.OperationalError("disk I/O error"))
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "d")
        assert isinstance(app.screen, KeptWalkScreen)
        assert "Nothing was deleted" in shown(app)
        assert "Walks are not kept on disk: disk I/O error" in shown(app)
    other = Journal.open(home)
    assert len(other.walks()) == len(full.walks()) == 5
    other.close()


async def test_traces_that_may_be_left_are_told(full: Journal, home: Path, tmp_path: Path) -> None:
    """Where another program has the file open, it is said that the walk may still stand in it."""
    app = app_on(full, tmp_path)
    other = sqlite3.connect(home / FILE)
    other.execute("begin")
    other.execute("select * from walks").fetchone()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "d", "1", "enter")
        assert TRACE in shown(app)
    other.close()
    assert len(full.walks()) == 4


@pytest.mark.parametrize("ending", ["[1]", "7", "{", "null"])
async def test_an_ending_that_is_damaged_is_no_reason_to_fall_over(
    full: Journal, tmp_path: Path, ending: str
) -> None:
    """The log and the walk are shown all the same."""
    full._database.execute("update walks set ending = ? where id = 5", (ending,))
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter")
        assert "Walk 5: The voltage is too low" in shown(app)


async def test_a_meter_that_is_damaged_is_told(full: Journal, tmp_path: Path) -> None:
    """Neither going on nor reading again falls over; one line says why it cannot be."""
    full._database.execute("update walks set meter = 'rubber'")
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "2", "enter", "g")
        assert 'The meter of walk 5 cannot be read: "rubber".' in shown(app)
        app.read_volts_again(SITE)
        await pilot.pause()
        assert "The meter of walk" in shown(app)


def test_a_walk_left_at_a_time_that_is_none_is_offered(journal: Journal, keep: Keep) -> None:
    """The start says of it what stands there in the place of a time."""
    keep(SUPPER, "2024-05-01T18:50:00", most=1)
    journal._database.execute("update walks set changed = 'noon'")
    (left,) = walks_left(journal, shipped(), 3)
    assert left.told == "1 answer, left noon"
