"""A few whole screens as text, each with a sentence of what a person should see.

After a wanted change: `SHOREWALK_REDRAW=1 pytest tests/app/test_whole_screens.py`, then read the files.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from shorewalk.walk.answers import Answer, Read, Unable
from shorewalk.walk.walk import Walk

from .conftest import NOON, TO_READING, Make, shown

SCREENS = Path(__file__).parent / "screens"

CASES: dict[str, tuple[tuple[int, int], tuple[Answer, ...] | None, str]] = {
    "start-80x24": ((80, 24), None, "What can be begun, numbered, and beside it what one must know first."),
    "cautions-40x20": ((40, 20), (), "The cautions in full, and that there is more below."),
    "reading-80x24": (
        (80, 24),
        TO_READING,
        "The question alone, what is normal, the outlet ground up with both slots marked, what is known.",
    ),
    "reading-40x20": ((40, 20), TO_READING, "The same question with the small picture, nothing of it cut."),
    "reading-120x40": ((120, 40), TO_READING, "The picture on the page, and the side for how things stand."),
    "edge-80x24": (
        (80, 24),
        (*TO_READING, Read("113.2")),
        "A reading graded watch, by word and mark, and that it is close to the edge.",
    ),
    "ending-80x24": (
        (80, 24),
        (*TO_READING, Unable()),
        "The verdict, what to do, whom to call, what to say.",
    ),
}


@pytest.mark.parametrize("name", CASES)
async def test_a_whole_screen(make: Make, walk: Walk, name: str) -> None:
    """The screen is what it was when somebody last looked at it and found it right."""
    size, answers, _ = CASES[name]
    for answer in answers or ():
        walk = walk.answer(answer, time=NOON)
    app = make(None if answers is None else walk)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.pause()
        text = shown(app)
    file = SCREENS / f"{name}.txt"
    if os.environ.get("SHOREWALK_REDRAW"):
        file.write_text(text, encoding="utf-8")
    assert text == file.read_text(encoding="utf-8")


def test_every_file_is_a_case() -> None:
    """No screen is kept that no test looks at."""
    assert {file.stem for file in SCREENS.glob("*.txt")} == set(CASES)
