"""The end of a walk: verdict, action, call and words; to save, to show as a code, to copy."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from shorewalk.journal import Journal
from shorewalk.marks import verdict_mark
from shorewalk.screens.code import CodeScreen
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.walk.answers import Read
from shorewalk.walk.message import message_text
from shorewalk.walk.walk import Walk

from .conftest import NOON, Make, press, shown, type_line


@pytest.fixture
def ended(at_reading: Walk) -> Walk:
    """A walk that ended at a low voltage."""
    return at_reading.answer(Read("101.3"), time=NOON)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_matters_is_seen_at_once(make: Make, ended: Walk, size: tuple[int, int]) -> None:
    """Verdict, safe action, whom to call and the words to say stand on the first page."""
    app = make(ended)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        text = " ".join(shown(app).split())
        mark = verdict_mark("stay-unplugged")
        for part in (
            f"{mark.mark} {mark.word.upper()}",
            "Keep the cord out.",
            "The park.",
            "Low voltage at the 30 A",
        ):
            assert part in text


async def test_everything_is_reached_in_a_small_window(make: Make, ended: Walk) -> None:
    """At 40x20 Enter leads through the whole ending, to the last line of what was not ruled out."""
    app = make(ended)
    async with app.run_test(size=(40, 20)) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, EndingScreen)
        seen = shown(app)
        while screen.reading.more:
            await pilot.press("enter")
            await pilot.pause()
            seen += shown(app)
        words = " ".join(seen.split())
        assert all(fault.split()[-1] in words for fault in screen.found.not_ruled_out)
        assert "7 Leave" in words


async def test_saving_writes_a_new_file_each_time(make: Make, ended: Walk, tmp_path: Path) -> None:
    """The record is saved where it is said to be, and nothing is written over."""
    app = make(ended)
    async with app.run_test(size=(120, 40)) as pilot:
        await type_line(pilot, "4")
        await press(pilot, "s")
        files = sorted(tmp_path.glob("*.md"))  # noqa: ASYNC240 (a folder of the test)
        assert len(files) == 2
        assert all("101.3 V" in file.read_text() for file in files)
        assert "Saved in" in shown(app)


async def test_saving_writes_a_page_to_print_too(make: Make, ended: Walk, tmp_path: Path) -> None:
    """Beside the record in text lies the same as a PDF, by the same name, and the screen says so."""
    app = make(ended)
    async with app.run_test(size=(120, 40)) as pilot:
        await press(pilot, "s")
        await app.workers.wait_for_complete()
        await pilot.pause()
        (page,) = tmp_path.glob("*.pdf")  # noqa: ASYNC240 (a folder of the test)
        assert page.with_suffix(".md").exists()
        text = " ".join(sheet.extract_text() for sheet in PdfReader(page).pages)
        assert "101.3 V" in text
        assert f"to print beside it: {page.name}" in " ".join(shown(app).split())


async def test_a_folder_that_cannot_be_written_is_told(make: Make, ended: Walk, tmp_path: Path) -> None:
    """Where the record cannot be saved the person hears why, and the walk stands as it was."""
    app = make(ended)
    app.folder = tmp_path / "gone"
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "4")
        assert "could not be saved" in shown(app)


async def test_copying_is_only_a_request(make: Make, ended: Walk) -> None:
    """The message goes to the terminal, and the screen does not claim that it was copied."""
    app = make(ended)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "6")
        screen = app.screen
        assert isinstance(screen, EndingScreen)
        assert app.clipboard == message_text(screen.found)
        assert "Asked the terminal" in shown(app)


async def test_the_site_goes_into_the_message(make: Make, ended: Walk) -> None:
    """A site's number typed once stands in the words to say and in what is copied."""
    app = make(ended)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "1")
        await type_line(pilot, "b7")
        assert "Site b7: Low voltage" in shown(app)
        await press(pilot, "y")
        assert app.clipboard.startswith("Site b7:")


async def test_codes_lead_one_to_the_next_and_back(make: Make, ended: Walk) -> None:
    """In a small window the message takes several codes; Enter goes through them and back to the end."""
    app = make(ended)
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "c")
        screen = app.screen
        assert isinstance(screen, CodeScreen)
        count = len(screen._pieces)
        assert count > 1
        for _ in range(count):
            await pilot.press("enter")
            await pilot.pause()
        assert isinstance(app.screen, EndingScreen)


async def test_no_code_in_a_terminal_of_ascii(make: Make, ended: Walk) -> None:
    """Where blocks cannot be shown the screen says so instead of a code nobody can scan."""
    app = make(ended, ascii_only=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "c")
        assert "ASCII only" in shown(app)


async def test_an_ended_walk_is_finished_until_it_is_taken_up(
    make: Make, at_reading: Walk, journal: Journal
) -> None:
    """The journal lists a walk as unfinished until its ending, and again once its last answer is taken back."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "101.3")
        assert (len(journal.unfinished()), len(journal.finished())) == (0, 1)
        await press(pilot, "b")
        assert isinstance(app.screen, WalkScreen)
        assert (len(journal.unfinished()), len(journal.finished())) == (1, 0)
