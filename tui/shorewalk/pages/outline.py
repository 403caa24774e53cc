"""An author's view of a file: its nodes with marks for findings, the findings in full, one node beside them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from shorewalk.author.outline import Outline, Row, worst
from shorewalk.lines import BLANK, Line, Span, cells, cut, line, width, wrap
from shorewalk.lint.finding import Finding, Severity
from shorewalk.marks import grade_mark, verdict_mark

from .fixed import FINDINGS

KIND = max(map(len, ("measure", "part")))
LEAST_WORDS = 14
"""Cells under which a node's words are not begun beside its name."""

ByNode = Mapping[str, Sequence[Finding]]


class OutlinePage(NamedTuple):
    """Lines, and at which of them each node stands."""

    lines: list[Line]
    at: dict[str, int]


def outline_page(
    outline: Outline, chosen: str | None, found: ByNode, room: int, *, ascii_only: bool
) -> OutlinePage:
    """Return every node with its number, mark, kind, name and, where there is room, its words."""
    rows: list[Line] = []
    at: dict[str, int] = {}
    heading: str | None = None
    digits = len(str(len(outline.rows)))
    named = min(24, max((len(row.name) for row in outline.rows), default=0))
    for number, row in enumerate(outline.rows, 1):
        if (under := row.verdict or row.group) != heading:
            heading = under
            rows += [BLANK] if rows else []
            rows += _heading(row, ascii_only=ascii_only)
        at[row.name] = len(rows)
        ahead = _ahead(number, digits, row, found, chosen=chosen, ascii_only=ascii_only)
        rows.append(_with_words(ahead, row, named, room, chosen=chosen, ascii_only=ascii_only))
    return OutlinePage(rows, at)


def _heading(row: Row, *, ascii_only: bool) -> list[Line]:
    if row.verdict:
        mark = verdict_mark(row.verdict)
        return [line(Span("Ends: ", "group"), mark.span(ascii_only=ascii_only))]
    return [line(Span(row.group, "group"))] if row.group else []


def _ahead(
    number: int, digits: int, row: Row, found: ByNode, *, chosen: str | None, ascii_only: bool
) -> list[Span]:
    here = row.name == chosen
    pointer = (">" if ascii_only else "▸") if here else " "
    severity = worst(found.get(row.name, ()))
    mark = FINDINGS[severity] if severity else None
    return [
        Span(f"{pointer}{number:>{digits}} ", "picked" if here else "number"),
        Span(mark.cell(ascii_only=ascii_only) if mark else " ", mark.role if mark else "plain"),
        Span(f" {row.kind:<{KIND}} ", "quiet"),
    ]


def _with_words(
    ahead: list[Span], row: Row, named: int, room: int, *, chosen: str | None, ascii_only: bool
) -> Line:
    more, left = "..." if ascii_only else "…", room - width(tuple(ahead))
    name = Span(cut(row.name, left, more), "strong" if row.name == chosen else "plain")
    gap = max(named - cells(name.text), 0) + 2
    if (room_for_words := left - cells(name.text) - gap) < LEAST_WORDS:
        return (*ahead, name)
    return (*ahead, name, Span(" " * gap), Span(cut(row.words, room_for_words, more), "quiet"))


def node_side(row: Row, found: Sequence[Finding], room: int, *, ascii_only: bool) -> list[Line]:
    """Return one node for the side: what it is, what is found in it, where its ways lead."""
    rows = [line(Span(row.name, "strong")), line(Span(f"{row.kind}, line {row.line}", "quiet")), BLANK]
    for finding in found:
        rows += wrap(finding.message, room, first=_mark(finding, ascii_only=ascii_only), indent=2)
    rows += [BLANK] if found else []
    rows += [*wrap(row.words, room), BLANK]
    for label, goto, grade in row.ways:
        rows += wrap(label, room, "quiet")
        rows += wrap(goto, room, first=line(Span("  > " if ascii_only else "  → ", "quiet")))
        rows += [line("    ", grade_mark(grade).span(ascii_only=ascii_only))] if grade else []
    return rows


def findings_page(findings: Sequence[Finding], file: str, room: int, *, ascii_only: bool) -> list[Line]:
    """Return findings in full: where, what, the walk that leads there, what to do."""
    rows: list[Line] = []
    for finding in findings:
        where = place_words(finding, file)
        first = (*_mark(finding, ascii_only=ascii_only), Span(where, "number"), Span("  "))
        rows += wrap(f"{finding.message} [{finding.rule}]", room, first=first, indent=2)
        if finding.path:
            rows += wrap(
                " > ".join(finding.path), room, "quiet", first=line(Span("  path: ", "quiet")), indent=4
            )
        for related in finding.related:
            rows += wrap(
                f"{related.label}, line {related.place.line}", room, "quiet", first=line("  "), indent=4
            )
        if finding.hint:
            rows += wrap(finding.hint, room, "note", first=line(Span("  to do: ", "quiet")), indent=4)
        rows.append(BLANK)
    return rows or [line(Span("Nothing found.", "ok"))]


def place_words(finding: Finding, file: str) -> str:
    """Return line and column; the name of the file too where it is another."""
    place = finding.place
    other = "" if place.file == file else f"{Path(place.file).parent.name}/{Path(place.file).name}:"
    return f"{other}{place.line}:{place.column}"


def counted(findings: Iterable[Finding]) -> str:
    """Return how many findings there are, in a word or two."""
    severities = [finding.severity for finding in findings]
    told = [(severities.count(severity), severity) for severity in (Severity.ERROR, Severity.WARNING)]
    words = [f"{count} {severity}{'' if count == 1 else 's'}" for count, severity in told if count]
    return ", ".join(words) or "nothing found"


def _mark(finding: Finding, *, ascii_only: bool) -> Line:
    mark = FINDINGS[finding.severity]
    return line(Span(f"{mark.cell(ascii_only=ascii_only)} ", mark.role))
