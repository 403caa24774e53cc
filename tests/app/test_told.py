"""What the system tells the program while it is at something else: stop, and go on."""

from __future__ import annotations

import os
import signal

import pytest
from textual.app import App
from textual.drivers.headless_driver import HeadlessDriver

from shorewalk.glass import Glass
from shorewalk.told import Told

HAS, GAVE_BACK = "has the terminal", "gave it back"


class Noted(Told, HeadlessDriver):
    """A driver that notes what it does with the terminal, and leaves the signals of the tests alone."""

    def __init__(self, app: App[None]) -> None:
        super().__init__(app)
        self.glass = Glass()
        self.did = [HAS]
        self._shown = True

    def suspend_application_mode(self) -> None:
        self.did.append(GAVE_BACK)
        self._shown = self._paused = False

    def resume_application_mode(self) -> None:
        self.did.append(HAS)
        self._shown = True


@pytest.fixture
def sent(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The signals that the program sends itself, instead of sending them."""
    numbers: list[int] = []
    monkeypatch.setattr(os, "kill", lambda _, number: numbers.append(number))
    return numbers


async def test_who_is_told_to_go_on_before_it_stopped_does_not_stop(sent: list[int]) -> None:
    """Nobody would tell it a second time; the screen is drawn anew as after a stop."""
    async with App[None]().run_test() as pilot:
        driver = Noted(pilot.app)
        driver._sigtstp_application()
        driver._sigcont_application()
        await pilot.pause()
        assert not sent
        assert driver.did[-1] == HAS
        driver._sigtstp_application()
        await pilot.pause()
        assert sent == [signal.SIGSTOP]
        assert driver.did[-1] == GAVE_BACK
        driver._sigcont_application()
        await pilot.pause()
        assert driver.did[-1] == HAS


async def test_who_is_told_to_go_on_after_the_end_leaves_the_terminal_alone(sent: list[int]) -> None:
    """It was given back for good: taking it again would leave it unusable."""
    async with App[None]().run_test() as pilot:
        driver = Noted(pilot.app)
        driver._sigtstp_application()
        driver._sigcont_application()
        driver.suspend_application_mode()
        await pilot.pause()
        assert not sent
        assert driver.did == [HAS, GAVE_BACK]
