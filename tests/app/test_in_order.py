"""Keys that come in one burst are taken in the order they come, as if each had been waited for."""

from __future__ import annotations

import random
from collections.abc import Iterable

import pytest
from textual import events

from shorewalk.app import ShorewalkApp
from shorewalk.screens.base import PageScreen
from shorewalk.screens.card import CardScreen
from shorewalk.screens.start import StartScreen
from shorewalk.screens.walk import WalkScreen
from shorewalk.walk.walk import Walk

from .conftest import KEYS, Make, shown

Key = events.Key | events.Paste

EDITS = {
    "backspace": "\x7f",
    "delete": None,
    "left": None,
    "right": None,
    "home": None,
    "end": None,
    "ctrl+a": "\x01",
    "ctrl+e": "\x05",
    "ctrl+d": "\x04",
    "ctrl+u": "\x15",
    "ctrl+k": "\x0b",
    "escape": "\x1b",
    "enter": "\r",
}
ROADS = [*"112b!?xk", "1enter", "1enter", "2enter", "enter", "escape", "backspace", "left", "119.5enter"]
"""What leads from screen to screen, and what changes the line."""


class Plain:
    """The plainest editor of one line: what is typed, where the cursor is, which lines were given."""

    def __init__(self) -> None:
        self.text, self.at, self.given = "", 0, list[str]()

    def press(self, key: str) -> None:
        """Take one key."""
        before, after = self.text[: self.at], self.text[self.at :]
        match key:
            case "enter":
                self.given += [self.text] if self.text else []
                before = after = ""
            case "escape":
                before = after = ""
            case "backspace":
                before = before[:-1]
            case "delete" | "ctrl+d":
                after = after[1:]
            case "left":
                before, after = before[:-1], before[-1:] + after
            case "right":
                before, after = before + after[:1], after[1:]
            case "home" | "ctrl+a":
                before, after = "", before + after
            case "end" | "ctrl+e":
                before, after = before + after, ""
            case "ctrl+u":
                before = ""
            case "ctrl+k":
                after = ""
            case _:
                before += key
        self.text, self.at = before + after, len(before)


class Asking(PageScreen):
    """Asks for lines and keeps them."""

    kind = "folder"
    letters = False

    def __init__(self) -> None:
        super().__init__()
        self.given: list[str] = []

    def give(self, text: str) -> None:
        """Keep what was typed."""
        self.given.append(text)

    def rest(self) -> None:
        """Let an empty line be nothing."""


def pressed(key: str) -> Key:
    """Return a key as it comes from the terminal; what has several digits is pasted."""
    if key in EDITS or len(key) == 1:
        return events.Key(KEYS.get(key, key), EDITS.get(key, key))
    return events.Paste(key)


def burst(app: ShorewalkApp, keys: Iterable[Key]) -> None:
    """Let all these keys be there before the first is looked at."""
    for key in keys:
        app.post_message(key)


@pytest.mark.parametrize("seed", range(8))
async def test_a_burst_is_edited_as_by_the_plainest_editor(make: Make, walk: Walk, seed: int) -> None:
    """Letters, edits, pastes and Enter in one burst leave the line and give the lines that they should."""
    chance = random.Random(seed)  # noqa: S311 (no secret)
    keys = chance.choices([*"0123456789.", "12.5", *EDITS], k=400)
    plain, app = Plain(), make(walk)
    for key in keys:
        plain.press(key)
    async with app.run_test() as pilot:
        asking = Asking()
        await app.push_screen(asking)
        burst(app, map(pressed, keys))
        await pilot.pause()
        assert asking.given == plain.given
        assert (asking.reply.value, asking.reply.cursor_position) == (plain.text, plain.at)
    assert len(plain.given) > 5


def roads(seed: int) -> list[str]:
    """Return keys that lead through the screens, and somewhere."""
    keys: list[str] = []
    for word in random.Random(seed).choices(ROADS, k=14):  # noqa: S311
        keys += [word] if word in EDITS else word.removesuffix("enter")
        keys += ["enter"] if word.endswith("enter") and word not in EDITS else []
    return keys


async def test_what_is_typed_behind_a_command_is_typed_where_it_leads(make: Make, walk: Walk) -> None:
    """Of digits behind the letter that opens the card, the card's line has all, the walk's none."""
    app = make(walk)
    async with app.run_test() as pilot:
        await pilot.pause()
        walking = app.screen
        assert isinstance(walking, PageScreen)
        burst(app, map(pressed, "1!23?"))
        await pilot.pause()
        card = app.screen
        assert isinstance(card, CardScreen)
        assert (walking.reply.value, card.reply.value) == ("1", "23?")
        burst(app, map(pressed, ["escape", "escape", "2", "left", "3"]))
        await pilot.pause()
        assert app.screen is walking
        assert walking.reply.value == "132"


@pytest.mark.parametrize("seed", range(12))
async def test_a_burst_leads_where_single_keys_lead(
    make: Make, walk: Walk, at_reading: Walk, seed: int
) -> None:
    """Commands, cards, menus and answers in one burst end on the same screen with the same line."""
    begin = at_reading if seed % 2 else walk
    ends: list[tuple[str, list[str]]] = []
    for at_once in (False, True):
        app = make(begin)
        async with app.run_test() as pilot:
            await pilot.pause()
            if at_once:
                burst(app, map(pressed, roads(seed)))
            for key in () if at_once else roads(seed):
                burst(app, [pressed(key)])
                await pilot.pause()
            for _ in range(3):
                await pilot.pause()
            ends.append((shown(app), [type(screen).__name__ for screen in app.screen_stack]))
    assert ends[0] == ends[1]


async def test_what_is_typed_behind_leaving_is_typed_where_it_leads(make: Make, walk: Walk) -> None:
    """Leaving for the list, in one burst with what is meant for the list: the list has it, and is still there."""
    app = make(walk)
    async with app.run_test() as pilot:
        await pilot.pause()
        burst(app, map(pressed, ["k", "q", "2", "enter", "1", "2"]))
        await pilot.pause()
        assert isinstance(app.screen, StartScreen)
        assert app.screen.reply.value == "12"


async def test_what_is_typed_while_the_program_starts_is_kept_in_order(make: Make, at_reading: Walk) -> None:
    """Keys that were there before the first screen was are taken by it as if they came later."""
    app = make(at_reading)
    burst(app, map(pressed, ["1", "1", "backspace", "2", ".", "5", "!", "escape", "escape", "escape", "1"]))
    async with app.run_test() as pilot:
        await pilot.pause()
        assert isinstance(app.screen, WalkScreen)
        assert app.screen.reply.value == "1"
