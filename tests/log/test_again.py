"""The same readings once more, in two keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.journal.where import where_of
from shorewalk.log.again import TREE, read_again
from shorewalk.screens.walk import WalkScreen
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Done, Read
from shorewalk.walk.meter import parse_meter

from .conftest import BEFORE, SITE, SUPPER, Clock, Keep
from .driving import app_on, press, shown

EVENING = "read-again-evening"
METER = parse_meter("basic")


async def test_two_keys_lead_to_the_first_thing_to_do(
    journal: Journal, tmp_path: Path, keep: Keep, clock: Clock
) -> None:
    """`r` and Enter at the start: site, outlet and what the meter shows are known, the first step is at hand."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    clock.set("2024-05-01T18:50:00")
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("r", "enter")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, WalkScreen)
        now = screen.walk.now
        assert (screen.walk.tree, now.node.name, now.outlet, now.meter.tenths) == (
            TREE,
            "quiet",
            "pedestal-30",
            True,
        )
        assert screen.keeper.placing.where == SITE._replace(outlet="30 A outlet")
        await press(pilot, "1", "enter")
        assert "Measure the rig outlet that you took before." in shown(app)
        kept = journal.walks()[0]
        assert (kept.tree, where_of(kept)) == (TREE, SITE._replace(outlet="30 A outlet"))


def test_what_changes_is_asked(journal: Journal, keep: Keep, clock: Clock) -> None:
    """No look, no smell and no switch is taken over from the morning: the only answers are the outlet and the meter."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    clock.set("2024-05-01T18:50:00")
    walk = read_again(journal, shipped(), METER).walk
    assert [answered.at for answered in walk.answers] == ["outlet", "tenths"]
    assert {answered.time for answered in walk.answers} == {clock()}
    asked = walk.answer(Done()).answer(Read("111.0", confirmed=True)).answer(Read("0.4"))
    assert asked.now.node.name == "smell"


def test_without_an_earlier_walk_it_begins_at_its_beginning(journal: Journal) -> None:
    """Nothing is made up."""
    again = read_again(journal, shipped(), METER)
    assert (again.walk.now.node.name, again.walk.answers, again.where) == ("outlet", (), None)


def test_another_site_tells_nothing(journal: Journal, keep: Keep, clock: Clock) -> None:
    """The outlet of the site before is not the one here; nor is that of a stay which was left."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    clock.set("2024-05-01T18:50:00")
    assert not read_again(journal, shipped(), METER, SITE._replace(site="15")).walk.answers
    clock.set("2024-05-03T18:50:00")
    assert not read_again(journal, shipped(), METER).walk.answers


@pytest.mark.parametrize(("own", "used"), [(False, "basic"), (True, "good")])
def test_the_meter_that_the_person_set_is_used(
    journal: Journal, keep: Keep, clock: Clock, *, own: bool, used: str
) -> None:
    """Else that of the stay; what another meter shows is asked of this one."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    clock.set("2024-05-01T18:50:00")
    walk = read_again(journal, shipped(), parse_meter("good"), own=own).walk
    assert walk.meter.name == used
    assert [answered.at for answered in walk.answers] == ["outlet", "tenths"][: 1 if own else 2]


def test_another_stay_at_the_same_site_tells_nothing(journal: Journal, keep: Keep, clock: Clock) -> None:
    """The site is the same, but the outlet and the meter of an earlier visit are not taken over."""
    keep(SUPPER, "2023-09-10T15:00:00", BEFORE)
    clock.set("2024-05-01T18:50:00")
    again = read_again(journal, shipped(), parse_meter("good"), SITE)
    assert (again.walk.answers, again.walk.meter.name) == ((), "good")
    old = read_again(journal, shipped(), parse_meter("good"), BEFORE)
    assert (old.walk.answers, old.where) == ((), SITE)


async def test_a_meter_said_in_the_app_is_the_one_it_reads_again_with(
    journal: Journal, tmp_path: Path, keep: Keep, clock: Clock
) -> None:
    """`m`, a good one, then `r`: not the basic one of the morning."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    clock.set("2024-05-01T18:50:00")
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await press(pilot, "m", "enter", "2", "enter", "r", "enter")
        assert isinstance(app.screen, WalkScreen)
        assert (app.screen.walk.tree, app.screen.walk.meter.name) == (TREE, "good")


async def test_from_the_log_it_is_the_site_that_is_shown(full: Journal, tmp_path: Path, clock: Clock) -> None:
    """`l`, Enter, 1, Enter, r: days later too, the walk is at the site whose readings were looked at."""
    clock.set("2024-05-05T18:50:00")
    app = app_on(full, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l", "enter", "1", "enter", "r")
        screen = app.screen
        assert isinstance(screen, WalkScreen)
        assert (screen.walk.tree, screen.walk.now.outlet) == (TREE, "pedestal-30")
        assert screen.keeper.placing.where.says == "site 14, Someday Flats"


async def test_its_end_compares_with_the_readings_before(
    journal: Journal, tmp_path: Path, keep: Keep
) -> None:
    """This evening stands under this morning, with how far it moved, on the page with the verdict."""
    keep(EVENING, "2024-05-01T07:30:00", SITE, {"hot_neutral": "121.8", "load.loaded": "119.9"})
    number = keep(EVENING, "2024-05-01T18:50:00", SITE)
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        app.go_on(number)
        await pilot.pause()
        text = shown(app)
        assert "01 May 07:31 121.8 ✓ 119.9 ✓ 01 May 18:51 115.2 ✓ 113.1 ✓ -6.6" in text
