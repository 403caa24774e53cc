"""Findings for people: where, what, the line with a mark under it, other places, and what to do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from textwrap import wrap
from unicodedata import east_asian_width

from shorewalk.tree.source import Place

from ..finding import Finding
from ..report import Report
from .lines import Lines, length, shown

WIDTH = 100
"""How many characters of a line, and columns of other text, are shown where no terminal says otherwise."""
MOST_RELATED = 12
MOST_STEPS = 14
"""How many other places, and steps of a path, are told; the JSON has all."""

Show = Callable[[str], str]


def write_text(
    report: Report,
    *,
    show: Show | None = None,
    lines: Callable[[str, int], str | None] | None = None,
    width: int | None = None,
) -> str:
    """Return the report as text, for a terminal of `width` columns; a finding's first line is never broken.

    `show` gives a file's name as it should stand there, `lines` a line of it.
    """
    show, lines = show or shown, lines or Lines()
    blocks = ["\n".join(_finding(finding, show, lines, width)) for finding in report.findings]
    return "\n\n".join([*blocks, summary(report)]) + "\n"


def summary(report: Report) -> str:
    """Return one line: how much was found in how much."""
    looked = f"in {_count(report.trees, 'tree')} and {_count(report.parts, 'part')}"
    rest = " Not all could be looked at." if report.stopped else ""
    rest += f" {_count(len(report.silenced), 'finding')} silenced." if report.silenced else ""
    if not report.findings:
        return f"Nothing found {looked}.{rest}"
    found = [_count(n, kind) for n, kind in ((report.errors, "error"), (report.warnings, "warning")) if n]
    return f"{' and '.join(found)} {looked}.{rest}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _finding(
    finding: Finding, show: Show, lines: Callable[[str, int], str | None], width: int | None
) -> Iterator[str]:
    place = finding.place
    yield f"{_place(place, show)}: {finding.severity}: {finding.message} [{finding.rule}]"
    line = lines(place.file, place.line)
    if line is not None and line.strip():
        yield from _marked(line, place, width)
    if finding.path:
        yield from _wrapped("path", " > ".join(_folded(finding.path)), width)
    for related in finding.related[:MOST_RELATED]:
        yield f"    {_place(related.place, show)}: {related.label}"
    if len(finding.related) > MOST_RELATED:
        yield f"    and {len(finding.related) - MOST_RELATED} more places"
    if finding.hint:
        yield from _wrapped("to do", finding.hint, width)


def _place(place: Place, show: Show) -> str:
    return f"{show(place.file)}:{place.line}:{place.column}"


def _marked(line: str, place: Place, width: int | None) -> Iterator[str]:
    """The line, cut where it is long, and a mark under the word in question."""
    at = min(place.column - 1, len(line))
    line = "".join(
        c if c.isprintable() or c == "\t" else "?" for c in line
    )  # a file must not steer a terminal
    long = length(line, place)
    number = str(place.line)
    room = max(20, width - len(number) - 11) if width else WIDTH
    cut = max(0, min(at - room // 2, len(line) - room))
    text = line[cut : cut + room]
    dots, more = ("..." if cut else ""), ("..." if len(line) > cut + room else "")
    under = "".join(_blank(character) for character in text[: at - cut])
    yield f"  {number} | {dots}{text}{more}"
    yield f"  {' ' * len(number)} | {' ' * len(dots)}{under}{'^' * max(1, min(long, room - (at - cut)))}"


def _blank(character: str) -> str:
    if character == "\t":
        return "\t"
    return "  " if east_asian_width(character) in "WF" else " "


def _folded(path: tuple[str, ...]) -> Iterable[str]:
    """A long path without its middle: how it begins, and the last steps, which matter most."""
    if len(path) <= MOST_STEPS:
        return path
    begin = MOST_STEPS // 3
    left = len(path) - MOST_STEPS
    return (*path[:begin], f"({left} more)", *path[begin + left :])


def _wrapped(name: str, text: str, width: int | None) -> list[str]:
    indent = " " * (len(name) + 6)
    return wrap(
        f"    {name}: {text}",
        width or WIDTH,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )
