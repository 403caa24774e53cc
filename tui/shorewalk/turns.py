"""Which cells are written to a terminal in one go, and when: the page first, and of it the rows with news."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from .lines import SURE
from .pen import Cell

NEAR = 4
"""Cells that did not change and are written again, where going round them takes as much."""
FAR = 24
"""Blank cells after the last letter of a row that can wait until all letters are there."""

Rows = Mapping[int, list[Cell]]
Changed = Mapping[int, set[int]]
Turn = tuple[int, int, int, int]
"""When it comes (`NEWS` is first), then the row, the first column and the one after the last."""
NEWS, PAGE, REST, AROUND = range(4)
EACH = 120
"""Cells around a page that are sent with it though they did not change; more of them with the next one."""


class Place(NamedTuple):
    """What is sent first: the first row and the one after the last, and how many cells of them.

    `line`: the row that somebody types into.
    """

    top: int
    bottom: int
    width: int
    line: int = -1

    @property
    def rows(self) -> range:
        """Its rows."""
        return range(self.top, self.bottom)


def turns_of(rows: Rows, changed: Changed, page: Place) -> Iterator[Turn]:
    """Yield what changed in words; stretches are cut where the page ends."""
    for y, x, end in _words(rows, changed):
        inside = y in page.rows
        if inside and x < page.width < end - NEAR:
            yield NEWS, y, x, page.width
            yield REST, y, page.width, end
        else:
            yield NEWS if inside and x < page.width else REST, y, x, end


def page_turns(rows: Rows, changed: Changed, page: Place, last: int) -> Iterator[Turn]:
    """Yield all of the page and of the line that is typed into, what else changed, and rows around the page.

    These go round in a circle, from the one after `last` on.
    """
    around = [*_around(rows, page, last)]
    for y in page.rows:
        row = rows.get(y, [])[: page.width]
        letters = max((x + 1 for x, cell in enumerate(row) if cell.letter != " "), default=0)
        news = letters > 0 and any(x < page.width for x in changed.get(y, ()))
        if news and len(row) - letters > FAR:
            yield NEWS, y, 0, letters
            yield PAGE, y, letters, len(row)
        elif row:
            yield NEWS if news else PAGE, y, 0, len(row)
    if line := rows.get(page.line):
        yield REST, page.line, 0, len(line)
    beside = {
        y: {x for x in columns if x >= _begin(y, page)}
        for y, columns in changed.items()
        if y != page.line and y not in around
    }
    yield from ((REST, *span) for span in _words(rows, beside))
    yield from ((AROUND, y, _begin(y, page), len(rows[y])) for y in around)


def _around(rows: Rows, page: Place, last: int) -> Iterator[int]:
    """Yield the rows whose turn it is: as many as there are cells for, one at least."""
    room = EACH
    for y in sorted(rows, key=lambda y: (y <= last, y)):
        wide = len(rows[y]) - _begin(y, page)
        if wide > room < EACH:
            return
        if wide > 0 and y != page.line:
            room -= wide
            yield y


def _begin(y: int, page: Place) -> int:
    return page.width if y in page.rows else 0


def _words(rows: Rows, changed: Changed) -> Iterator[tuple[int, int, int]]:
    for y, columns in changed.items():
        if not columns:
            continue
        row = rows[y]
        text = "".join([cell.letter for cell in row])
        if len(text) != len(row) or not SURE.fullmatch(text):
            yield y, 0, len(row)  # terminals differ in how wide such letters are
            continue
        begin = end = _word(text, min(columns))[0]
        for x in sorted(columns):
            if x < end:
                continue
            left, right = _word(text, x)
            if left > end + NEAR:
                yield y, begin, end
                begin = left
            end = right
        yield y, begin, end


def _word(text: str, x: int) -> tuple[int, int]:
    """Return where the word at a cell begins and ends, with a blank on each side.

    So no part of a word or a number is ever sent, to stand beside what something else may have written there.
    """
    left, right = text.rfind(" ", 0, x + 1), text.find(" ", x)
    return max(left, 0), len(text) if right < 0 else right + 1
