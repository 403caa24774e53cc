"""A small tree, a journal in memory, a clock that stands still: the app with everything outside replaced."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.journal import Journal
from shorewalk.journal.store import connect_in_memory
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Answer, Choose, Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

KEYS = {
    ".": "full_stop",
    "-": "minus",
    "!": "exclamation_mark",
    "?": "question_mark",
    " ": "space",
    "%": "percent_sign",
    "+": "plus",
}
NOON = "2024-05-01T12:00:00Z"
TO_READING: tuple[Answer, ...] = (Done(), Choose("ground-up"), Choose("yes"), Done())
"""Answers that lead the small tree to its reading."""

Make = Callable[..., ShorewalkApp]


@pytest.fixture
def library() -> Library:
    """The small tree, with the shipped facts."""
    return Library(Path(__file__).parent / "trees", checked=False)


@pytest.fixture
def walk(library: Library) -> Walk:
    """A walk at its first question."""
    return begin(library, "small", parse_meter("basic"))


@pytest.fixture
def at_reading(walk: Walk) -> Walk:
    """A walk that asks for a reading."""
    for answer in TO_READING:
        walk = walk.answer(answer, time=NOON)
    return walk


@pytest.fixture
def journal() -> Journal:
    """A journal that is gone with the test."""
    return Journal(connect_in_memory(), clock=lambda: NOON)


@pytest.fixture
def make(library: Library, journal: Journal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Make:
    """How to make the app: on a walk, or at its start."""
    monkeypatch.delenv("NO_COLOR", raising=False)

    def made(walk: Walk | None = None, *, ascii_only: bool = False) -> ShorewalkApp:
        app = ShorewalkApp(walk, library=library, journal=journal, folder=tmp_path, ascii_only=ascii_only)
        app.asks_site = False  # what asks for it has its own tests
        return app

    return made


async def type_line(pilot: Pilot[int], text: str) -> None:
    """Type a text and Enter, as a person does."""
    await press(pilot, text)
    await pilot.press("enter")
    await pilot.pause()


async def press(pilot: Pilot[int], text: str) -> None:
    """Press the keys of a text."""
    for letter in text:
        await pilot.press(KEYS.get(letter, letter))
    await pilot.pause()


def shown(app: ShorewalkApp) -> str:
    """Return what is on the screen."""
    grid = [[" "] * app.size.width for _ in range(app.size.height)]
    for widget in app.screen.query("Sheet, Reply"):
        if not widget.display or not widget.region:
            continue
        for y, strip in enumerate(widget.render_lines(widget.region.reset_offset), widget.region.y):
            for x, letter in enumerate(strip.text, widget.region.x):
                grid[y][x] = letter
    return "\n".join("".join(row).rstrip() for row in grid) + "\n"
