"""The start: unfinished walks first, then what may be wrong, in the person's words, all numbered.

What may not wait stands first. Where the window is wide the list stands in two columns, so that most of it is
seen at once; what is typed narrows it, and where little is left it says what each tree tells apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from shorewalk.lines import BLANK, Line, Span, beside, line, wrap
from shorewalk.sections import Section, headers_in
from shorewalk.tree.library import Header

FEW = 3
"""So many trees or fewer, found by words, are told of in more than their symptom."""
COLUMN = 34
"""Cells a column must have, so that two of them can stand beside each other."""
GAP = 2


@dataclass(frozen=True, slots=True)
class Left:
    """A walk that was left unfinished: its number in the journal, its symptom, what is told of it."""

    number: int
    symptom: str
    told: str


@dataclass(frozen=True, slots=True)
class Begin:
    """What the start screen offers now: what was left and what can be begun, after the filter."""

    left: tuple[Left, ...]
    sections: tuple[Section, ...]
    asked: str = ""
    nearest: bool = False  # nothing fits what was typed; these are the nearest
    problem: str | None = None

    @property
    def entries(self) -> Sequence[Left | Header]:
        """All entries, in the order of their numbers."""
        return (*self.left, *headers_in(self.sections))


def start_page(begin: Begin, picked: int | None, room: int, height: int, *, ascii_only: bool) -> list[Line]:
    """Return the start page; `picked` is the number of the entry that is pointed at."""
    entries = _Entries(picked, ascii_only=ascii_only)
    text = min(room, 76)
    rows: list[Line] = []
    if begin.problem:
        rows += [*wrap(begin.problem, text, "error"), BLANK]
    if begin.left:
        rows.append(line(Span("Go on with", "group")))
        for left in begin.left:
            rows += entries.next(left.symptom, text)
            rows += wrap(left.told, text, "quiet", first=(Span("    "),))
        rows.append(BLANK)
    if begin.asked:
        return [*rows, *_found(begin, picked, text, height - len(rows), ascii_only=ascii_only)]
    blocks = _blocks(begin.sections, entries, room)
    listed = _in_columns(blocks, room, gap=1)
    if len(rows) + len(listed) > height:
        listed = _in_columns(blocks, room, gap=0)
    return [*rows, *listed, BLANK, *welcome(text)]


class _Entries:
    """Entries as lines, counted from 1."""

    def __init__(self, picked: int | None, *, ascii_only: bool) -> None:
        self._picked, self._pointer, self._last = picked, ">" if ascii_only else "▸", 0

    def next(self, says: str, room: int) -> tuple[Line, ...]:
        """Return the next entry."""
        self._last += 1
        return _entry(self._last, says, room, self._pointer if self._last == self._picked else "")


@cache
def _entry(number: int, says: str, room: int, pointer: str) -> tuple[Line, ...]:
    """Return an entry, pointed at or not; kept, for every key that is typed draws them all again."""
    ahead = (Span(f"{pointer or ' '}{number:>2} ", "picked" if pointer else "number"),)
    return tuple(wrap(says, room, "picked" if pointer else "plain", first=ahead))


def _found(
    begin: Begin, picked: int | None, room: int, height: int, *, ascii_only: bool, tells: bool = True
) -> list[Line]:
    """Return what fits the words that were typed, or comes nearest; of a few what they tell apart, if that fits."""
    entries = _Entries(picked, ascii_only=ascii_only)
    headers = headers_in(begin.sections)
    said = (
        f'Nothing fits "{begin.asked}". Is it one of these?'
        if begin.nearest
        else f'What fits "{begin.asked}"'
    )
    rows = [*wrap(said, room, "group"), BLANK]
    for header in headers:
        rows += entries.next(header.symptom, room)
        if tells and len(headers) <= FEW and header.tells:
            apart = f"Tells apart: {'; '.join(header.tells)}."
            rows += wrap(apart, room, "quiet", first=(Span("    "),))
    rows += [BLANK, *wrap(HURT, room, "caution")]
    if tells and len(rows) > height:
        return _found(begin, picked, room, height, ascii_only=ascii_only, tells=False)
    return rows


def _blocks(sections: Sequence[Section], entries: _Entries, room: int) -> list[list[Line]]:
    """Return the lines of each section, for columns as wide as there is room for."""
    wide = _column(room)
    return [
        [
            line(Span(section.says, "group")),
            *(row for header in section.headers for row in entries.next(header.symptom, wide)),
        ]
        for section in sections
    ]


def _column(room: int) -> int:
    return (room - GAP) // 2 if room >= 2 * COLUMN + GAP else room


def _in_columns(blocks: list[list[Line]], room: int, gap: int) -> list[Line]:
    """Return blocks below each other; in two columns of whole blocks, as even as they can be, where they fit."""
    wide = _column(room)
    if wide == room:
        return _stacked(blocks, gap)
    ways = ((_stacked(blocks[:at], gap), _stacked(blocks[at:], gap)) for at in range(1, len(blocks) + 1))
    left, right = min(ways, key=lambda way: max(map(len, way)))
    return beside(left, right, wide + GAP)


def _stacked(blocks: list[list[Line]], gap: int) -> list[Line]:
    rows = [row for block in blocks for row in (*block, *[BLANK] * gap)]
    return rows[: len(rows) - gap] if gap else rows


def welcome(room: int) -> list[Line]:
    """Return what one must know before one begins."""
    return [row for text in WELCOME for row in wrap(text, room, "quiet")]


HURT = "Somebody hurt, or something burning? Press ! now."
HURT_SHORT = "Hurt, or burning? Press ! now."
WELCOME = (
    "Shore power can kill. One look or one reading at a time, in a safe order.",
    '"Not sure" is always an answer. It is number 0; at a reading it is x.',
    "This does not replace an electrician, your local codes or the makers' instructions.",
)
