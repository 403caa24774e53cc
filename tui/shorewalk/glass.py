"""What the terminal shows by now, so that only what differs is sent, the question first.

The library draws whole rows, at its start four times over, and at 1,200 baud a screen in colour takes half a
minute. Its drawings are read here as cells; the cells that are new are written, first those that are to be read
first. What is no drawing (modes, bells, what is copied) goes through as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from .lines import cells
from .pen import BLANK, Cell, Pen, ground, plainest

BEGINS, ENDS = "\x1b[?2026h", "\x1b[?2026l"
"""What tells a terminal where a drawing begins and ends, written on its own."""
ANEW = "\x1b[?1049"
"""What puts another page under the drawings, when they begin and when they end."""
WIPE = "\x1b[m\x1b[2J"
NEAR = 4
"""Cells that did not change and are written again, where going round them takes as much."""

PIECE = re.compile(
    r"\x1b\[(?P<row>\d+);(?P<column>\d+)H|\x1b\[(?P<style>[\d;]*)m|(?P<text>[^\x00-\x1f\x7f-\x9f]+)|\n"
)


Span = tuple[int, int, int]
"""Row, first column and the one after the last of what is written in one go."""


class Place(NamedTuple):
    """What is sent first: the first row and the one after the last, and how many cells of them."""

    top: int
    bottom: int
    width: int

    def ranked(self, spans: Iterable[Span]) -> Iterator[tuple[bool, int, int, int]]:
        """Yield spans, cut where the place ends, each with whether it comes later."""
        for y, x, end in spans:
            inside = self.top <= y < self.bottom
            if inside and x < self.width < end - NEAR:
                yield False, y, x, self.width
                yield True, y, self.width, end
            else:
                yield not (inside and x < self.width), y, x, end


class Glass:
    """Takes what is to be written and returns what has to be sent. `first`: the place of what is read first."""

    def __init__(self, first: Callable[[], Place | None] = lambda: None) -> None:
        self._first = first
        self._rows: dict[int, list[Cell]] | None = None
        self._cursor = (0, 0)
        self._held = ""
        self._size: tuple[int, int] | None = None

    def forget(self) -> None:
        """Know nothing of what the terminal shows: the next drawing is sent whole, on an empty page."""
        self._rows = None

    def fit(self, size: tuple[int, int]) -> None:
        """Forget it where the window has another size than it had."""
        if self._size != size:
            if self._size is not None:
                self.forget()
            self._size = size

    def send(self, data: str) -> str:
        """Return what has to be sent, so that the terminal shows what it would with all of `data`."""
        if data == BEGINS:
            self._held = data
            return ""
        if data == ENDS and self._held:
            self._held = ""
            return ""
        if ANEW in data:
            self.forget()
        drawn = _runs(data)
        new = data if drawn is None else self._changes(*drawn)
        held, self._held = (self._held, "") if new else ("", self._held)
        return held + new

    def _changes(self, runs: list[tuple[int, int, str, str]], cursor: tuple[int, int]) -> str:
        wiped = self._rows is None
        rows = self._rows = self._rows or {}
        changed: dict[int, set[int]] = {}
        for y, x, text, style in runs:
            row = rows.setdefault(y, [])
            new = _cells(text, style)
            row += [BLANK] * (x + len(new) - len(row))
            if row[x : x + len(new)] != new:
                here = changed.setdefault(y, set())
                here.update(at for at, cell in enumerate(new, x) if row[at] != cell)
                row[x : x + len(new)] = new
        if not changed and not wiped and cursor == self._cursor:
            return ""
        self._cursor = cursor
        pen = Pen(WIPE if wiped else "")
        first = self._first() or Place(0, 0, 0)
        for _, y, x, end in sorted(first.ranked(_spans(rows, changed))):
            filled = _filled(rows[y])
            pen.write(y, x, rows[y][x : max(x, filled) if end > filled + NEAR else end])
            if end > filled + NEAR:
                pen.clear()
        return pen.done(cursor)


def _runs(data: str) -> tuple[list[tuple[int, int, str, str]], tuple[int, int]] | None:
    """Return the stretches of a drawing by row and column, and where the cursor is left; None for what is none."""
    runs: list[tuple[int, int, str, str]] = []
    y = x = at = 0
    style = ""
    if not data.startswith("\x1b["):
        return None
    while at < len(data):
        piece = PIECE.match(data, at)
        if piece is None:
            return None
        at = piece.end()
        if text := piece["text"]:
            runs.append((y, x, text, style))
            x += cells(text)
        elif piece["row"]:
            y, x = int(piece["row"]) - 1, int(piece["column"]) - 1
        elif piece["style"] is not None:
            style = plainest(piece["style"])
        else:
            y, x = y + 1, 0
    return runs, (y, x)


def _cells(text: str, style: str) -> list[Cell]:
    blank = Cell(" ", ground(style))
    if text.isascii():
        return [blank if letter == " " else Cell(letter, style) for letter in text]
    row: list[Cell] = []
    for letter in text:
        wide = cells(letter)
        if not wide and row:
            row[-1] = Cell(row[-1].letter + letter, row[-1].style)
        elif wide:
            row += [blank if letter == " " else Cell(letter, style), *[Cell("", style)] * (wide - 1)]
    return row


def _spans(rows: dict[int, list[Cell]], changed: dict[int, set[int]]) -> Iterator[Span]:
    for y, columns in changed.items():
        row = rows[y]
        text = "".join([cell.letter for cell in row])
        if not len(text) == len(row) == cells(text):
            yield y, 0, len(row)  # terminals differ in how wide such letters are
            continue
        begin = end = min(columns)
        for x in sorted(columns):
            if x > end + NEAR:
                yield y, begin, end
                begin = x
            end = x + 1
        yield y, begin, end


def _filled(row: list[Cell]) -> int:
    """Return how many cells of a row there are up to its last that is no blank on the terminal's own ground."""
    end = len(row)
    while end and row[end - 1] == BLANK:
        end -= 1
    return end
