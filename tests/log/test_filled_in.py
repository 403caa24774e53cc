"""A log that takes long to read is on the screen at once, takes every key meanwhile, and becomes what it always was."""

from __future__ import annotations

import asyncio
import math
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from shorewalk.app import STILL_MADE, ShorewalkApp
from shorewalk.journal import Journal, understood
from shorewalk.lines import as_text
from shorewalk.log import working_out
from shorewalk.log.kept import kept_walks
from shorewalk.log.stays import sites_of
from shorewalk.log.table import Table, site_lines
from shorewalk.pages.log import LogPage, items_of
from shorewalk.screens import in_slices, log
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.log import LogScreen
from shorewalk.screens.log_site import SiteScreen

from .conftest import BEFORE, SITE, SUPPER, Keep, Typed
from .driving import app_on, press, shown

AGAIN = "read-again-evening"
PAUSES = 50


class Gate:
    """Lets what is done in slices go on for so many slices."""

    def __init__(self) -> None:
        self._free = asyncio.Semaphore(0)

    async def __call__(self, _seconds: float) -> None:
        await self._free.acquire()

    def open(self, slices: int = 1_000) -> None:
        for _ in range(slices):
            self._free.release()


@pytest.fixture
def gate(monkeypatch: pytest.MonkeyPatch) -> Gate:
    """A machine so slow that each slice has one step, and every log is long; slices wait at the gate."""
    gate = Gate()
    monkeypatch.setattr(in_slices, "sleep", gate)
    for name, value in {"FEW": 0, "AT_ONCE": 0.0, "EVERY": 0.0}.items():
        monkeypatch.setattr(in_slices, name, value)
    monkeypatch.setattr(log, "AT_ONCE", 0.0)
    monkeypatch.setattr(in_slices.go_on, "__defaults__", (0.0,))
    return gate


async def all_done(app: ShorewalkApp) -> None:
    """Wait until nothing is done in slices any more."""
    await app.workers.wait_for_complete()


async def until(pilot: Pilot[int], there: Callable[[], bool]) -> None:
    """Let the app go on until something is there."""
    for _ in range(PAUSES):
        if there():
            return
        await pilot.pause()


def of_site(journal: Journal, room: int) -> str:
    """Return what a site's page must say in the end, without its first lines."""
    (site, *_) = sites_of(kept_walks(journal))
    return as_text(site_lines(site, Table(room, ascii_only=False))[2:])


@pytest.mark.parametrize("size", [(80, 24), (40, 20)])
async def test_a_site_is_there_at_once_and_filled_in(
    full: Journal, tmp_path: Path, gate: Gate, size: tuple[int, int]
) -> None:
    """First how many walks are left, then the latest stay with it, then all: the same lines as drawn in one go."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=size) as pilot:
        await press(pilot, "l", "enter", "1", "enter")
        assert isinstance(app.screen, SiteScreen)
        assert "Past walks are read: 2 walks left." in shown(app)
        assert "chosen rig outlet" not in shown(app)
        gate.open(1)
        await until(pilot, lambda: "1 walk left." in shown(app))
        assert "The latest stay alone so far. Past walks are read: 1 walk left." in shown(app)
        assert "Hot to neutral, chosen rig outlet" in shown(app)
        gate.open()
        await all_done(app)
        await pilot.pause()
        page = app.screen.reading
        assert as_text(page.lines) == of_site(full, page.size.width)


async def test_keys_are_taken_while_walks_are_read(full: Journal, tmp_path: Path, gate: Gate) -> None:
    """The emergency card opens and q goes back; nobody waits, and what is left is not read in vain."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "1", "enter", "!")
        assert type(app.screen).__name__ == "CardScreen"
        await press(pilot, "escape", "q")
        assert isinstance(app.screen, LogScreen)
        gate.open()
        await press(pilot, "1", "enter")
        await all_done(app)
        await pilot.pause()
        assert "Hot to neutral, chosen rig outlet" in shown(app)
    assert full.problem is None


async def test_another_size_is_filled_in_too(full: Journal, tmp_path: Path, gate: Gate) -> None:
    """A window that is made narrower while walks are read shows in the end what belongs into it."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "1", "enter")
        await pilot.resize_terminal(40, 20)
        await pilot.pause()
        gate.open()
        await all_done(app)
        await pilot.pause()
        page = app.screen.reading  # type: ignore[attr-defined]
        assert as_text(page.lines) == of_site(full, page.size.width)


async def test_what_was_being_filled_in_ends_with_its_size(
    full: Journal, tmp_path: Path, gate: Gate, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the page in another size is there at once, the drawing for the size before adds nothing to it."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "1", "enter")
        monkeypatch.setattr(in_slices, "AT_ONCE", math.inf)
        await pilot.resize_terminal(60, 24)
        await pilot.pause()
        gate.open()
        await until(pilot, lambda: not [*app.workers])
        await pilot.pause()
        page = app.screen.reading  # type: ignore[attr-defined]
        assert as_text(app.screen._lines[1:]) in as_text(page.lines)  # type: ignore[attr-defined]
        assert as_text(page.lines) == of_site(full, page.size.width)


async def test_an_export_is_saved_also_where_one_goes_back(full: Journal, tmp_path: Path, gate: Gate) -> None:
    """It takes as long as it takes; the file is the same, and nothing is told on a page that is gone."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "e", "q")
        assert not [*tmp_path.glob("*.csv")]  # noqa: ASYNC240 (a folder of the test)
        gate.open()
        await all_done(app)
        assert type(app.screen).__name__ == "StartScreen"
    (file,) = tmp_path.glob("*.csv")  # noqa: ASYNC240 (a folder of the test)
    assert file.read_text(encoding="utf-8").count("\n") > len(full.walks())


@pytest.mark.usefixtures("gate")
async def test_leaving_in_the_middle_of_an_export_is_told_once(full: Journal, tmp_path: Path) -> None:
    """First it is said that the file is not there yet; the second time one is out, and no file is half there."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "e", "q", "q", "enter")
        assert STILL_MADE in " ".join(shown(app).split())
        assert app.is_running
        await press(pilot, "q", "enter")
        assert not app.is_running
    assert not [*tmp_path.glob("*.csv")]  # noqa: ASYNC240 (a folder of the test)


async def test_nothing_is_deleted_while_it_is_exported(full: Journal, tmp_path: Path, gate: Gate) -> None:
    """One line says so, and every walk stays."""
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "e", "d")
        assert log.BEING_MADE in shown(app)
        assert isinstance(app.screen, LogScreen)
        gate.open()
        await all_done(app)
        await press(pilot, "d")
        assert not isinstance(app.screen, LogScreen)


async def test_an_ending_waits_for_no_walk_of_the_past(
    journal: Journal, keep: Keep, tmp_path: Path, gate: Gate
) -> None:
    """What to do now stands there while the same readings of other times are still looked for."""
    for day in (1, 2, 3):
        number = keep(AGAIN, f"2024-05-0{day}T18:50:00", SITE)
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        app.go_on(number)
        await pilot.pause()
        assert isinstance(app.screen, EndingScreen)
        assert "Past walks are read: 1 walk left." in shown(app)
        assert app.screen.found.safe_action in shown(app)
        gate.open()
        await all_done(app)
        await pilot.pause()
        assert "Past walks" not in shown(app)
        assert as_text(app.screen._compared[1]) in as_text(app.screen.reading.lines)
        assert app.screen._compared[1]


def test_plain_text_and_commands_say_how_many_walks_are_left(
    full: Journal, typed: Typed, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On the side where a command has its result on the other: nobody looks at nothing, and no program reads it."""
    assert len(full.walks()) == 5
    monkeypatch.setattr(understood, "BEGAN", 0)
    quick = typed("log", "14")
    monkeypatch.setattr(working_out, "A_WHILE", 0.0)
    slow = typed("log", "14")
    assert slow.stdout == quick.stdout
    assert [line for line in slow.stderr.splitlines() if "left" in line] == [
        f"Past walks are read: {left} left." for left in ("3 walks", "2 walks", "1 walk")
    ]
    assert "Past walks are read" not in quick.stderr


def test_only_what_is_picked_is_drawn_otherwise(journal: Journal, keep: Keep) -> None:
    """Each number typed marks its site or walk; any other number none."""
    keep(SUPPER, "2023-09-10T18:50:00", BEFORE)
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    keep(SUPPER, "2024-05-01T19:50:00")
    page = LogPage(items_of(sites_of(kept_walks(journal))), 72, ascii_only=False)
    plain = page.lines(None)
    marked: Callable[[int], str] = lambda number: as_text(  # noqa: E731
        [row for row in page.lines(number) if any(span.role == "picked" for span in row)]
    )
    assert [marked(number).split()[0] for number in (1, 2, 3, 4)] == ["1", "2", "3", "4"]
    for number in (1, 2, 3, 4):
        assert as_text(page.lines(number)) == as_text(plain)
    assert page.lines(0) == page.lines(99) == plain
