"""Letters of which terminals do not agree how wide they are leave every digit where it belongs."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from rich.cells import cell_len
from wcwidth import wcwidth

from shorewalk.glass import Glass
from shorewalk.lines import SURE

WIDTHS: list[Callable[[str], int]] = [
    cell_len,
    lambda letter: max(0, wcwidth(letter)),
    lambda letter: 1 if SURE.fullmatch(letter) else min(2, cell_len(letter) + 1),
    lambda _: 1,
]
"""How wide a letter is: to the library, to most, where they are taken for wider, where all count as one."""
NAMES = ["กัน", "กำ", "हिन्दी", "⚠\ufe0f", "❤\ufe0f❤", "\U0001f44d\U0001f3fd", "日本", "e\u0301", "Ä", "☰☱"]
PIECE = re.compile(r"\x1b\[(?P<y>\d+);(?P<x>\d+)H|\x1b\[[\d;]*(?P<code>[mJK])|(?P<letter>[^\x1b])")


class Counting:
    """One row of a terminal that counts letters in its own way."""

    def __init__(self, width: Callable[[str], int]) -> None:
        self.width, self.row, self.x = width, [" "] * 60, 0

    def feed(self, data: str) -> None:
        """Take what is sent."""
        for piece in PIECE.finditer(data):
            if piece["x"]:
                self.x = int(piece["x"]) - 1
            elif piece["code"] in ("J", "K"):
                self.row[self.x if piece["code"] == "K" else 0 :] = [" "] * (
                    60 - (self.x if piece["code"] == "K" else 0)
                )
            elif letter := piece["letter"]:
                wide = self.width(letter)
                self.row[self.x : self.x + wide] = [letter, *[""] * (wide - 1)][:wide]
                self.x += wide


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", NAMES)
def test_digits_stand_where_they_belong(name: str, width: Callable[[str], int]) -> None:
    """Whatever a terminal makes of the letters, each other letter of the row is where the library puts it."""
    glass, shown = Glass(), Counting(width)
    for text in (f"{name} reads 119.2 V", f"at {name} 12 A", f"{name}{name} 7", f"{name} reads 128.2 V"):
        shown.feed(glass.send(f"\x1b[1;1H{text}{' ' * (50 - cell_len(text))}\x1b[1;1H"))
        after = text.rindex(name[-1]) + 1
        rest = text[after:]
        at = cell_len(text[:after])
        assert "".join(shown.row[at:]).rstrip() == rest


def test_a_mark_parted_from_its_letter_is_drawn_with_it() -> None:
    """Where the cursor stands on a letter the library sends its mark after a change of style."""
    sent = Glass().send("\x1b[1;1H\x1b[7mह\x1b[0mि 119\x1b[1;1H")
    assert "हि" in sent
    assert sent.index("हि") < sent.index("119")
