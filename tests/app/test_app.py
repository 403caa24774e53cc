"""The program as a whole: its colours, what it loads, how it is called, its picture."""

from __future__ import annotations

import random
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.emergency import CARD
from shorewalk.journal import Journal
from shorewalk.lines import as_text
from shorewalk.marks import cannot_show_blocks
from shorewalk.screens.base import LEAST
from shorewalk.screens.card import CardScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.walk.answers import Read
from shorewalk.walk.walk import Walk

from .conftest import Make, press, shown

PRESSED = ["enter"] * 8 + [*"0112345", "full_stop", "escape", "backspace", "down", "pageup", *"bkpxmsty"]
"""Keys to press blindly. Not the way out: a program that was left takes no more keys."""
HEAVY = ("networkx", "numpy", "uncertainties", "pydantic", "segno", "watchfiles")


async def test_without_colour_nothing_is_coloured(
    make: Make, at_reading: Walk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With NO_COLOR no colour is sent, and what had a coloured ground is reversed instead."""
    app_before = make(at_reading)
    assert not app_before.no_color
    monkeypatch.setenv("NO_COLOR", "1")
    from shorewalk.app import ShorewalkApp

    app = ShorewalkApp(at_reading, library=app_before.library, journal=app_before.journal, ascii_only=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "1")
        for widget in app.screen.query("Sheet, Reply"):
            for strip in widget.render_lines(widget.region.reset_offset):
                for segment in strip:
                    style = segment.style
                    assert style is None or style.color is None or style.color.is_default
                    assert style is None or style.bgcolor is None or style.bgcolor.is_default


async def test_an_empty_no_color_asks_for_nothing(
    make: Make, at_reading: Walk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The convention of NO_COLOR: present and not empty."""
    app = make(at_reading)
    monkeypatch.setenv("NO_COLOR", "")
    from shorewalk.app import ShorewalkApp

    assert not ShorewalkApp(at_reading, library=app.library, journal=app.journal).no_color


async def test_ascii_only_is_ascii_only(make: Make, at_reading: Walk) -> None:
    """A terminal without blocks gets a screen without any."""
    for size in ((80, 24), (40, 20), (120, 40)):
        app = make(at_reading, ascii_only=True)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await pilot.pause()
            assert shown(app).isascii()


@pytest.mark.parametrize("size", [LEAST, (30, 10), (200, 60), (500, 200)])
async def test_odd_windows_do_no_harm(make: Make, at_reading: Walk, size: tuple[int, int]) -> None:
    """The least window, or a very large one, still takes an answer."""
    app = make(at_reading)
    async with app.run_test(size=size) as pilot:
        assert "Meter shows >" in shown(app)
        await press(pilot, "x")
        assert app.screen.walk.ended  # type: ignore[attr-defined]


@pytest.mark.parametrize("size", [(1, 1), (20, 5), (23, 24), (80, 8)])
async def test_a_window_too_small_takes_no_answer(
    make: Make, at_reading: Walk, size: tuple[int, int]
) -> None:
    """It says how large it must be; what was typed is still there when it is, and counts then."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "113.")
        await pilot.resize_terminal(*size)
        await pilot.pause()
        if size[1] > 1:
            said = " ".join(as_text(app.screen.reading.lines).split())  # type: ignore[attr-defined]
            assert said == "Too small a window, make it 24 by 9. Nothing is lost. ! emergency."
            assert "Too small" in shown(app)
        await press(pilot, "2")
        await pilot.press("enter")
        await pilot.pause()
        assert app.screen.walk is at_reading  # type: ignore[attr-defined]
        await pilot.resize_terminal(40, 16)
        await pilot.pause()
        assert "Meter shows > 113.2" in shown(app)
        await pilot.press("enter")
        await pilot.pause()
        assert app.screen.walk.answers[-1].answer == Read("113.2")  # type: ignore[attr-defined]


@pytest.mark.parametrize("size", [(20, 5), (30, 8), (23, 24)])
async def test_the_emergency_card_opens_in_any_window(
    make: Make, at_reading: Walk, size: tuple[int, int]
) -> None:
    """Its first words are seen where nothing else fits; Enter reads on and goes back, and what was typed waits."""
    app = make(at_reading)
    async with app.run_test(size=size) as pilot:
        await press(pilot, "!")
        await pilot.pause()
        assert CARD[0].split()[:3] == shown(app).split()[1:4]
        assert isinstance(app.screen, CardScreen)
        for _ in range(60):
            await pilot.press("enter")
            await pilot.pause()
            if not isinstance(app.screen, CardScreen):
                break
        assert "Too small" in shown(app)


@pytest.mark.parametrize("key", [*"xbk", "enter"])
async def test_no_command_runs_where_it_cannot_be_seen(make: Make, at_reading: Walk, key: str) -> None:
    """In a window too small no letter answers or opens anything."""
    app = make(at_reading)
    async with app.run_test(size=(20, 6)) as pilot:
        await press(pilot, key)
        assert app.screen.walk is at_reading  # type: ignore[attr-defined]


def test_blocks_are_known_not_to_be_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """Terminals that are known to lack blocks, and whoever asks for it, get ASCII."""
    monkeypatch.setenv("SHOREWALK_ASCII", "1")
    assert cannot_show_blocks()
    monkeypatch.delenv("SHOREWALK_ASCII")
    monkeypatch.setenv("TERM", "vt100")
    assert cannot_show_blocks()


def test_a_walk_on_the_screen_loads_nothing_heavy(tmp_path: Path) -> None:
    """Nothing that a question does not need is loaded to ask it."""
    program = (
        "import asyncio, sys\n"
        "from shorewalk.app import ShorewalkApp\n"
        "from shorewalk.starting import start\n"
        "async def main():\n"
        "    async with ShorewalkApp(start('arrival')).run_test(size=(80, 24)) as pilot:\n"
        "        await pilot.press('1', 'enter')\n"
        "        await pilot.pause()\n"
        "asyncio.run(main())\n"
        f"print(sorted(set(sys.modules) & set({HEAVY!r})))\n"
    )
    env = {"SHOREWALK_HOME": str(tmp_path), "PATH": "/usr/bin:/bin", "TERM": "xterm"}
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, env=env, check=False
    )
    assert done.stdout.strip() == "[]", done.stderr[-500:]


@pytest.mark.parametrize("seed", range(2))
async def test_any_keys_do_no_harm(make: Make, journal: Journal, seed: int) -> None:
    """Whatever is pressed, in whatever window, nothing breaks and the journal holds what the screen shows."""
    app = make()
    chosen = random.Random(seed)  # noqa: S311 (no secret)
    async with app.run_test(size=(80, 24)) as pilot:
        for number in range(70):
            if number % 20 == 19:
                await pilot.resize_terminal(*chosen.choice([(40, 16), (120, 40), (24, 9), (80, 24)]))
            await pilot.press(chosen.choice(PRESSED))
            await pilot.pause()
            screen = app.screen
            if isinstance(screen, WalkScreen) and screen.walk.answers and not screen.revising:
                kept = journal.load(screen.keeper.number or 0, app.library)
                assert kept.answers == screen.walk.answers
