"""Cells of a terminal, and writing them with as few codes as show them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from .lines import SURE, cells


class Cell(NamedTuple):
    """A letter and how it looks, by the codes that were sent; no letter where a wide one reaches in."""

    letter: str
    style: str


BLANK = Cell(" ", "")
BOLD, THIN = "1", "22"
"""Bold, and what ends it alone."""
MANY = "48;"
"""How a ground begins of which a terminal has many colours. All of these know how to end bold alone."""


class Pen:
    """Writes cells with as few codes as show them."""

    def __init__(self, before: str) -> None:
        self._parts, self._style = [before], ""

    def write(self, y: int, x: int, row: Sequence[Cell]) -> None:
        """Write cells from a place on."""
        self._parts.append(f"\x1b[{y + 1};{x + 1}H")
        for at, (letter, style) in enumerate(row):
            if letter != " ":
                self._take(style)
            elif ground(self._style) != style:
                self._take(_next(row, at, style))
            if letter.isascii() or SURE.fullmatch(letter):
                self._parts.append(letter)
            else:
                self._parts.append(_apart(y, x + at, letter))

    def clear(self) -> None:
        """Leave nothing in the rest of the line: no terminal lacks this, where the ground is its own."""
        self._take("")
        self._parts.append("\x1b[K")

    def _take(self, style: str) -> None:
        if style != self._style:
            self._parts.append(f"\x1b[{turn(self._style, style)}m")
            self._style = style

    def done(self, cursor: tuple[int, int]) -> str:
        """Put the pen down where the cursor belongs; return all that was written."""
        self._take("")
        self._parts.append(f"\x1b[{cursor[0] + 1};{cursor[1] + 1}H")
        return "".join(self._parts)


def _next(row: Sequence[Cell], at: int, style: str) -> str:
    """Return the style of the first letter after a blank, where the blank is the same in it, else its own."""
    after = next((cell.style for cell in row[at:] if cell.letter != " "), style)
    return after if ground(after) == style else style


def _apart(y: int, x: int, letter: str) -> str:
    """Return a letter that terminals take for more or fewer cells: what is after it stands where it belongs."""
    wide = cells(letter)
    return f"{' ' * wide}\x1b[{y + 1};{x + 1}H{letter}\x1b[{y + 1};{x + wide + 1}H"


class Codes(NamedTuple):
    """The codes of a style: what is no colour, the colour of the letters and that of the ground."""

    marks: frozenset[str]
    letters: str
    ground: str


@lru_cache(maxsize=256)
def plainest(style: str) -> str:
    """Return a style's codes without those that say what holds anyway."""
    codes = _codes("" if style == "0" else style)
    return ";".join(filter(None, (*sorted(codes.marks), codes.letters, codes.ground)))


@lru_cache(maxsize=256)
def ground(style: str) -> str:
    """Return what of a style is seen in a blank."""
    codes = _codes(style)
    return style if codes.marks - {BOLD} else codes.ground


@lru_cache(maxsize=1024)
def turn(old: str, new: str) -> str:
    """Return the codes that lead from one style to another."""
    before, after = _codes(old), _codes(new)
    lost = before.marks - after.marks
    thin = lost == {BOLD} and "2" not in after.marks and before.ground.startswith(MANY)
    if (lost and not thin) or any(was and not now for was, now in zip(before[1:], after[1:], strict=True)):
        return f"0;{new}" if new else ""
    more = [THIN] if thin else []
    more += sorted(after.marks - before.marks)
    more += [now for was, now in zip(before[1:], after[1:], strict=True) if now != was]
    return ";".join(more)


@lru_cache(maxsize=256)
def _codes(style: str) -> Codes:
    marks, colours = set(), {"3": "", "4": ""}
    rest = iter(style.split(";") if style else ())
    for code in rest:
        number = int(code)
        kind = (
            "3"
            if 30 <= number < 40 or 90 <= number < 98
            else "4"
            if 40 <= number < 50 or number >= 100
            else ""
        )
        if not kind:
            marks.add(code)
        elif number in (38, 48):
            depth = next(rest)
            colours[kind] = ";".join([code, depth, *(next(rest) for _ in range(1 if depth == "5" else 3))])
        elif number not in (39, 49):  # the terminal's own
            colours[kind] = code
    return Codes(frozenset(marks), colours["3"], colours["4"])
