"""Practice in the app: a whole walk by keyboard, the meter in the hands, and what is said at the end."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import connect_in_memory
from shorewalk.lines import as_text
from shorewalk.pedestal.campground import bench_at, campground
from shorewalk.pedestal.hands import Hands
from shorewalk.practice_app import PracticeApp
from shorewalk.screens.bench import BenchScreen
from shorewalk.screens.practising import PracticeEnding, PracticeWalk
from shorewalk.tree.model import Ask, Measure, Step
from shorewalk.walk.answers import Choose

from .conftest import press, shown, type_line


def practice(name: str) -> PracticeApp:
    from shorewalk.starting import start

    walk = start("arrival", "basic,tenths")
    hands = Hands(bench_at(campground()[name], walk.meter))
    return PracticeApp(walk, Keeper(Journal(connect_in_memory())), hands, ascii_only=True)


async def answer(app: PracticeApp, pilot: Pilot[int]) -> None:
    """Answer one question as a careful learner does, by keys alone."""
    screen = app.screen
    assert isinstance(screen, PracticeWalk)
    node, bench = screen.walk.now.node, app.hands.bench
    while screen.reading.more:
        await pilot.press("enter")
    if isinstance(node, Ask):
        await press(pilot, "l")
        seen = bench.person.see(node)
        ids = [choice.id for choice in node.choices]
        await type_line(pilot, str(ids.index(seen.id) + 1) if isinstance(seen, Choose) else "0")
    elif isinstance(node, Measure):
        await press(pilot, "u")
        assert isinstance(app.screen, BenchScreen)
        await type_line(pilot, f"dial ac black {node.from_} red {node.to}")
        shown = app.screen.shown.removesuffix(" V")
        await type_line(pilot, "0")
        await type_line(pilot, shown)
    else:
        await type_line(pilot, "0" if isinstance(node, Step) and bench.person.cannot(node) else "1")


@pytest.mark.parametrize(
    ("size", "site", "wrong"),
    [
        ((80, 24), "creek-4", "The breaker trips again whenever it is switched on."),
        ((40, 20), "meadow-6", "The neutral of the outlet is open."),
    ],
)
async def test_a_whole_walk_by_keyboard_finds_the_fault(size: tuple[int, int], site: str, wrong: str) -> None:
    """From the cautions to the ending, every reading taken with the make-believe meter, at either size."""
    app = practice(site)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        while isinstance(app.screen, PracticeWalk):
            await answer(app, pilot)
        assert isinstance(app.screen, PracticeEnding)
        said = " ".join(as_text(app.screen.page(70, 100)).split())
        assert f"What was wrong: {wrong}" in said
        assert "Your walk ended as it should." in said
        assert "You made no mistake that was seen." in said
        assert app.last.ended


async def test_the_meter_goes_by_numbers_alone() -> None:
    """A phone's number pad is enough: dial, either probe, read, out, back; what cannot be is said."""
    app = practice("creek-1")
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "u")
        screen = app.screen
        assert isinstance(screen, BenchScreen)
        meter = app.hands.bench.meter
        for key, shown in (("1", "ac"), ("2", "L"), ("2", "N"), ("3", "L")):
            await type_line(pilot, key)
            assert shown in (meter.dial, *(tip[1] for tip in (meter.black, meter.red) if tip))
        assert screen.shown.endswith(" V")
        await type_line(pilot, "5")
        assert (meter.black, meter.red) == (None, None)
        await type_line(pilot, "juggle")
        assert '"juggle" is nothing that the meter does.' in str(screen._telling)
        await type_line(pilot, "0")
        assert isinstance(app.screen, PracticeWalk)


async def test_a_look_at_a_step_says_that_nothing_is_to_be_seen() -> None:
    """The key works on every question and answers none of them."""
    app = practice("creek-1")
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "l")
        assert isinstance(app.screen, PracticeWalk)
        assert "Nothing is asked for your eyes here." in str(app.screen._telling)
        assert app.screen.walk.answers == ()


async def test_another_look_is_had_in_practice_too() -> None:
    """The key for the look of the app is not the one for a look at the pedestal."""
    app = practice("creek-1")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await press(pilot, "v")
        assert "Look: " in shown(app) or "one look here" in shown(app)
