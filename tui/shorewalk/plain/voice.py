"""Lines out and lines in: what plain text is spoken with."""

from __future__ import annotations

from collections.abc import Iterable
from typing import IO

from shorewalk.emergency import CARD
from shorewalk.lines import as_text, line, wrap
from shorewalk.seen import seen

LONGEST = 1_000
"""Letters of a line that are listened to."""


class Gone(Exception):  # noqa: N818 (no error: the person left, or the input ended)
    """Nobody is listening any more."""


class Voice:
    """Says lines no wider than `room` to `out`, and listens to `given`."""

    def __init__(self, given: IO[str], out: IO[str], room: int) -> None:
        self._given, self._out, self._room = given, out, room

    def say(self, *lines: str, before: str = "") -> None:
        """Write lines; a long one goes on indented as it began."""
        self.write(before)
        for text in lines:
            inset = len(text) - len(text.lstrip())
            hang = inset + (3 if inset else 0)
            self.write(as_text(wrap(text, self._room, first=line(" " * inset), indent=hang)) + "\n")

    def listen(self) -> str:
        """Return the next line that is typed; raise `Gone` where there is none."""
        self.write("> ")
        typed = rest = self._given.readline(LONGEST)
        if not typed:
            raise Gone
        while len(rest) == LONGEST and not rest.endswith("\n"):  # what goes on is no answer
            rest = self._given.readline(LONGEST)
        typed = seen(typed.strip())  # it may be kept, and shown elsewhere
        if not self._given.isatty():  # a terminal shows what is typed; elsewhere the transcript should
            self.write(f"{typed}\n")
        return typed

    def choose(self, lines: Iterable[str], most: int) -> int:
        """Say numbered lines and return the number typed, 1 for Enter alone."""
        self.say(*lines)
        while True:
            typed = self.listen() or "1"
            if typed.isdecimal() and 1 <= int(typed) <= most:
                return int(typed)
            self.say(*(CARD if typed == "!" else (f"Type a number from 1 to {most}.",)))

    def write(self, text: str) -> None:
        """Write as it stands."""
        self._out.write(text)
        self._out.flush()
