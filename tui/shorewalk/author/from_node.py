"""Walking from any node of a tree, as if things stood there as they do when a walk comes to it.

The states assumed are those that the shortest way from the beginning leaves, by good answers where it can, and
those the node needs. No answer and no reading is assumed: what judges them takes the way for what is missing.
"""

from __future__ import annotations

from dataclasses import replace
from heapq import heappop, heappush

from shorewalk.tree.facts import Site
from shorewalk.tree.library import Library
from shorewalk.tree.model import Node, Pairs, Step, Tree, Way, ways_out
from shorewalk.walk import state as states
from shorewalk.walk.outlook import BAD_GRADES, BAD_WAYS

BAD = 1_000
"""What a way that nobody hopes for counts, where a good one counts 1."""

Taken = tuple[Node, str, Way]
"""A node that was left, the label of the way, the way."""


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
    standing = states.reach({}, tree.starts, site.states)
    for left, label, way in way_to(tree, node):
        if isinstance(left, Step) and label == "done":
            standing = states.reach(standing, left.leaves, site.states)
        elif isinstance(left, Step) and label == "cannot":
            standing = states.maybe(standing, left.leaves, site.states)
        standing = states.reach(standing, way.leaves, site.states)
    lacking = [
        (name, value)
        for name, value in tree.nodes[node].needs
        if name != states.ENERGISED and not states.must(standing, name, value, site.states)
    ]
    return tuple(states.shown(states.reach(standing, tuple(lacking), site.states), site.states).items())


def way_to(tree: Tree, node: str) -> list[Taken]:
    """Return the shortest way from the tree's beginning to a node; nothing where none leads there."""
    came: dict[str, tuple[str, Taken] | None] = {}
    waiting: list[tuple[int, int, str, tuple[str, Taken] | None]] = [(0, 0, tree.begin, None)]
    count = 0
    while waiting and node not in came:
        cost, _, name, step = heappop(waiting)
        if name in came or name not in tree.nodes:
            continue
        came[name] = step
        for label, way in ways_out(tree.nodes[name]):
            count += 1
            bad = label in BAD_WAYS or way.grade in BAD_GRADES
            heappush(
                waiting,
                (cost + (BAD if bad else 1), count, way.goto, (name, (tree.nodes[name], label, way))),
            )
    path: list[Taken] = []
    step = came.get(node)
    while step:
        path.append(step[1])
        step = came[step[0]]
    return path[::-1]
