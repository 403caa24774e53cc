"""What the terminal shows by now, so that only what differs is sent, the question first.

The library draws whole rows, at its start four times over, and at 1,200 baud a screen in colour takes half a
minute. Its drawings are read here as cells; the cells that are new are written, first those that are to be read
first. What is no drawing (modes, bells, what is copied) goes through as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from .lines import cells
from .pen import BLANK, Cell, Pen, ground, plainest
from .turns import AROUND, NEAR, Place, Turn, page_turns, turns_of

BEGINS, ENDS = "\x1b[?2026h", "\x1b[?2026l"
"""What tells a terminal where a drawing begins and ends, written on its own."""
ANEW = "\x1b[?1049"
"""What puts another page under the drawings, when they begin and when they end."""
WIPE = "\x1b[m\x1b[2J"
APART = re.compile(r"(?:\x1b\[[<>=?][\d;]*\$?[a-zA-Z]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x07)*")
"""What draws nothing: modes, what is asked of a terminal, what it is to keep, bells."""
PIECE = re.compile(
    r"\x1b\[(?P<row>\d+);(?P<column>\d+)H|\x1b\[(?P<style>[\d;]*)m|(?P<text>[^\x00-\x1f\x7f-\x9f]+)|\n"
)


class Glass:
    """Takes what is to be written and returns what has to be sent. `first`: the place of what is read first."""

    def __init__(self, first: Callable[[], Place | None] = lambda: None) -> None:
        self._first = first
        self._rows: dict[int, list[Cell]] = {}
        self.gone = self._doubted = True
        self._cursor, self._around = (0, 0), -1
        self._held = ""
        self._size: tuple[int, int] | None = None
        self.strayed = False
        """Whether what came last drew in a way that is not read here: then it is not known what is shown."""

    def forget(self) -> None:
        """Take what the terminal shows for gone: with the next drawing all is sent, on an empty page."""
        self.gone = True

    def doubt(self) -> None:
        """Take nothing of the page for granted: with the next drawing that changes it all of it is sent."""
        self._doubted = True

    def fit(self, size: tuple[int, int]) -> None:
        """Forget it where the window has another size than it had; what it showed fits no more."""
        if self._size != size:
            if self._size is not None:
                self._rows = {}
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
        self.strayed = drawn is None and not APART.fullmatch(data)
        if self.strayed:
            self._rows = {}
            self.forget()
        new = data if drawn is None else self._changes(*drawn)
        held, self._held = (self._held, "") if new else ("", self._held)
        return held + new

    def _changes(self, runs: list[tuple[int, int, str, str]], cursor: tuple[int, int]) -> str:
        gone, first = self.gone, self._first() or Place(0, 0, 0)
        changed: dict[int, set[int]] = {}
        for y, x, text, style in runs:
            row = self._rows.setdefault(y, [])
            new = _cells(text, style)
            row += [BLANK] * (x + len(new) - len(row))
            if row[x : x + len(new)] != new:
                here = changed.setdefault(y, set())
                here.update(at for at, cell in enumerate(new, x) if row[at] != cell)
                row[x : x + len(new)] = new
        if gone:
            changed = {y: {x for x, cell in enumerate(row) if cell != BLANK} for y, row in self._rows.items()}
        tidy = self._doubted and (
            gone or any(x < first.width for y in first.rows for x in changed.get(y, ()))
        )
        if not changed and not gone and cursor == self._cursor:
            return ""
        self.gone, self._doubted, self._cursor = False, self._doubted and not tidy, cursor
        pen = Pen(WIPE if gone else "")
        if gone or not tidy:
            return self._written(pen, turns_of(self._rows, changed, first), tidy=tidy)
        turns = [*page_turns(self._rows, changed, first, self._around)]
        self._around = next((y for turn, y, *_ in reversed(turns) if turn == AROUND), -1)
        return self._written(pen, turns, tidy=tidy)

    def _written(self, pen: Pen, turns: Iterable[Turn], *, tidy: bool) -> str:
        """Return how these are written, in their order; `tidy`: what may stand after a row's last letter is cleared."""
        for _, y, x, end in sorted(turns):
            row = self._rows[y]
            filled = _filled(row)
            clears = end > filled + NEAR or (tidy and end > filled)
            pen.write(y, x, row[x : max(x, filled) if clears else end])
            if clears:
                pen.clear()
        return pen.done(self._cursor)


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
            while (
                runs and not cells(text[:1]) and text
            ):  # the library parts a mark from its letter at the cursor
                runs[-1] = (*runs[-1][:2], runs[-1][2] + text[0], runs[-1][3])
                text = text[1:]
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
        if wide or not row:
            row += [blank if letter == " " else Cell(letter, style), *[Cell("", style)] * (wide - 1)]
            continue
        base = max(at for at, cell in enumerate(row) if cell.letter)
        joined = row[base].letter + letter
        row[base:] = [Cell(joined, style), *[Cell("", style)] * (cells(joined) - 1)]
    return row


def _filled(row: list[Cell]) -> int:
    """Return how many cells of a row there are up to its last that is no blank on the terminal's own ground."""
    end = len(row)
    while end and row[end - 1] == BLANK:
        end -= 1
    return end
