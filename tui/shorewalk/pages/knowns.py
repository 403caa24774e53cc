"""What is known so far, in lines: each answer with its grade as a word and a mark."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.lines import BLANK, Line, Span, cells, cut, line, spread, width, wrap
from shorewalk.marks import Mark, grade_mark
from shorewalk.tree.facts import Site
from shorewalk.walk.known import Known, Position, Worked
from shorewalk.walk.stands import stands
from shorewalk.walk.sums import sum_of


def known_lines(
    known: Known | Worked, room: int, *, ascii_only: bool, number: int | None = None
) -> list[Line]:
    """Return one answer: what it is about, then what it shows with its mark."""
    ahead = line(Span(f"{number:>3}  ", "number")) if number is not None else BLANK
    rows = wrap(known.says, room, "quiet", first=ahead)
    mark = _mark(known)
    shows = wrap(known.shows, room - cells(mark.word) - 4, first=line(Span(" " * width(ahead))))
    shows[-1] = (*shows[-1], Span("  "), mark.span(ascii_only=ascii_only))
    if isinstance(known, Worked):
        shows += wrap(sum_of(known), room, "quiet", first=line(Span(" " * width(ahead))))
    if known.note:
        shows += wrap(known.note, room, "note", first=line(Span(" " * width(ahead))))
    return rows + shows


def brief_lines(known: Known | Worked, room: int, *, ascii_only: bool) -> list[Line]:
    """Return one answer in two lines, cut where they are too narrow for it."""
    mark = _mark(known)
    more = "..." if ascii_only else "…"
    shows = cut(known.shows, room - cells(mark.word) - 4, more)
    return [
        line(Span(cut(known.says, room, more), "quiet")),
        line(Span(shows), Span("  "), mark.span(ascii_only=ascii_only)),
    ]


def _mark(known: Known | Worked) -> Mark:
    return grade_mark(known.grade, void=isinstance(known, Known) and known.void)


def latest_first(now: Position) -> list[Known | Worked]:
    """Return what is known, the latest answer first, with what was worked out on top."""
    answers = sorted(now.known, key=lambda known: -known.index)
    return [*now.worked, *answers]


def side_list(now: Position, room: int, height: int, *, ascii_only: bool) -> list[Line]:
    """Return as much of what is known as fits, the latest first."""
    if height < 3 or not (now.known or now.worked):
        return []
    known = latest_first(now)
    rows: list[Line] = []
    shown = 0
    for one in known:
        block = brief_lines(one, room, ascii_only=ascii_only)
        if len(rows) + len(block) + 1 > height:
            break
        rows, shown = rows + block, shown + 1
    more = len(known) - shown
    heading = line(Span("Known so far", "group"))
    return [spread(heading, line(Span(f"{more} more: k", "quiet")), room) if more else heading, *rows]


def state_lines(now: Position, site: Site, room: int) -> list[Line]:
    """Return how things stand, as far as is known, one line each."""
    rows: list[Line] = []
    for name, called, shows in stands(now.state, site):
        says = called if len(called) + len(shows) + 2 <= room else name.replace("-", " ")
        rows.append(line(Span(f"{says}: ", "quiet"), Span(shows)))
    return [line(Span("How things stand", "group")), *rows, BLANK] if rows else []


def flash(before: Position | None, now: Position, room: int, *, ascii_only: bool) -> Line:
    """Return the last answer with its grade; nothing where it was not one to show."""
    last = max(now.known, key=lambda known: known.index, default=None)
    if before is None or last is None or last.index != now.step - 2:
        return BLANK
    mark = grade_mark(last.grade, void=last.void)
    text: Iterable[Line] = wrap(
        f"{last.shows}, {last.says}", room, "quiet", first=(mark.span(ascii_only=ascii_only), Span("  "))
    )
    return next(iter(text), BLANK)
