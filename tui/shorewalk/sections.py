"""The trees under their headings, in the order of `site/headings.yaml`: what may not wait stands first."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from .tree.library import Header, Library

OTHERS = "Others"
"""The heading over trees that stand under none."""


class Section(NamedTuple):
    """A heading, and what can be begun under it."""

    says: str
    headers: tuple[Header, ...]


def sections_of(library: Library) -> list[Section]:
    """Return every tree of a library once, under its heading; those that no heading names come last."""
    left = library.names()
    found: list[Section] = []
    for heading in library.site.headings.values():
        here = [name for name in heading.trees if name in left]
        left = [name for name in left if name not in here]
        found.append(Section(heading.says, tuple(map(library.header, here))))
    found.append(Section(OTHERS, tuple(map(library.header, left))))
    return [section for section in found if section.headers]


def narrowed(sections: Iterable[Section], headers: Iterable[Header]) -> list[Section]:
    """Return the sections with these trees alone."""
    wanted = set(headers)
    kept = (Section(section.says, tuple(h for h in section.headers if h in wanted)) for section in sections)
    return [section for section in kept if section.headers]


def headers_in(sections: Iterable[Section]) -> list[Header]:
    """Return the trees of sections, in their order."""
    return [header for section in sections for header in section.headers]
