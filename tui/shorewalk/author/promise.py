"""How much that no recorded walk covers yet can be taken along from each node, on the way that takes most of it."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.tree.model import End, Jump, Tree, ways_out

from .trail import Mark, Marks, Step

Gone = tuple[str, str]
"""A node and the label of a way out of it."""


class Promise:
    """What is wanted of one tree, and where most of it lies. What cannot be had on the way is not known here."""

    def __init__(self, tree: Tree, marks: Marks, wanted: Iterable[Mark]) -> None:
        self.tree = tree
        self._marks: dict[Gone, frozenset[Mark]] = {}
        self._left = set(wanted)
        self._shut: set[Gone] = set()
        for name, node in tree.nodes.items():
            for label, way in ways_out(node):
                after = tree.nodes.get(way.goto)
                end = {marks.end(after)} if isinstance(after, End | Jump) else set()
                self._marks[name, label] = frozenset({*marks.of(Step(tree.name, name, label)), *end})
        self._order, self._on = self._sorted()
        self.worth: dict[str, int] = {}
        self._weigh()

    @property
    def left(self) -> int:
        """The most that one walk from the beginning can take along."""
        return self.worth.get(self.tree.begin, 0)

    def have(self, covered: set[Mark]) -> None:
        """These are wanted no more."""
        if self._left & covered:
            self._left = self._left - covered
            self._weigh()

    def shut(self, ways: Iterable[Gone]) -> None:
        """These ways could not be gone when it was tried: nothing is promised of them any more."""
        self._shut.update(ways)
        self._weigh()

    def open(self, ways: Iterable[Gone]) -> None:
        """These ways may be tried again."""
        self._shut.difference_update(ways)
        self._weigh()

    @property
    def wanted(self) -> set[Mark]:
        """What is still wanted."""
        return self._left

    def nodes(self) -> list[str]:
        """Return the nodes with a way that is wanted."""
        return list(dict.fromkeys(name for name, label in self._marks if self.of((name, label))))

    def ahead(self, gone: Gone, goto: str) -> int:
        """Return what is promised behind a way."""
        return self.worth.get(goto, 0) if gone in self._on and gone not in self._shut else 0

    def of(self, gone: Gone) -> frozenset[Mark]:
        """Return what a way would cover that is wanted."""
        return self._marks[gone] & self._left if gone not in self._shut else frozenset()

    def best(self, name: str) -> list[Gone]:
        """Return the ways out of a node that promise most, if anything is promised."""
        return [
            (name, label)
            for label, way in ways_out(self.tree.nodes[name])
            if self.worth[name] and self._by((name, label), way.goto) == self.worth[name]
        ]

    def _by(self, gone: Gone, goto: str) -> int:
        return len(self.of(gone)) + self.ahead(gone, goto)

    def _weigh(self) -> None:
        self.worth = {}
        for name in self._order:
            ways = ways_out(self.tree.nodes[name])
            self.worth[name] = max((self._by((name, label), way.goto) for label, way in ways), default=0)

    def _sorted(self) -> tuple[list[str], set[Gone]]:
        """Return the nodes, what they lead to first, and the ways that do not lead back."""
        order: list[str] = []
        on: set[Gone] = set()
        open_, done = {self.tree.begin}, set[str]()
        stack = [(self.tree.begin, iter(list(ways_out(self.tree.nodes[self.tree.begin]))))]
        while stack:
            name, ways = stack[-1]
            for label, way in ways:
                if way.goto in open_ or way.goto not in self.tree.nodes:
                    continue
                on.add((name, label))
                if way.goto not in done:
                    open_.add(way.goto)
                    stack.append((way.goto, iter(list(ways_out(self.tree.nodes[way.goto])))))
                    break
            else:
                stack.pop()
                open_.remove(name)
                done.add(name)
                order.append(name)
        return order, on
