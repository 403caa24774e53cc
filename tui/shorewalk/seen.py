"""What is shown is what can be seen: no control character, no mark that turns text about gets to a terminal.

Trees (`tree/text.py`) and walks from elsewhere (`handing/fields.py`) are refused with such characters in them. File
names, what was typed, what another program sent and the environment may hold them, and whatever says something back
goes through here.
"""

from __future__ import annotations

import unicodedata
from io import TextIOWrapper

KEPT = "\n\t"
INSTEAD = "?"
IN_A_LINE = str.maketrans("\t\r\n", "   ")
"""Makes blanks of line ends and tabs, where text stands in one line of a screen: a tab is as wide as it likes."""


def seen(text: str) -> str:
    """Return text with a question mark for everything that cannot be seen, line ends and tabs kept."""
    if text.isprintable():
        return text
    return "\r\n".join("".join(map(_seen, part)) for part in text.split("\r\n"))


def can_be_seen(letter: str) -> bool:
    """Tell whether a character is a letter, a sign or a blank; no line end, nothing that turns text about."""
    return letter.isprintable() or unicodedata.category(letter) == "Zs"


def first_unseen(text: str) -> int | None:
    """Return where the first character stands that cannot be seen; None where all can."""
    if text.isprintable():
        return None
    return next((index for index, letter in enumerate(text) if not can_be_seen(letter)), None)


def _seen(letter: str) -> str:
    return letter if letter in KEPT or can_be_seen(letter) else INSTEAD


class Seen(TextIOWrapper):
    """A stream of text that can be seen, to where `under` leads."""

    def __init__(self, under: TextIOWrapper) -> None:
        under.flush()
        self.under = under  # which would close the file they share, were it let go
        super().__init__(
            under.buffer,
            encoding=under.encoding,
            errors="replace",
            line_buffering=under.line_buffering,
            write_through=under.write_through,
        )

    def write(self, text: str, /) -> int:
        """Write text; return how many characters were given."""
        super().write(seen(text))
        return len(text)
