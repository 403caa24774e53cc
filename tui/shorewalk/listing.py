"""The trees as lists for the command line: all of them under their headings, or a few to choose from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from .sections import Section
from .tree.library import Header


def choices_of(headers: Sequence[Header], command: str) -> str:
    """Return a few trees as lines: what to type and the symptom."""
    width = max(len(header.name) for header in headers)
    return "\n".join(f"  shorewalk {command} {header.name:{width}}  {header.symptom}" for header in headers)


def whole_list(sections: Sequence[Section]) -> Iterator[str]:
    """Yield the lines of all trees, with their symptoms, under their headings."""
    width = max(len(header.name) for section in sections for header in section.headers)
    for section in sections:
        yield section.says
        for header in section.headers:
            yield f"  {header.name:{width}}  {header.symptom}"


def names_by_heading(sections: Iterable[Section]) -> list[tuple[str, str]]:
    """Return each heading with the names of its trees."""
    return [(section.says, ", ".join(header.name for header in section.headers)) for section in sections]


def tree_tables(sections: Iterable[Section]) -> Iterator[str]:
    """Yield the README's list of the trees, in Markdown: under each heading what each tree tells apart."""
    for section in sections:
        yield from (f"**{section.says}**", "", "| symptom | tree | tells apart |", "| --- | --- | --- |")
        for header in section.headers:
            yield f"| {header.symptom} | `{header.name}` | {'; '.join(header.tells)} |"
        yield ""
