"""What reads the keys, where it fails."""

from __future__ import annotations

from asyncio import to_thread

import pytest
from textual.drivers.headless_driver import HeadlessDriver

from shorewalk.incoming import Incoming
from shorewalk.walk.walk import Walk

from .conftest import Make


class Failing(Incoming, HeadlessDriver):
    """Reads nothing."""

    def run_input_thread(self) -> None:
        """Fail in a way nobody thought of."""
        raise ZeroDivisionError


async def test_a_fault_in_reading_keys_is_told_as_any_other(make: Make, walk: Walk) -> None:
    """It comes to the app, which says so in a line and writes it down, and not to the terminal."""
    app = make(walk)

    async def read_keys() -> None:
        async with app.run_test() as pilot:
            await to_thread(Failing(app)._run_input_thread)
            await pilot.pause()

    with pytest.raises(ZeroDivisionError):
        await read_keys()
