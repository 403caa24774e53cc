"""Going through every walk there is, shortest first, and telling the one that led somewhere in words.

States are those of the walk itself (`moves`), cut down to what bears on the question: which states of the rig and
the pedestal are kept, whether the worst grade is, and one latch that a rule turns as walks go by.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Judge, Jump, Node, Tree

from .moves import At, Move, Moves
from .standings import Standings
from .view import View

Latch = Callable[[int, Tree, Node, Move], int]
"""Turns the latch at a move: from its value, the tree, the node that is left, and the move."""


class Visit(NamedTuple):
    """A state come to for the first time."""

    tree: Tree
    node: Node
    at: At


class Explorer:
    """All walks that begin in some trees, jumps to others included.

    `keep` names the states that matter; those that judges ask about (`while`) are kept anyway.
    """

    def __init__(
        self,
        view: View,
        site: Site,
        keep: Iterable[str] = (),
        *,
        latch: Latch | None = None,
        keep_worst: bool = False,
    ) -> None:
        self.view, self.site, self.latch, self.keep_worst = view, site, latch, keep_worst
        asked = {name for tree in view.trees for node in tree.nodes.values() for name in _asked(node)}
        self.standings = Standings(site, {*keep, *asked})
        self._moves: dict[str, Moves] = {}
        self._before: dict[At, tuple[At, str] | None] = {}

    def walk(self, *trees: Tree) -> Iterator[Visit]:
        """Yield every state that walks from the beginnings of `trees` come to, with either kind of meter."""
        begins = []
        for tree in trees:
            standing = self.standings.after(self.standings.nothing, tree.starts)
            begins += [At(tree.name, tree.begin, standing, coarse=coarse) for coarse in (False, True)]
        self._before = dict.fromkeys(begins)
        waiting = deque(begins)
        while waiting:
            at = waiting.popleft()
            here = self.view.tree(at.tree)
            if here is None or at.node not in here.nodes:
                continue
            yield Visit(here, here.nodes[at.node], at)
            for after, label in self._after(here, at):
                if after not in self._before:
                    self._before[after] = (at, label)
                    waiting.append(after)

    def path(self, at: At) -> list[tuple[At, str]]:
        """Return the states and the ways by which the present exploration first came to a state."""
        path: list[tuple[At, str]] = []
        step = self._before[at]
        while step:
            path.append(step)
            step = self._before[step[0]]
        return path[::-1]

    def words(self, at: At) -> tuple[str, ...]:
        """Return that path in words: `node (way)` for each step, and the node it comes to."""
        path = self.path(at)
        begin = path[0][0].tree if path else at.tree
        return (f"{begin} begins", *(f"{step.node} ({label})" for step, label in path), at.node)

    def _after(self, tree: Tree, at: At) -> Iterator[tuple[At, str]]:
        node, moves = tree.nodes[at.node], self._of(tree)
        if isinstance(node, Jump):
            if other := self.view.tree(node.tree):
                yield at._replace(tree=other.name, node=other.begin, memory=0), f"on to {other.name}"
            return
        arrived = moves.arrive(at)
        for move in moves.out(arrived) if arrived else (moves.spent(node),):
            after = moves.go(arrived or at, move)
            if self.latch:
                after = after._replace(latch=self.latch(at.latch, tree, node, move))
            yield after, move.label

    def _of(self, tree: Tree) -> Moves:
        if tree.name not in self._moves:
            self._moves[tree.name] = Moves(tree, self.site, self.standings, keep_worst=self.keep_worst)
        return self._moves[tree.name]


def _asked(node: Node) -> Iterator[str]:
    for row in node.rows if isinstance(node, Judge) else ():
        yield from (name for name, _ in row.while_)
