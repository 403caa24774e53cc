"""Nothing moves by itself: no animation, no blinking, not a byte while nobody types."""

from __future__ import annotations

import pytest
from textual.message_pump import MessagePump

from shorewalk.app import ShorewalkApp
from shorewalk.screens.base import PageScreen
from shorewalk.walk.walk import Walk

from .conftest import Make, press


def running(app: ShorewalkApp) -> list[object]:
    """Return the timers that go off by themselves."""
    pumps: list[MessagePump] = [app, app.screen, *app.screen.walk_children()]
    return [timer for pump in pumps for timer in pump._timers if timer._active.is_set()]


@pytest.mark.parametrize("typed", ["", "121.8", "!", "p"])
async def test_an_app_at_rest_is_at_rest(make: Make, at_reading: Walk, typed: str) -> None:
    """No timer runs once it is painted, so that nothing is written and no battery is used."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, typed)
        for _ in range(3):
            await pilot.pause()
        assert running(app) == []
        assert app.animation_level == "none"
        assert isinstance(app.screen, PageScreen)
        assert app.screen.reply.cursor_blink is False
