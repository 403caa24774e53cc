"""The start: what was left comes first, and what is typed is a number or words."""

from __future__ import annotations

from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp, told
from shorewalk.journal import Journal
from shorewalk.screens.card import CardScreen
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.walk.walk import Walk

from .conftest import Make, press, shown, type_line


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
    assert told(1, "2024-05-01T12:00:00Z").startswith("1 answer, left 0")
    assert told(2, "2024-05-01T12:00:00Z").startswith("2 answers, left 0")
