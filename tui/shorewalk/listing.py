"""The trees as lists for the command line: all of them under their headings, or a few to choose from."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from shutil import get_terminal_size
from textwrap import wrap

from .sections import Section
from .tree.library import Header


def choices_of(headers: Sequence[Header], command: str) -> str:
    """Return a few trees as lines: what to type and the symptom."""
    return "\n".join(_listed({f"shorewalk {command} {header.name}": header for header in headers}))


def whole_list(sections: Sequence[Section]) -> Iterator[str]:
    """Yield the lines of all trees, with their symptoms, under their headings."""
    lines = _listed({header.name: header for section in sections for header in section.headers})
    for section in sections:
        yield section.says
        for _ in section.headers:
            yield next(lines)


def _listed(headers: dict[str, Header]) -> Iterator[str]:
    """Yield what to type beside the symptom; below each other where the window is too narrow for that."""
    width = max(map(len, headers), default=0)
    widest = max((len(header.symptom) for header in headers.values()), default=0)
    beside = 2 + width + 2 + widest <= get_terminal_size().columns
    for words, header in headers.items():
        yield f"  {words:{width}}  {header.symptom}" if beside else f"  {words}\n    {header.symptom}"


def fitted(text: str) -> str:
    """Return text with no line longer than the window is wide, broken between words."""
    room = get_terminal_size().columns
    return "\n".join(part for line in text.splitlines() for part in _broken(line, room))


def _broken(line: str, room: int) -> list[str]:
    if len(line) <= room:
        return [line]
    # What goes on stands below its own column, where that leaves room for it.
    column = max(at.end() for at in re.finditer(r"^ *|\S {2,}", line))
    inset = " " * (column if column <= room // 2 else len(line) - len(line.lstrip()))
    return wrap(
        line,
        room,
        subsequent_indent=inset,
        break_long_words=False,
        break_on_hyphens=False,
    )


def tree_tables(sections: Iterable[Section]) -> Iterator[str]:
    """Yield the README's list of the trees, in Markdown: under each heading what each tree tells apart."""
    for section in sections:
        yield from (f"**{section.says}**", "", "| symptom | tree | tells apart |", "| --- | --- | --- |")
        for header in section.headers:
            yield f"| {header.symptom} | `{header.name}` | {'; '.join(header.tells)} |"
        yield ""
