"""Every ending of a tree with the shortest walk to it, each walk proven by the fold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Jump
from shorewalk.tree.source import Place
from shorewalk.walk.meter import Meter

from .proving import Proven, prove
from .searching import Search
from .stepping import Steps
from .trail import Timed, traced

MOST = 1
"""So many paths are gone on from that differ only in what they claim of readings."""


@dataclass(frozen=True, slots=True)
class Path:
    """An ending (or a jump to another tree) as it stands in the tree, and the shortest walk to it, if one was found."""

    name: str
    place: Place
    node: End | Jump
    proven: Proven | None


@dataclass(frozen=True, slots=True)
class TreePaths:
    """The paths of a tree, in the order written. `whole`: all walks were gone through, so what is missing cannot be."""

    tree: str
    symptom: str
    paths: tuple[Path, ...]
    whole: bool


def paths_of(library: Library, name: str, meter: Meter) -> TreePaths:
    """Return every ending of a tree, parts put in, with the shortest walk that was found to it."""
    tree = library.tree(name)
    ends = {node.name: node for node in tree.nodes.values() if isinstance(node, End | Jump)}
    steps = Steps(tree, library.site, meter)
    search = Search(steps, MOST, ends)
    proven: dict[str, Proven] = {}
    for place in search.go():
        at = search.reached[place].state.node
        if at in ends and at not in proven and (found := prove(steps, library, search.path(place))):
            proven[at] = found
            search.found(at)
    return _told(library, name, proven, whole=not search.cut and steps.exact)


def with_walks(
    library: Library, name: str, meter: Meter, answers: Mapping[str, list[Timed]], *, whole: bool
) -> TreePaths:
    """Return the paths of a tree from the answers of the walks to its endings."""
    proven = {at: Proven(*traced(library, name, meter, given)) for at, given in answers.items()}
    return _told(library, name, proven, whole=whole)


def _told(library: Library, name: str, proven: Mapping[str, Proven], *, whole: bool) -> TreePaths:
    tree = library.tree(name)
    paths = tuple(
        Path(node.name, library.find(node.file, node.route), node, proven.get(node.name))
        for node in tree.nodes.values()
        if isinstance(node, End | Jump)
    )
    return TreePaths(name, tree.symptom, paths, whole)
