"""What a walk has to remember at each node: answers some judge ahead still asks for, counts that can still rise.

It is kept in one number, a few bits for each node, so that walks which differ only in what no longer matters
become one by a single `and`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

import networkx as nx

from shorewalk.tree.graph import graph
from shorewalk.tree.model import Judge, Measure, Node, Tally, Tree, Work

from .names import answers_of

READ = "read"
"""What is remembered of a node that gave a number."""

MAYBE = "maybe"
"""What is remembered of arithmetic that this meter may have been too coarse for."""

OTHER = "other"
"""What is remembered of an answer that no row asks for: that there was one."""


class Field(NamedTuple):
    """The bits of one node: 0 for nothing, else the place of the value in `values`, from 1."""

    at: int
    mask: int
    values: tuple[str, ...]

    def code(self, value: str) -> int:
        """Return the bits of a value; one that nobody asks for by name counts as any other, or as nothing."""
        value = value if value in self.values else OTHER
        return (self.values.index(value) + 1) << self.at if value in self.values else 0

    def value(self, memory: int) -> str | None:
        """Return what is remembered, or `None`."""
        place = (memory & self.mask) >> self.at
        return self.values[place - 1] if place else None


class Lives:
    """The fields of a tree's memory: what was given, and how often a node was come to; and where each matters."""

    def __init__(self, tree: Tree) -> None:
        made = graph(tree)
        readers: dict[str, set[str]] = {}
        for name, node in tree.nodes.items():
            for read in reads_of(node):
                readers.setdefault(read, set()).add(name)
        counted = {
            name: {name} for name, node in tree.nodes.items() if node.at_most is not None and node.spent
        }
        self._end = 0
        asked = _asked(tree)
        nodes = {name: tree.nodes[name] for name in readers if name in tree.nodes}
        self.given = {
            name: self._field(_values(node, asked.get(name, set()))) for name, node in nodes.items()
        }
        self.count = {name: self._field(map(str, range(tree.nodes[name].at_most or 0))) for name in counted}
        self.live: dict[str, int] = dict.fromkeys(tree.nodes, 0)
        for fields, where in ((self.given, readers), (self.count, counted)):
            for name, field in fields.items():
                for before in _before(made, where[name]):
                    self.live[before] |= field.mask
        judging = {
            name
            for name, node in tree.nodes.items()
            if isinstance(node, Judge) and any(r.worst for r in node.rows)
        }
        self.worst = _before(made, judging)

    def _field(self, values: Iterable[str]) -> Field:
        names = tuple(values)
        width = len(names).bit_length()
        field = Field(self._end, ((1 << width) - 1) << self._end, names)
        self._end += width
        return field


def reads_of(node: Node) -> set[str]:
    """Return the nodes whose answer or number this one needs, to go on."""
    if isinstance(node, Judge):
        return {*node.of, *(asked.node for row in node.rows for asked in row.when)}
    return {name for _, name in node.inputs} if isinstance(node, Work) else set()


def _asked(tree: Tree) -> dict[str, set[str]]:
    """Return the answers that rows ask for by name."""
    asked: dict[str, set[str]] = {}
    for node in tree.nodes.values():
        for row in node.rows if isinstance(node, Judge) else ():
            for condition in row.when:
                if condition.choice is not None:
                    asked.setdefault(condition.node, set()).add(condition.choice)
    return asked


def _values(node: Node, asked: set[str]) -> tuple[str, ...]:
    answers = [answer for answer in answers_of(node) if answer in asked]
    if isinstance(node, Measure | Work | Tally):
        return (READ, *((MAYBE,) if isinstance(node, Work) else ()), *answers)
    return (*answers, OTHER) if len(answers) < len(answers_of(node)) else tuple(answers)


def _before(made: nx.MultiDiGraph[str], names: set[str]) -> set[str]:
    """Return everything from which one of these can be reached, themselves too."""
    return names.union(*(nx.ancestors(made, name) for name in names if name in made))


def voided(tree: Tree) -> Mapping[str, frozenset[str]]:
    """Return, for each node that gives a number, the nodes that know nothing any more without it."""
    users: dict[str, set[str]] = {}
    for name, node in tree.nodes.items():
        if isinstance(node, Work):
            for _, read in node.inputs:
                users.setdefault(read, set()).add(name)
    found = {}
    for name in tree.nodes:
        gone, waiting = {name}, [name]
        while waiting:
            more = users.get(waiting.pop(), set()) - gone
            gone |= more
            waiting += more
        found[name] = frozenset(gone)
    return found
