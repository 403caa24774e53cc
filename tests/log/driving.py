"""Keys typed into the app, and what it shows."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.journal import Journal

NAMES = {",": "comma", " ": "space", "!": "exclamation_mark"}


def app_on(journal: Journal, folder: Path) -> ShorewalkApp:
    """Return the app at its start, with the shipped trees."""
    return ShorewalkApp(journal=journal, folder=folder, ascii_only=False)


async def press(pilot: Pilot[int], *keys: str) -> None:
    """Press keys; text of several letters is typed."""
    for key in keys:
        for letter in [key] if key in ("enter", "escape", "down", "pagedown") else key:
            await pilot.press(NAMES.get(letter, letter))
        await pilot.pause()


async def begin(pilot: Pilot[int], tree: str) -> None:
    """Begin a tree from the start, by the number it has there."""
    app = pilot.app
    assert isinstance(app, ShorewalkApp)
    await pilot.pause()
    offer = app.screen.offer.entries  # type: ignore[attr-defined]
    number = next(n for n, entry in enumerate(offer, 1) if getattr(entry, "name", None) == tree)
    await press(pilot, str(number), "enter")


def shown(app: ShorewalkApp) -> str:
    """Return the words on the screen."""
    rows: list[str] = []
    for widget in app.screen.query("Sheet"):
        if widget.display and widget.region:
            rows += [strip.text for strip in widget.render_lines(widget.region.reset_offset)]
    return " ".join(" ".join(rows).split())
