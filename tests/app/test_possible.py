"""What the readings leave, in the app: a count beside the question, the lists on a key, and no waiting for either."""

from __future__ import annotations

import asyncio
import gc
import threading
import warnings

import pytest

from shorewalk.lines import as_text
from shorewalk.pages.possible import NOTHING_READ
from shorewalk.ruling import Ruled, Ruling
from shorewalk.screens.possible import PossibleScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.starting import start
from shorewalk.walk.answers import Read
from shorewalk.walk.walk import Walk

from ..bench.walker import steps
from .conftest import Make, press, shown, type_line

FEW = 90
PATIENCE = 60
"""Seconds after which what never comes is a failure; never waited for in a good run."""


class Quick(Ruling):
    """The same with few variants, and told when it may begin and when it was done."""

    def __init__(self) -> None:
        super().__init__()
        from shorewalk.pedestal.faults import shipped_faults
        from shorewalk.pedestal.ruleout import RuleOut

        self.may, self.done = threading.Event(), threading.Event()
        self._engine = RuleOut(shipped_faults(), FEW)

    def look(self, walk: Walk, *, telling: bool = False) -> Ruled:
        assert self.may.wait(PATIENCE)
        ruled = super().look(walk, telling=telling)
        self.done.set()
        return ruled


def after(readings: int) -> Walk:
    """Return a walk at a sound 30 A outlet after so many readings."""
    seen = 0
    for walk, answer in steps("arrival-30-good"):
        if seen == readings:
            return walk
        seen += isinstance(answer, Read)
    raise AssertionError("The walk has not so many readings.")


@pytest.mark.parametrize("size", [(80, 24), (40, 20)])
async def test_the_lists_are_one_key_away(make: Make, size: tuple[int, int]) -> None:
    """`i` says what would tell, what is possible and what is ruled out; Enter goes back to the question."""
    app = make(after(10))
    app.ruling = ruling = Quick()
    ruling.may.set()
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await press(pilot, "i")
        screen = app.screen
        assert isinstance(screen, PossibleScreen)
        async with asyncio.timeout(PATIENCE):
            while screen.ruled is None or not screen.ruled.told:
                await pilot.pause()
        said = " ".join(as_text(screen.page(size[0] - 2, 200)).split())
        for words in (
            "What would tell",
            "Still possible",
            "Nothing is wrong",
            "Ruled out",
            "Hot and ground are swapped",
        ):
            assert words in said
        while screen.reading.more:
            await pilot.press("enter")
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, WalkScreen)


async def test_a_question_never_waits_for_what_is_worked_out(make: Make) -> None:
    """While nothing is worked out yet the next answer is taken; the count comes to the side when it is there."""
    app = make(after(7))
    app.ruling = ruling = Quick()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, WalkScreen)
        before = len(screen.walk.answers)
        await type_line(pilot, "0.2")
        assert len(screen.walk.answers) == before + 1
        assert "Still possible" not in shown(app)
        ruling.may.set()
        async with asyncio.timeout(PATIENCE):
            while "Still possible" not in shown(app):
                await pilot.pause()
        assert ruling.done.is_set()


def test_what_is_worked_out_too_late_is_told_to_nobody(make: Make) -> None:
    """Where the app ended meanwhile, what the other thread still tells goes nowhere, and leaves nothing undone."""
    app, behind = make(after(8)), threading.Event()
    app.ruling = ruling = Quick()

    async def used() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()

    asyncio.run(used())
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always")
        ruling.ask(after(1), lambda *_: behind.set())
        ruling.may.set()
        assert behind.wait(PATIENCE)
        gc.collect()
    assert not warned


async def test_before_any_reading_the_key_says_so(make: Make) -> None:
    """Nothing is worked out, nothing is loaded, and the page says why."""
    app = make(start("arrival"))
    app.ruling = Quick()
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "i")
        assert NOTHING_READ in " ".join(shown(app).split())
        assert not app.ruling.done.is_set()
