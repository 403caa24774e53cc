"""A screen that is taken away while it is put there, as a thread that has news may do, ends nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.journal import Keeper
from shorewalk.screens.base import PageScreen
from shorewalk.screens.card import CardScreen
from shorewalk.screens.choose import ChooseScreen
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.possible import PossibleScreen
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.walk.answers import Read, Unable
from shorewalk.walk.walk import Walk

from .conftest import NOON, Make, shown

Of = Callable[[Walk, Keeper], PageScreen]

SCREENS: dict[str, Of] = {
    "start": lambda *_: StartScreen(),
    "walk": WalkScreen,
    "ending": lambda walk, keeper: EndingScreen(walk.answer(Unable(), time=NOON), keeper),
    "possible": lambda walk, _: PossibleScreen(walk.answer(Read("113.2"), time=NOON)),
    "card": lambda *_: CardScreen(),
    "choose": lambda *_: ChooseScreen("Which?", (), ((1, "This"),)),
}


@pytest.mark.parametrize("name", SCREENS)
async def test_a_screen_taken_away_at_once(make: Make, at_reading: Walk, name: str) -> None:
    """It may be told things all the same; what lay below it is shown, and takes what is typed."""
    app = make(at_reading)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        below = shown(app)
        screen = SCREENS[name](at_reading, Keeper(app.journal))
        app.push_screen(screen)
        app.pop_screen()
        await pilot.pause()
        screen.tell("Said to nobody.")
        screen.show_all()
        await pilot.pause()
        assert shown(app) == below
        await pilot.press("7")
        assert isinstance(app.screen, WalkScreen)
        assert app.screen.reply.value == "7"


async def test_a_screen_that_is_closed_already_closes_nothing(make: Make, walk: Walk) -> None:
    """Told to close once more, or while another lies over it, it leaves alone what is shown."""
    app = make(walk)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        first, card = app.screen, CardScreen()
        await app.push_screen(card)
        over = ChooseScreen("Which?", (), ((1, "This"),))
        await app.push_screen(over)
        card.dismiss()
        assert app.screen_stack == [first, card, over]
        over.dismiss()
        over.dismiss()
        assert app.screen_stack == [first, card]
        card.dismiss()
        card.dismiss()
        await pilot.pause()
        assert app.screen_stack == [first]
