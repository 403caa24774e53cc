"""Going through every walk there is, shortest first, and telling the one that led somewhere in words.

States are those of the walk itself (`moves`), cut down to what bears on the question: which states of the rig and
the pedestal are kept. Every state and every way between two is kept by number, so
that a rule can go over them again with a latch of its own.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Judge, Jump, Node, Tree

from ..view import View
from .moves import SPENT, At, Move, Moves
from .spread import Kinds
from .standings import Standings


class Visit(NamedTuple):
    """A state come to for the first time."""

    tree: Tree
    node: Node
    at: At


class Explorer:
    """All walks that begin in some trees, jumps to others included.

    `keep` names the states that matter; those that judges ask about (`while`) are kept anyway. `states` are numbered
    in the order they are come to; the ways out of `states[i]` are `moves[first[i]:first[i + 1]]`, to `targets` there.
    """

    def __init__(self, view: View, site: Site, keep: Iterable[str] = ()) -> None:
        self.view, self.site = view, site
        asked = {name for tree in view.trees for node in tree.nodes.values() for name in _asked(node)}
        self.standings = Standings(site, {*keep, *asked})
        self.relevant: Mapping[tuple[str, str], frozenset[str]] | None = None
        """The states that matter at each node, where that was worked out; at other nodes none does."""
        self._moves: dict[str, Moves] = {}
        self._kinds = Kinds(site.limits)
        self._jumps: dict[str, Move] = {}
        self._forget()

    def _forget(self) -> None:
        self.states: list[At] = []
        self.begins: list[int] = []
        self.first, self.targets, self.moves = array("l"), array("l"), list[Move]()
        self._from, self._by = array("l"), list[Move | None]()
        self._numbers: dict[At, int] = {}

    def walk(self, *trees: Tree) -> Iterator[Visit]:
        """Yield every state that walks from the beginnings of `trees` come to, with either kind of meter."""
        self._forget()
        for tree in trees:
            standing = self.standings.at_begin(tree.starts)
            for coarse in (False, True):
                self.begins.append(self._number(At(tree.name, tree.begin, standing, coarse=coarse), -1, None))
        here = 0
        while here < len(self.states):
            at = self.states[here]
            self.first.append(len(self.targets))
            tree_ = self.view.tree(at.tree)
            if tree_ is not None and at.node in tree_.nodes:
                yield Visit(tree_, tree_.nodes[at.node], at)
                for after, move in self._after(tree_, at):
                    self.targets.append(self._number(after, here, move))
                    self.moves.append(move)
            here += 1
        self.first.append(len(self.targets))

    def _number(self, at: At, before: int, move: Move | None) -> int:
        number = self._numbers.get(at)
        if number is None:
            number = self._numbers[at] = len(self.states)
            self.states.append(at)
            self._from.append(before)
            self._by.append(move)
        return number

    def stands(self, number: int) -> bool:
        """Tell whether a walk stands at the node of a state: one that it came to too often it only passes by."""
        way = self.first[number]
        return way == self.first[number + 1] or self.moves[way].label != SPENT

    def path(self, at: At) -> list[tuple[At, str]]:
        """Return the states and the ways by which the present exploration first came to a state."""
        path: list[tuple[At, str]] = []
        here = self._numbers[at]
        while (move := self._by[here]) is not None:
            here = self._from[here]
            path.append((self.states[here], move.label))
        return path[::-1]

    def words(self, at: At) -> tuple[str, ...]:
        """Return that path in words: `node (way)` for each step, and the node it comes to."""
        return in_words(self.path(at), at)

    def _after(self, tree: Tree, at: At) -> Iterator[tuple[At, Move]]:
        node, moves = tree.nodes[at.node], self._of(tree)
        if isinstance(node, Jump):
            if other := self.view.tree(node.tree):
                if other.name not in self._jumps:
                    self._jumps[other.name] = Move(f"on to {other.name}", other.begin)
                after = at._replace(tree=other.name, node=other.begin)
                yield self._of(other).settled(after), self._jumps[other.name]
            return
        arrived = moves.arrive(at)
        for move in moves.out(arrived) if arrived else (moves.spent(node),):
            yield moves.go(arrived or at, move), move

    def _of(self, tree: Tree) -> Moves:
        if tree.name not in self._moves:
            self._moves[tree.name] = Moves(tree, self.site, self.standings, self.relevant, self._kinds)
        return self._moves[tree.name]


def in_words(path: list[tuple[At, str]], at: At) -> tuple[str, ...]:
    """Return a path in words: the tree it begins in, `node (way)` for each step, and the node it comes to."""
    begin = path[0][0].tree if path else at.tree
    return (f"{begin} begins", *(f"{step.node} ({label})" for step, label in path), at.node)


def _asked(node: Node) -> Iterator[str]:
    for row in node.rows if isinstance(node, Judge) else ():
        yield from (name for name, _ in row.while_)
