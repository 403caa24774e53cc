"""The question for the site, as a person meets it."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.journal.where import where_of
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.screens.where import WhereScreen

from .conftest import SITE, SUPPER, Clock, Keep
from .driving import app_on, begin, press, shown


async def test_one_enter_passes_it_by_for_the_whole_stay(journal: Journal, tmp_path: Path) -> None:
    """Before the first walk it is asked; after Enter the walk is there, and the next one begins at once."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "voltage-low")
        assert isinstance(app.screen, WhereScreen)
        await press(pilot, "enter")
        assert isinstance(app.screen, WalkScreen)
        await press(pilot, "1", "enter")
        (kept,) = journal.walks()
        assert (kept.site, kept.park, kept.visited) == (None, None, "2024-05-01")
        app.show_start()
        await begin(pilot, "no-power")
        assert isinstance(app.screen, WalkScreen)


async def test_what_is_typed_is_kept_with_the_walk_and_the_next(journal: Journal, tmp_path: Path) -> None:
    """Typed once: it stands beside this walk and beside the next, which asks nothing."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(40, 20)) as pilot:
        await begin(pilot, "voltage-low")
        await press(pilot, "14, Someday Flats", "enter", "1", "enter")
        assert isinstance(app.screen, WalkScreen)
        app.show_start()
        await begin(pilot, "no-power")
        assert isinstance(app.screen, WalkScreen)
        await press(pilot, "1", "enter")
        assert [where_of(entry)[:2] for entry in journal.walks()] == [("Someday Flats", "14")] * 2


@pytest.mark.parametrize(
    "tree", ["tingle", "somebody-hurt", "something-broke", "some-bright", "storm", "hot-plug"]
)
async def test_nothing_stands_before_a_tree_that_acts_first(
    journal: Journal, tmp_path: Path, tree: str
) -> None:
    """The first thing seen is the first thing to do."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, tree)
        assert isinstance(app.screen, WalkScreen)
        assert app.screen.walk.tree == tree


async def test_who_arrives_may_still_be_there(
    journal: Journal, tmp_path: Path, keep: Keep, clock: Clock
) -> None:
    """The last site is offered, and y takes it, with the day the stay began."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    clock.set("2024-05-03T10:00:00")
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "arrival")
        assert "Still at site 14, Someday Flats, since 01 May 2024" in shown(app)
        await press(pilot, "y", "enter")
        assert isinstance(app.screen, WalkScreen)
        where = app.screen.keeper.placing.where
        assert (where.site, where.visited) == ("14", "2024-05-01")


async def test_what_cannot_be_seen_is_refused_and_asked_again(journal: Journal, tmp_path: Path) -> None:
    """A sentence says why; the question stays, and Esc goes back to the list with no walk begun."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "voltage-low")
        screen = app.screen
        assert isinstance(screen, WhereScreen)
        screen.give("14\u202e")
        await pilot.pause()
        assert "U+202E" in shown(app)
        await press(pilot, "escape")
        await press(pilot, "escape")
        assert isinstance(app.screen, StartScreen)
        assert not journal.walks()


async def test_the_emergency_card_is_one_key_away(journal: Journal, tmp_path: Path) -> None:
    """Also while the site is asked for."""
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "voltage-low")
        await press(pilot, "!")
        assert type(app.screen).__name__ == "CardScreen"
