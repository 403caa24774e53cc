"""The start: what was left comes first, and what is typed is a number or words."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.journal import Entry, Journal
from shorewalk.lines import as_text
from shorewalk.pages.left import told
from shorewalk.pages.start import Begin, start_page
from shorewalk.screens.card import CardScreen
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.sections import Section
from shorewalk.tree.library import Header, Library
from shorewalk.walk.walk import Walk

from .conftest import NOON, Make, press, shown, type_line


def node(app: ShorewalkApp) -> str:
    assert isinstance(app.screen, WalkScreen)
    return app.screen.walk.now.node.name


async def begin_small(pilot: Pilot[int], text: str) -> None:
    await pilot.pause()
    await type_line(pilot, text)


async def test_a_number_begins_a_walk(make: Make) -> None:
    """The number before a symptom begins its walk."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await begin_small(pilot, "1")
        assert node(app) == "read_first"


async def test_words_narrow_the_list_and_enter_takes_the_only_one(make: Make) -> None:
    """Typing filters by the person's words; with one left, Enter begins it."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "testing")
        assert 'What fits "testing"' in shown(app)
        await pilot.press("enter")
        await pilot.pause()
        assert node(app) == "read_first"


async def test_words_that_fit_nothing_still_leave_something_to_choose(make: Make) -> None:
    """Where nothing fits, what there is stays in sight."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "zeppelin")
        text = shown(app)
        assert 'Nothing fits "zeppelin"' in text
        assert "Press ! now." in text
        assert "A small walk to test with" in text


async def test_what_was_left_comes_first(make: Make, journal: Journal, at_reading: Walk) -> None:
    """An unfinished walk is number 1, says how far it went, and goes on where it was."""
    journal.begin(at_reading)
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        text = shown(app)
        assert text.index("Go on with") < text.index("A small walk to test with", text.index("answers, left"))
        assert "4 answers, left" in text
        await type_line(pilot, "1")
        assert node(app) == "hot_neutral"
        assert len(journal.unfinished()) == 1


async def test_the_card_and_the_way_out(make: Make) -> None:
    """`!` opens the card also here; the letter of the way out waits for Enter, because letters are words."""
    app = make()
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "!")
        assert isinstance(app.screen, CardScreen)
        await pilot.press("escape")
        await pilot.pause()
        await press(pilot, "q")
        assert isinstance(app.screen, StartScreen)
        await pilot.press("enter")
        await pilot.pause()
    assert app.return_value == 0


async def test_the_meter_is_told_by_number_or_as_its_maker_states_it(make: Make) -> None:
    """A good meter is number 2; one's own is typed as a percentage and a count."""
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "m")
        await type_line(pilot, "2")
        assert (app.meter.percent, app.meter.counts) == (0.8, 3.0)
        await type_line(pilot, "m")
        await type_line(pilot, "1%+2")
        assert (app.meter.percent, app.meter.counts) == (1.0, 2.0)


def test_a_walk_that_was_left_says_when() -> None:
    """One answer is one answer."""
    one = Entry(1, "small", None, "basic", NOON, NOON, 1)
    assert told(one).startswith("1 answer, left 0")
    assert told(one._replace(answers=2)).startswith("2 answers, left 0")
    assert told(one, elsewhere=True).endswith(", open in another terminal")


def entry(number: int, symptom: str) -> Header:
    return Header(f"tree-{number}", symptom, tells=("one thing", "another thing"))


def test_the_list_stands_in_two_columns_where_there_is_room() -> None:
    """Numbers go down the left column first; a section is never parted; a narrow window has one column."""
    sections = (
        Section("Act now", (entry(1, "It burns"), entry(2, "It smokes"))),
        Section("Later", (entry(3, "It hums"), entry(4, "It is dark"))),
    )
    wide = as_text(start_page(Begin((), sections), None, 76, 17, ascii_only=True)).splitlines()
    assert [line.split() for line in wide[:2]] == [
        ["Act", "now", "Later"],
        ["1", "It", "burns", "3", "It", "hums"],
    ]
    narrow = as_text(start_page(Begin((), sections), 4, 38, 17, ascii_only=True)).splitlines()
    assert narrow[:7] == [
        "Act now",
        "  1 It burns",
        "  2 It smokes",
        "",
        "Later",
        "  3 It hums",
        "> 4 It is dark",
    ]


def test_the_few_that_fit_say_what_they_tell_apart_where_there_is_room() -> None:
    """Two found by words say it; in a window too low for it, all of the symptoms are seen instead."""
    begin = Begin((), (Section("", (entry(1, "It burns"), entry(2, "It smokes"))),), asked="it")
    for height, told_apart in ((17, True), (7, False)):
        rows = start_page(begin, None, 38, height, ascii_only=True)
        assert ("Tells apart: one thing; another" in as_text(rows)) is told_apart
        assert "It smokes" in as_text(rows[:height])


async def test_the_entry_that_is_typed_is_scrolled_to(make: Make, tmp_path: Path) -> None:
    """The number of the last of many brings it into sight before Enter is pressed."""
    for number in range(20):
        text = f"tree: t{number:02}\nsymptom: Trouble {number:02}\nbegin: a\nnodes: {{}}\n"
        (tmp_path / f"t{number:02}.yaml").write_text(text, encoding="utf-8")
    app = make()
    app.library = Library(tmp_path, checked=False)
    async with app.run_test(size=(40, 16)) as pilot:
        await pilot.pause()
        assert "Trouble 19" not in shown(app)
        await press(pilot, "20")
        assert ">20 Trouble 19" in shown(app).replace("▸", ">")
