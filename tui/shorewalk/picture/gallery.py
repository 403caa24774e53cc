"""The pictures: which moment, at which size, in which look, and how each is drawn."""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import NamedTuple

from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.preview_app import PreviewApp
from shorewalk.screens.possible import PossibleScreen

from .scenes import Scene, at_bench, at_end, at_question, at_start, previewing, with_log
from .svg import as_svg, cells_of

NAMES = {".": "full_stop", "!": "exclamation_mark", " ": "space", "\r": "enter"}
PHONE = (40, 20)


def at_once(_: ShorewalkApp) -> bool:
    """Wait for nothing."""
    return True


def checked(app: ShorewalkApp) -> bool:
    """Tell whether the linter has spoken."""
    return isinstance(app, PreviewApp) and not app.preview.checking


def ruled_out(app: ShorewalkApp) -> bool:
    """Tell whether it is worked out what is possible, and what would tell most."""
    return isinstance(app.screen, PossibleScreen) and app.screen.ruled is not None and app.screen.ruled.told


class Picture(NamedTuple):
    """`title` says to a screen reader what is on it. When it `begins`, `keys` are typed; when it is `ready`, drawn."""

    name: str
    title: str
    scene: Scene
    keys: str = ""
    size: tuple[int, int] = (80, 24)
    look: str = "dusk"
    begins: Callable[[ShorewalkApp], bool] = at_once
    ready: Callable[[ShorewalkApp], bool] = at_once


READING = at_question("arrival-50-good", "look_a_50.neutral_ground")

PICTURES = (
    Picture("start", "The start: what may be wrong, by number, what may not wait first", at_start),
    Picture(
        "question",
        "A question with its answers by number, and beside it how things stand",
        at_question("arrival-50-good", "our_pin"),
        "2",
    ),
    Picture("walk", "A reading: what to read, what is normal, and where both probes go", READING, "0.7"),
    Picture("outlet", "The picture of where the probes go, large", READING, "p"),
    Picture("known", "All that is known so far, each by its number", READING, "k"),
    Picture(
        "possible",
        "What the readings leave possible and what they rule out",
        at_question("voltage-low-at-supper", "load.loaded"),
        "i",
        ready=ruled_out,
    ),
    Picture(
        "ending",
        "The end: the verdict, what to do, whom to call, what to say",
        at_end("voltage-low-at-supper"),
    ),
    Picture("emergency", "The emergency card", at_start, "!"),
    Picture("log", "The readings of a site compared, over a stay and over visits", with_log, "l\r1\r"),
    Picture(
        "practice",
        "The make-believe meter, its dial and both probes in the outlet",
        at_bench("creek-1", 3, "sockets_30.hot_neutral"),
        "udial ac black N red L\r",
    ),
    Picture(
        "preview",
        "A tree to its author: nodes, endings, and what was found",
        previewing,
        "n",
        begins=checked,
    ),
    Picture("phone", "The same reading on a phone", READING, "0.7", PHONE),
    Picture("phone-start", "The start on a phone", at_start, "", PHONE),
    Picture("daylight", "The reading in the look for daylight", READING, "0.7", look="daylight"),
    Picture("contrast", "The reading in the look for much contrast", READING, "0.7", look="contrast"),
    Picture("terminal", "The reading in the terminal's own colours", READING, "0.7", look="terminal"),
)


def draw(picture: Picture) -> str:
    """Return a picture as SVG."""
    with _plainly(), picture.scene(picture.look) as app:
        return asyncio.run(_drawn(picture, app))


async def _drawn(picture: Picture, app: ShorewalkApp) -> str:
    async with app.run_test(size=picture.size) as pilot:
        await _until(pilot, picture.begins, app)
        await _press(pilot, picture.keys)
        await _until(pilot, picture.ready, app)
        return as_svg(cells_of(app.screen), f"shorewalk. {picture.title}")


async def _until(pilot: Pilot[int], ready: Callable[[ShorewalkApp], bool], app: ShorewalkApp) -> None:
    while not ready(app):
        await pilot.pause(0.01)


async def _press(pilot: Pilot[int], keys: str) -> None:
    await pilot.pause()
    for key in keys:
        await pilot.press(NAMES.get(key, key))
        await pilot.pause()
    await pilot.pause()


@contextmanager
def _plainly() -> Iterator[None]:
    """Let neither colours nor clocks be those of whoever draws."""
    before = {name: os.environ.pop(name, None) for name in ("NO_COLOR", "TZ")}
    os.environ["TZ"] = "UTC"
    time.tzset()
    try:
        yield
    finally:
        for name, value in before.items():
            os.environ.pop(name, None)
            if value is not None:
                os.environ[name] = value
        time.tzset()
