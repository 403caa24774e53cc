"""Ways that no walk takes, whatever is answered: held against every walk that the linter goes through.

The linter lets every result of arithmetic be and every look be lacking, so what it never comes to cannot be come to.
It lets every look be held, too: a row past one that asks what a look lacks is not met where nothing before it reads
the pairs of that look.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shorewalk.lint.reach import reach
from shorewalk.lint.view import View
from shorewalk.lint.walks.explore import Explorer
from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Judge, Jump, Measure, ways_out

from .ahead import reads
from .trail import Mark, Marks, Step

Key = tuple[str, str]
"""A tree and a node of it."""


def never_met(library: Library, trees: Iterable[str], missing: Iterable[Mark]) -> frozenset[Mark]:
    """Return those of the missing that no walk covers that begins in one of these trees."""
    trees = list(trees)
    explorer = Explorer(View(library), library.site)
    for _ in explorer.walk(*map(library.tree, trees)):
        pass
    taken = {
        Step(at.tree, at.node, explorer.moves[way].label)
        for number, at in enumerate(explorer.states)
        for way in range(explorer.first[number], explorer.first[number + 1])
    }
    marks = Marks(library)
    blind = set(_blind(library, {step.tree for step in taken}))
    met = {mark for step in taken - blind for mark in _covered(library, marks, step)}
    return frozenset(missing) - met


def _covered(library: Library, marks: Marks, step: Step) -> set[Mark]:
    tree = library.tree(step.tree)
    way = dict(ways_out(tree.nodes[step.node])).get(step.label)
    if way is None:
        return set()  # on to another tree
    after = tree.nodes.get(way.goto)
    end = {marks.end(after)} if isinstance(after, End) else set()
    return {*marks.of(step), *end}


def _blind(library: Library, trees: Iterable[str]) -> Iterator[Step]:
    """Yield the rows past one that asks what a look lacks, where that look cannot be held."""
    before: dict[Key, set[Key]] = {}
    judges: list[tuple[str, Judge]] = []
    for name in trees:
        for node in library.tree(name).nodes.values():
            if isinstance(node, Jump):
                before.setdefault((node.tree, library.tree(node.tree).begin), set()).add((name, node.name))
            for _, way in ways_out(node):
                before.setdefault((name, way.goto), set()).add((name, node.name))
            if isinstance(node, Judge) and any(row.lacks for row in node.rows):
                judges.append((name, node))
    for name, judge in judges:
        past = reach([(name, judge.name)], lambda here: before.get(here, ()))
        nodes = [library.tree(tree).nodes[node] for tree, node in past]
        read = [node for node in nodes if isinstance(node, Measure)]
        for number, row in enumerate(judge.rows):
            if row.lacks and not row.when and not row.while_ and not _can_hold(library, row.lacks, read):
                yield from (
                    Step(name, judge.name, f"row {later + 1}") for later in range(number + 1, len(judge.rows))
                )
                break


def _can_hold(library: Library, name: str, read: list[Measure]) -> bool:
    looks = (place.looks[name] for place in library.site.places.values() if name in place.looks)
    return any(all(any(reads(node, look, pair) for node in read) for pair in look.pairs) for look in looks)
