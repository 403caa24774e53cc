"""Ways that no walk takes, whatever is answered: held against every walk that the linter goes through.

The linter lets every result of arithmetic be and every look be lacking, so what it never comes to cannot be come to.
"""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.lint.explore import Explorer
from shorewalk.lint.view import View
from shorewalk.tree.library import Library
from shorewalk.tree.model import End, ways_out

from .trail import Mark, Marks, Step


def never_met(library: Library, trees: Iterable[str], missing: Iterable[Mark]) -> frozenset[Mark]:
    """Return those of the missing that no walk covers that begins in one of these trees."""
    explorer = Explorer(View(library), library.site)
    for _ in explorer.walk(*map(library.tree, trees)):
        pass
    taken = {
        Step(at.tree, at.node, explorer.moves[way].label)
        for number, at in enumerate(explorer.states)
        for way in range(explorer.first[number], explorer.first[number + 1])
    }
    marks = Marks(library)
    met = {mark for step in taken for mark in _covered(library, marks, step)}
    return frozenset(missing) - met


def _covered(library: Library, marks: Marks, step: Step) -> set[Mark]:
    tree = library.tree(step.tree)
    way = dict(ways_out(tree.nodes[step.node])).get(step.label)
    if way is None:
        return set()  # on to another tree
    after = tree.nodes.get(way.goto)
    end = {marks.end(after)} if isinstance(after, End) else set()
    return {*marks.of(step), *end}
