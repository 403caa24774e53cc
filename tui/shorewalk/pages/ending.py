"""The end of a walk: the verdict, the safe action, whom to call, the words, what may still be wrong."""

from __future__ import annotations

from collections.abc import Sequence

from shorewalk.commands import Command
from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.marks import Mark, grade_mark, verdict_mark
from shorewalk.walk.ending import CALLS, FIRST, Ending
from shorewalk.walk.known import Worked
from shorewalk.walk.sums import sum_of

from .question import READABLE
from .sags import DRAWN, sags_in


def ending_page(
    end: Ending,
    room: int,
    *,
    narrow: bool,
    ascii_only: bool,
    worked: Sequence[Worked] = (),
    also: Sequence[str] = (),
    before: Sequence[Line] = (),
    placed: str | None = None,
    menu: Sequence[Command] = (),
) -> list[Line]:
    """Return the ending for a page `room` cells wide; what is needed first stands first.

    Where it is `narrow`, the `menu` of what one can do next is on the page too; else it stands beside it. `also`:
    dangers that the readings leave possible and the tree does not name. `before`: the same readings at other times.
    `placed`: where the site of the message is from, if it was not said of this walk.
    """
    text = min(room, READABLE)
    mark = verdict_mark(end.verdict)
    rows = [banner(mark, ascii_only=ascii_only), BLANK]
    rows += _part("Do now", end.safe_action, text, "question")
    rows += _part("Call", call_words(end), text, "strong")
    rows += _part("Say", end.say, text, "plain")
    rows += _part("Site", placed, text, "note") if placed else []
    rows += _part("Why", end.because, text, "plain")
    rows += [*before, BLANK] if before else []
    rows += [*what_next(menu, text), BLANK] if narrow else []
    if end.lowered:
        rows += _part("Note", LOWERED, text, "note")
    rows += _faults("Not ruled out by these readings", end.not_ruled_out, text, ascii_only=ascii_only)
    rows += _faults("Also possible, by the numbers alone", also, text, ascii_only=ascii_only)
    if worked:
        rows.append(line(Span("Worked out", "group")))
        for each in worked:
            ahead = (grade_mark(each.grade).span(ascii_only=ascii_only), Span("  "))
            rows += wrap(f"{each.says}: {sum_of(each)}", text, "quiet", first=ahead, indent=2)
        rows += wrap(DRAWN, text, "quiet") if sags_in(worked) else []
        rows.append(BLANK)
    if end.readings:
        rows.append(line(Span("All readings that count", "group")))
        for reading in end.readings:
            rows += wrap(reading, text, "quiet", indent=2)
    return rows


def _faults(heading: str, faults: Sequence[str], room: int, *, ascii_only: bool) -> list[Line]:
    if not faults:
        return []
    rows: list[Line] = [line(Span(heading, "group"))]
    for fault in faults:
        rows += wrap(fault, room, "plain", first=(Span("- " if ascii_only else "• ", "quiet"),))
    return [*rows, BLANK]


def banner(mark: Mark, *, ascii_only: bool) -> Line:
    """Return the verdict as mark and word, the most important line of a walk."""
    return line(Span(f" {mark.cell(ascii_only=ascii_only)}  {mark.word.upper()} ", f"{mark.role}-banner"))


def call_words(end: Ending) -> str:
    """Return whom to call, in which order, and when, where nothing is to be done now."""
    call = CALLS[end.call]
    who = f"{FIRST.get(end.first, end.first)} first, then {call}" if end.first else call
    who = who[:1].upper() + who[1:]
    return f"{who}, if {end.call_when}." if end.call_when else f"{who}."


def what_next(menu: Sequence[Command], room: int) -> list[Line]:
    """Return the numbered things one can do at the end."""
    rows: list[Line] = [line(Span("What next", "group"))]
    for command in menu:
        ahead = (Span(f"{command.number:>2}  ", "number"),)
        rows += wrap(command.words, room, "plain", first=ahead)
    return rows


LOWERED = "The readings do not carry a better verdict."
"""Said where the verdict of the tree did not hold."""


def _part(heading: str, text: str, room: int, role: str) -> list[Line]:
    rows: list[Line] = []
    ahead: Line = (Span(f"{heading:<7}", "group"),)
    for paragraph in text.split("\n"):
        if paragraph.strip():
            rows += wrap(paragraph, room, role, first=ahead, indent=7)
            ahead = (Span(" " * 7),)
    return [*rows, BLANK]
