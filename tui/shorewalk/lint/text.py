"""Findings for people: where, what, the line with a mark under it, other places, and what to do."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from textwrap import wrap
from unicodedata import east_asian_width

from shorewalk.tree.source import Place

from .finding import Finding
from .run import Report

WIDTH = 100
TOKEN = re.compile(r"""'(?:[^']|'')*'|"(?:[^"\\]|\\.)*"|[{\[]|[^\s,:\[\]{}]+""")
MOST_RELATED = 12
MOST_STEPS = 14
"""How many other places, and steps of a path, are told; the JSON has all."""

Show = Callable[[str], str]


def write_text(
    report: Report, *, show: Show | None = None, lines: Callable[[str, int], str | None] | None = None
) -> str:
    """Return the report as text. `show` gives a file's name as it should stand there, `lines` a line of it."""
    show, lines = show or shown, lines or Lines()
    blocks = ["\n".join(_finding(finding, show, lines)) for finding in report.findings]
    return "\n\n".join([*blocks, summary(report)]) + "\n"


def shown(file: str) -> str:
    """Return a path from here where the file lies below, else as it is."""
    path = Path(file)
    return str(path.resolve().relative_to(Path.cwd())) if path.resolve().is_relative_to(Path.cwd()) else file


class Lines:
    """Lines of files, each file read once; `None` where there is none to show."""

    def __init__(self) -> None:
        self._texts: dict[str, list[str]] = {}

    def __call__(self, file: str, line: int) -> str | None:
        if file not in self._texts:
            try:
                self._texts[file] = Path(file).read_text("utf-8-sig", errors="replace").split("\n")
            except OSError:
                self._texts[file] = []
        text = self._texts[file]
        return text[line - 1].rstrip("\r") if line <= len(text) else None


def summary(report: Report) -> str:
    """Return one line: how much was found in how much."""
    looked = f"in {_count(report.trees, 'tree')} and {_count(report.parts, 'part')}"
    if not report.findings:
        return f"Nothing found {looked}."
    found = [_count(n, kind) for n, kind in ((report.errors, "error"), (report.warnings, "warning")) if n]
    return f"{' and '.join(found)} {looked}."


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _finding(finding: Finding, show: Show, lines: Callable[[str, int], str | None]) -> Iterator[str]:
    place = finding.place
    yield f"{_place(place, show)}: {finding.severity}: {finding.message} [{finding.rule}]"
    line = lines(place.file, place.line)
    if line is not None and line.strip():
        yield from _marked(line, place)
    if finding.path:
        yield from _wrapped("path", " > ".join(_folded(finding.path)))
    for related in finding.related[:MOST_RELATED]:
        yield f"    {_place(related.place, show)}: {related.label}"
    if len(finding.related) > MOST_RELATED:
        yield f"    and {len(finding.related) - MOST_RELATED} more places"
    if finding.hint:
        yield from _wrapped("to do", finding.hint)


def _place(place: Place, show: Show) -> str:
    return f"{show(place.file)}:{place.line}:{place.column}"


def _marked(line: str, place: Place) -> Iterator[str]:
    """The line, cut where it is long, and a mark under the word in question."""
    at = min(place.column - 1, len(line))
    line = "".join(
        c if c.isprintable() or c == "\t" else "?" for c in line
    )  # a file must not steer a terminal
    token = TOKEN.match(line, at)
    long = len(token[0]) if token else 1
    number, cut = str(place.line), max(0, min(at - WIDTH // 2, len(line) - WIDTH))
    text = line[cut : cut + WIDTH]
    dots, more = ("..." if cut else ""), ("..." if len(line) > cut + WIDTH else "")
    under = "".join(_blank(character) for character in text[: at - cut])
    yield f"  {number} | {dots}{text}{more}"
    yield f"  {' ' * len(number)} | {' ' * len(dots)}{under}{'^' * max(1, min(long, WIDTH - (at - cut)))}"


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


def _wrapped(name: str, text: str) -> list[str]:
    indent = " " * (len(name) + 6)
    return wrap(
        f"    {name}: {text}", WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )
