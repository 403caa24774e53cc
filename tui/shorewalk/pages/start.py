"""The start: unfinished walks first, then what may be wrong, in the person's words, all numbered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.tree.library import Header


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
    headers: tuple[Header, ...]
    asked: str = ""
    nearest: bool = False  # nothing fits what was typed; these are the nearest
    problem: str | None = None

    @property
    def entries(self) -> Sequence[Left | Header]:
        """All entries, in the order of their numbers."""
        return (*self.left, *self.headers)


def start_page(begin: Begin, picked: int | None, room: int, *, ascii_only: bool) -> list[Line]:
    """Return the start page; `picked` is the number of the entry that is pointed at."""
    text = min(room, 76)
    rows: list[Line] = []
    if begin.problem:
        rows += [*wrap(begin.problem, text, "error"), BLANK]
    number = 0
    if begin.left:
        rows.append(line(Span("Go on with", "group")))
        for left in begin.left:
            number += 1
            rows += _entry(number, left.symptom, picked, text, ascii_only=ascii_only)
            rows += wrap(left.told, text, "quiet", first=(Span("      "),))
        rows.append(BLANK)
    rows.append(line(Span(_heading(begin), "group")))
    for header in begin.headers:
        number += 1
        rows += _entry(number, header.symptom, picked, text, ascii_only=ascii_only)
    return rows


def _heading(begin: Begin) -> str:
    if not begin.asked:
        return "What is going on?"
    if begin.nearest:
        return f'Nothing fits "{begin.asked}". Is it one of these?'
    return f'What fits "{begin.asked}"'


def _entry(number: int, says: str, picked: int | None, room: int, *, ascii_only: bool) -> list[Line]:
    here = number == picked
    pointer = (">" if ascii_only else "▸") if here else " "
    ahead = (Span(f"{pointer}{number:>2}  ", "picked" if here else "number"),)
    return wrap(says, room, "picked" if here else "plain", first=ahead)


def welcome_side(room: int) -> list[Line]:
    """Return what stands beside the list where there is room: what this is, and its warning."""
    rows: list[Line] = [line(Span("Before you begin", "group"))]
    for text in WELCOME:
        rows += [*wrap(text, room, "quiet"), BLANK]
    return rows


WELCOME = (
    "Shore power can kill. One look or one reading at a time, in a safe order.",
    "This does not replace an electrician, your local codes or the makers' instructions.",
    '"Not sure" is always an answer. It is number 0.',
    "Somebody hurt, or something burning? Press ! now.",
)
