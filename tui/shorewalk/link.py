"""The link to a terminal: as little is sent over it as shows the screen, in letters and colours that it has."""

from __future__ import annotations

import os
from functools import cache
from typing import Any

from rich.color import ColorSystem
from rich.segment import Segment
from textual.color import Color
from textual.driver import Driver
from textual.filter import LineFilter

from .glass import Glass
from .incoming import Incoming, take_any_bytes
from .letters import in_ascii
from .looks import MANY, colours_of
from .told import Told

LEAVES, CLEARED = "\x1b[?1049l", "\x1b[m\x1b[2J\x1b[H"
"""What leads back to the terminal's first page, and before it: where there is but one page, nothing is left on it."""
POINTER = "\x1b]22;"
"""What gives the mouse pointer a shape. Some terminals would show it as text."""


class Thrifty(Incoming, Told):
    """A driver that remembers what the terminal shows.

    It leaves the mouse to the terminal: nothing here needs one, and people select text with it. The wheel still
    scrolls, for most terminals send it as Up and Down.
    """

    def __init__(self, app: Any, **how: Any) -> None:
        self.glass = Glass(app.read_first)
        super().__init__(app, **how | {"mouse": False})

    def write(self, data: str) -> None:
        """Write what has to be written of it, by the driver of this system, which comes next."""
        if data.startswith(POINTER):
            return
        strayed = self.glass.strayed
        if new := self.glass.send(data):
            super().write(CLEARED + new if data == LEAVES else new)  # type: ignore[safe-super]
        if self.glass.strayed and not strayed:
            self.draw_anew()


@cache
def thrifty(driver: type[Driver]) -> type[Driver]:
    """Return the library's driver for this system with such a memory."""
    take_any_bytes(driver)
    return type(f"Thrifty{driver.__name__}", (Thrifty, driver), {})


class AsciiOnly(LineFilter):
    """Lets no letter through but ASCII, whatever was typed or came from elsewhere."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """Return the segments with other letters replaced."""
        del background
        return [segment._replace(text=in_ascii(segment.text)) for segment in segments]


class NoColours(LineFilter):
    """Lets no colour through: bold, and letters and ground exchanged."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """Return the segments without their colours."""
        del background
        return [segment._replace(style=segment.style and segment.style.without_color) for segment in segments]


ASCII_ONLY, NO_COLOURS = AsciiOnly(), NoColours()


def depth_here() -> ColorSystem:
    """Return how many colours can be sent."""
    colours = colours_of(os.environ)
    if colours > MANY:
        return ColorSystem.TRUECOLOR
    return ColorSystem.EIGHT_BIT if colours == MANY else ColorSystem.STANDARD
