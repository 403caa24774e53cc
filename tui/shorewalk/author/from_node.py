"""Walking from any node of a tree, as if things stood there as they do when a walk comes to it.

The states assumed are those that the shortest way from the beginning leaves, by good answers where it can, and
those the node needs. No answer and no reading is assumed: what judges them takes the way for what is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from heapq import heappop, heappush

from shorewalk.tree.facts import Site
from shorewalk.tree.library import Library
from shorewalk.tree.model import Judge, Node, Pairs, Step, Tree, Way, ways_out
from shorewalk.walk import state as states
from shorewalk.walk.outlook import BAD_GRADES, BAD_WAYS

BAD = 1_000
"""What a way that nobody hopes for counts, where a good one counts 1."""


class From:
    """A library in which one tree begins at another node; a walk in it can go back, and be taken up again."""

    def __init__(self, library: Library, tree: str, node: str) -> None:
        self.library = library
        whole = library.tree(tree)
        self.starts = assumed(whole, node, library.site)
        self._tree = replace(whole, begin=node, starts=self.starts)

    @property
    def site(self) -> Site:
        """The facts all trees share."""
        return self.library.site

    def tree(self, name: str, /) -> Tree:
        """Return a tree; the one previewed begins at its node."""
        return self._tree if name == self._tree.name else self.library.tree(name)


def assumed(tree: Tree, node: str, site: Site) -> Pairs:
    """Return how things are taken to stand at a node."""
    standing = standing_at(tree, node, site)
    lacking = [
        (name, value)
        for name, value in tree.nodes[node].needs
        if name != states.ENERGISED and not states.must(standing, name, value, site.states)
    ]
    return tuple(states.shown(states.reach(standing, tuple(lacking), site.states), site.states).items())


def standing_at(tree: Tree, node: str, site: Site) -> states.Standing:
    """Return how things stand where the shortest way from the beginning comes to a node.

    As at the beginning where no way leads there.
    """
    begin = states.at_begin(tree.starts, site.states)
    waiting: list[tuple[int, int, str, states.Standing]] = [(0, 0, tree.begin, begin)]
    come: set[str] = set()
    count = 0
    while waiting:
        cost, _, name, standing = heappop(waiting)
        if name == node:
            return standing
        if name in come or name not in tree.nodes:
            continue
        come.add(name)
        left = tree.nodes[name]
        for label, way in _open(left, standing, site):
            count += 1
            bad = label in BAD_WAYS or way.grade in BAD_GRADES
            after = _after(standing, left, label, way, site)
            heappush(waiting, (cost + (BAD if bad else 1), count, way.goto, after))
    return begin


def _open(node: Node, standing: states.Standing, site: Site) -> Iterator[tuple[str, Way]]:
    """Yield the ways that can be gone as things stand: a judge's first row that asks nothing else is its last."""
    rows = {f"row {at}": row for at, row in enumerate(node.rows, 1)} if isinstance(node, Judge) else {}
    sure = False
    for label, way in ways_out(node):
        row = rows.get(label)
        if row is None:
            yield label, way
        elif not sure and all(states.may(standing, *pair, site.states) for pair in row.while_):
            yield label, way
            sure = not (row.when or row.worst or row.lacks)


def _after(
    standing: states.Standing, left: Node, label: str, way: Way, site: Site
) -> dict[str, frozenset[str]]:
    leaves = left.leaves if isinstance(left, Step) else ()
    come = states.maybe if label == "cannot" else states.reach
    stood = come(standing, leaves, site.states) if label in ("done", "cannot") else standing
    return states.reach(stood, way.leaves, site.states)
