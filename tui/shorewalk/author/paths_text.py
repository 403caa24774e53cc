"""Paths and coverage for people, in lines no wider than their terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from textwrap import wrap

from shorewalk.tree.library import Library
from shorewalk.tree.model import End
from shorewalk.tree.source import Place

from .coverage import KINDS, Coverage, kind_of
from .paths import Path, TreePaths
from .trail import LABEL_END, Mark
from .typed import typed

Show = Callable[[str], str]


def paths_text(library: Library, found: TreePaths, room: int, show: Show) -> Iterator[str]:
    """Yield the lines of a tree: every ending with what to type on the way there."""
    ends = [path for path in found.paths if isinstance(path.node, End)]
    reached = sum(path.proven is not None for path in ends)
    yield from _lines(f"{found.tree}: {found.symptom}", room)
    yield from _lines(f"{reached} of {len(ends)} endings have a walk.", room)
    for path in found.paths:
        yield ""
        yield from _path(library, path, room, show, whole=found.whole)


def _path(library: Library, path: Path, room: int, show: Show, *, whole: bool) -> Iterator[str]:
    node = path.node
    what = f"{node.verdict}, call {node.call}" if isinstance(node, End) else f"on to the tree {node.tree}"
    yield from _lines(f"{path.name}: {what}", room)
    yield from _lines(_at(path.place, show), room, 2)
    if path.proven is None:
        yield from _lines("No walk leads here." if whole else "No walk was found that leads here.", room, 2)
        return
    answers = path.proven.walk.answers
    tree = library.tree(path.proven.walk.tree)
    many = f"{len(answers)} answer{'' if len(answers) == 1 else 's'}: "
    told = ", ".join(f"{one.at} {typed(one.answer, tree.nodes[one.at])}" for one in answers)
    yield from _lines(many + told, room, 2)


def coverage_text(library: Library, coverage: Coverage, room: int, show: Show) -> Iterator[str]:
    """Yield the lines of what recorded walks cover, and what is missing, by place."""
    walks = "1 recorded walk covers" if coverage.walks == 1 else f"{coverage.walks} recorded walks cover"
    yield from _lines(f"{walks}:", room)
    for kind in KINDS:
        have, all_ = coverage.counts(kind)
        yield from _lines(f"{kind}: {have} of {all_} ({percent(have, all_)} %)", room, 2)
    if coverage.missing:
        yield from _lines("Not covered:", room)
    for place, mark in in_order(library, coverage.missing):
        yield from _lines(f"{_at(place, show)}: {says(mark)}", room, 2)
    if coverage.never:
        yield from _lines("In no walk, whatever is answered, and not counted:", room)
    for place, mark in in_order(library, coverage.never):
        yield from _lines(f"{_at(place, show)}: {says(mark)}", room, 2)


def in_order(library: Library, marks: Iterable[Mark]) -> list[tuple[Place, Mark]]:
    """Return marks with the places of their nodes, in order."""
    kinds = {mark: KINDS.index(kind_of(mark)) for mark in marks}
    found = [(library.find(mark.file, mark.route), mark) for mark in kinds]
    return sorted(found, key=lambda one: (kinds[one[1]], one[0], one[1].label))


def says(mark: Mark) -> str:
    """Return a mark in words."""
    name = str(mark.route[-1])
    return f"ending {name}" if mark.label == LABEL_END else f"{name}, {mark.label}"


def percent(have: int, all_: int) -> int:
    """Return a share in whole percent, rounded down, so that 100 means all."""
    return 100 * have // all_ if all_ else 100


def _at(place: Place, show: Show) -> str:
    return f"{show(place.file)}:{place.line}"


def _lines(text: str, room: int, inset: int = 0) -> list[str]:
    first, later = " " * inset, " " * (inset + 2)
    return wrap(text, room, initial_indent=first, subsequent_indent=later, break_on_hyphens=False) or [""]
