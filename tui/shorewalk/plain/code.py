"""The message as codes for a phone's camera: half blocks or letters, as many codes as the window needs."""

from __future__ import annotations

from shutil import get_terminal_size

from shorewalk.marks import cannot_show_blocks
from shorewalk.pages.code import SMALLEST, in_halves, largest_version, modules, pieces, side

from .voice import Voice

WHAT = "A picture of the message, for a phone's camera. It says nothing to the ear; for the message in words type y."
LARGEST_IN_LETTERS = 4
"""A larger code of letters is taller than most windows."""
INK = "##"
"""A module in letters: two of them are about as wide as a line is high."""
ROWS_BESIDE = 2
"""Lines of the window that the code leaves: what it is, and where one types."""


def show_codes(voice: Voice, message: str) -> None:
    """Show one code after the other: Enter goes on, `t` shows the same with dark and light changed."""
    letters = cannot_show_blocks()
    version = _version(voice.room, letters=letters)
    if version < SMALLEST:
        voice.say(_too_small(letters=letters))
        return
    parts = pieces(message, version)
    voice.say(WHAT, before="\n")
    at, dark_ground = 0, True
    while at < len(parts):
        drawn = draw_code(parts[at], dark_ground=dark_ground, letters=letters)
        voice.write("\n".join(drawn) + "\n")
        on = "back" if at + 1 == len(parts) else "the next one"
        voice.say(
            f"Code {at + 1} of {len(parts)}, {len(drawn)} lines. Enter: {on}. t: dark and light change places."
        )
        typed = voice.listen()
        if typed.casefold() == "t":
            dark_ground = not dark_ground
        elif typed:
            voice.hear_again(typed)
            return
        else:
            at += 1


def draw_code(text: str, *, dark_ground: bool, letters: bool) -> list[str]:
    """Return one code in lines; on a dark ground what is light is written."""
    ink = [[cell != dark_ground for cell in row] for row in modules(text)]
    if letters:
        return ["".join(INK if cell else "  " for cell in row) for row in ink]
    return in_halves(ink)


def _version(room: int, *, letters: bool) -> int:
    if letters:  # as tall as it is: who scrolls sees it whole, in small letters
        return min(LARGEST_IN_LETTERS, largest_version(room // len(INK), room))
    return largest_version(room, get_terminal_size().lines - ROWS_BESIDE)


def _too_small(*, letters: bool) -> str:
    least = side(SMALLEST)
    columns, rows = (least * len(INK), least) if letters else (least, -(-least // 2))
    return (
        f"This window is too small for a picture that a camera can read. It takes {columns} columns and "
        f"{rows + ROWS_BESIDE} lines. For the message in words type y, or save the record with s."
    )
