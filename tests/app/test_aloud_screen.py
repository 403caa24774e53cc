"""The walk's screen read aloud: the question in two lines, and the line to type into."""

from __future__ import annotations

import pytest

from shorewalk.pages.aloud import aloud_words
from shorewalk.walk.walk import Walk

from .conftest import Make, shown, type_line

WIDE, NARROW = 77, 38
"""Cells of the page in a window of 80 and of 40 columns."""


@pytest.mark.parametrize("size", [(80, 24), (40, 20)])
async def test_a_key_turns_it_on_and_off(at_reading: Walk, make: Make, size: tuple[int, int]) -> None:
    """`a` leaves the question and the line to type into; a reading is taken as ever; `a` again shows all."""
    app = make(at_reading)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        whole = shown(app)
        await pilot.press("a")
        await pilot.pause()
        page = " ".join(shown(app).split())
        assert aloud_words(at_reading.now, app.library.site, WIDE if size[0] == 80 else NARROW) in page
        assert "Known so far" not in page
        await pilot.press("a")
        await pilot.pause()
        assert shown(app) == whole
        await pilot.press("a")
        await type_line(pilot, "121.8")
        assert "121.8 V" in shown(app)
