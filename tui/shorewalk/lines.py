"""Lines of text with roles: what the screens draw, before any terminal is known.

A role says what a stretch of text *is* (`question`, `stop`, `quiet`); `theme.LOOKS` says how that looks.
Text from trees goes through here as it stands: nothing in it is ever markup.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of text in one role."""

    text: str
    role: str = "plain"


Line = tuple[Span, ...]
BLANK: Line = ()

FILLED = ("picked", "code", "danger", "ok-banner", "watch-banner", "stop-banner", "danger-banner")
"""Roles whose blanks are seen, because they colour the ground."""


SURE = re.compile("[\x20-\x7e─-▟■▢▲▼▸○•…→↑↻✓✕·±≤≥°Ω]*")
"""Letters, and our own signs, that take one cell each in any terminal."""


def cells(text: str) -> int:
    """Return how many cells of a terminal the text takes, by the library that draws it."""
    if text.isascii() or SURE.fullmatch(text):
        return len(text)
    from rich.cells import cell_len  # few texts have such letters, and what walks in plain text loads fast

    return cell_len(text)


def width(line: Line) -> int:
    """Return how many cells a line takes."""
    return sum(cells(span.text) for span in line)


def line(*parts: str | Span) -> Line:
    """Return a line of its parts; a bare word is plain."""
    return tuple(part if isinstance(part, Span) else Span(part) for part in parts if part)


def words_of(text: str, room: int) -> Iterator[str]:
    """Yield the words of a text; a word wider than `room` in pieces."""
    for word in text.split():
        rest = word
        while cells(rest) > room:
            cut = next(end for end in range(len(rest), 0, -1) if cells(rest[:end]) <= room or end == 1)
            yield rest[:cut]
            rest = rest[cut:]
        if rest:
            yield rest


def wrap(
    text: str, room: int, role: str = "plain", *, first: Line = (), indent: int | None = None
) -> list[Line]:
    """Return the text in lines of at most `room` cells.

    `first` stands before the first line; later lines are indented under it, or by `indent`.
    """
    inset = width(first) if indent is None else indent
    rows: list[Line] = []
    ahead, row, used = first, "", width(first)
    for word in words_of(text, max(1, room - max(inset, width(first)))):
        if row and used + 1 + cells(word) > room:
            rows.append((*ahead, Span(row, role)))
            ahead, row, used = line(" " * inset), word, inset + cells(word)
        else:
            row, used = (f"{row} {word}", used + 1 + cells(word)) if row else (word, used + cells(word))
    if row or first:
        rows.append((*ahead, Span(row, role)) if row else ahead)
    return rows


def cut(text: str, room: int, more: str = "…") -> str:
    """Return the text, its end left out where it does not fit."""
    if cells(text) <= room:
        return text
    kept = text
    while kept and cells(kept) + cells(more) > room:
        kept = kept[:-1]
    return kept.rstrip() + more if room > 0 else ""


def spread(left: Line, right: Line, room: int) -> Line:
    """Return a line with one part at each end; the right one gives way where there is no room for both."""
    gap = room - width(left) - width(right)
    if not right or gap < 1:
        return left
    return (*left, Span(" " * gap), *right)


def beside(left: list[Line], right: list[Line], at: int) -> list[Line]:
    """Return two blocks side by side, the right one from column `at`."""
    rows: list[Line] = []
    for number in range(max(len(left), len(right))):
        one = left[number] if number < len(left) else BLANK
        other = right[number] if number < len(right) else BLANK
        gap = Span(" " * max(1, at - width(one)))
        rows.append((*one, gap, *other) if other else one)
    return rows


def centred(block: list[Line], room: int) -> list[Line]:
    """Return a block moved to the middle of the room, as a whole."""
    inset = (room - max(map(width, block), default=0)) // 2
    return [(Span(" " * inset), *row) if row and inset > 0 else row for row in block]


def merged(row: Line, filled: Sequence[str] = FILLED) -> Line:
    """Return the line in as few spans as show the same: each one costs codes on the wire.

    `filled` are the roles whose blanks are seen.
    """
    runs: list[Span] = []
    for span in row:
        last = runs[-1] if runs else None
        if last is None or last.role in filled or span.role in filled:
            joins = last is not None and last.role == span.role
        else:
            joins = last.role == span.role or span.text.isspace() or last.text.isspace()
        if last is not None and joins:
            runs[-1] = Span(last.text + span.text, span.role if last.text.isspace() else last.role)
        elif span.text:
            runs.append(span)
    return tuple(runs)


def as_text(lines: Iterable[Line]) -> str:
    """Return lines as plain text, without roles."""
    return "\n".join("".join(span.text for span in row).rstrip() for row in lines)
