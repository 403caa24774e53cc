"""What the readings leave possible and what they rule out, in lines."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from shorewalk.lines import BLANK, Line, Span, line, wrap

if TYPE_CHECKING:
    from shorewalk.ruling import Ruled

WORKING = "Working it out ..."
FAILED = "This could not be worked out. The walk goes on without it."
NOTHING_READ = "Nothing has been read yet, so everything is possible."
NONE_FITS = (
    "No single fault that is known here gives all these readings. Two things may be wrong at once, or a reading "
    "slipped: look at the readings again (k). Until then go the careful way."
)
HOW = (
    "A fault stays possible while a make-believe pedestal with it, and nothing else wrong, could show every "
    "reading so far. That one is ruled out proves nothing safe: go by the walk and its ending."
)
NO_READING = "No reading that this walk may still ask for would tell them apart."


def possible_page(ruled: Ruled | None, room: int, *, ascii_only: bool, ended: bool = False) -> list[Line]:
    """Return the page; `ruled` is None while it is worked out."""
    if ruled is None:
        return [line(Span(WORKING, "quiet"))]
    if ruled.failed:
        return wrap(FAILED, room, "note")
    rows: list[Line] = [] if ended else [*tell_lines(ruled, room), BLANK]
    left = ruled.left
    if left.possible:
        for heading, faults, role in (
            ("Still possible", left.possible, "plain"),
            ("Ruled out", left.out, "quiet"),
        ):
            rows += _listed(heading, map(left.in_words, faults), room, role, ascii_only=ascii_only)
    else:
        rows += [*wrap(NONE_FITS, room, "note"), BLANK]
    return rows + wrap(HOW, room, "quiet")


def tell_lines(ruled: Ruled, room: int) -> list[Line]:
    """Return which reading would tell most."""
    rows = [line(Span("What would tell", "group"))]
    if ruled.telling is None and not ruled.told:
        return [*rows, line(Span(WORKING, "quiet"))]
    return rows + wrap(would_tell(ruled), room, "plain")


def would_tell(ruled: Ruled) -> str:
    """Return which reading would tell most, as a sentence; nothing where none would."""
    if ruled.telling is None:
        return NO_READING
    says = ruled.telling.says[:1].upper() + ruled.telling.says[1:]
    left = max(1, round(ruled.telling.left))
    return (
        f"{says}: about {left} of {len(ruled.left.possible)} would be left. Wait until the walk asks for it."
    )


def count_line(possible: int, of: int) -> Line:
    """Return how many are left, for the side of a question."""
    return line(Span("Still possible: ", "quiet"), Span(f"{possible} of {of}"), Span("  i", "number"))


def _listed(heading: str, faults: Iterable[str], room: int, role: str, *, ascii_only: bool) -> list[Line]:
    each = list(faults)
    rows: list[Line] = [line(Span(f"{heading} ({len(each)})", "group"))]
    dot = "- " if ascii_only else "• "
    for fault in each:
        rows += wrap(fault, room, role, first=(Span(dot, "quiet"),), indent=2)
    return [*rows, BLANK]
