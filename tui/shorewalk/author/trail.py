"""The ways a walk took, silent nodes included, as they were written: what a recorded walk covers.

A node of a part counts once for all the places where the part is put in. Leaving a part by an exit counts for the
place where that part was put in.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, fields
from itertools import pairwise
from typing import NamedTuple

from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Jump, Node, Route, Tree, Use, Way, Written, ways_out
from shorewalk.walk.answers import Answer
from shorewalk.walk.ledger import Ledger
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk, begin

LABEL_END = "end"

Timed = tuple[Answer, str | None]
"""An answer and its time in ISO 8601, if it has one."""


class Mark(NamedTuple):
    """A way, band, row or exit as written, by file, route of its node, and label; an ending has the label `end`."""

    file: str
    route: Route
    label: str


class Step(NamedTuple):
    """A way that was gone: the tree, the node's full name, and the way's label."""

    tree: str
    node: str
    label: str


@dataclass(slots=True)
class Tracing(Ledger):
    """A ledger that also keeps every way it went."""

    trail: tuple[Step, ...] = field(default=())

    def go(self, way: Way | None) -> None:
        """Keep the way, then go it."""
        node = self.node
        label = next((label for label, one in ways_out(node) if one is way), None)
        if label is not None:
            self.trail = (*self.trail, Step(self.tree.name, node.name, label))
        Ledger.go(self, way)


def traced(
    library: Library, tree: str, meter: Meter, answers: Iterable[Timed]
) -> tuple[Walk, tuple[Step, ...]]:
    """Return the walk of these answers and every way it went; raise `Refused` where one does not fit."""
    walk = tracing(library, tree, meter)
    for answer, time in answers:
        walk = walk.answer(answer, time)
    return walk, gone_on(walk)


def tracing(library: Library, tree: str, meter: Meter) -> Walk:
    """Begin a walk that keeps every way it goes."""
    walk = begin(library, tree, meter)
    ledger = Tracing(**{one.name: getattr(walk.ledger, one.name) for one in fields(Ledger)})
    ledger.trail = tuple(_silent(walk))
    return Walk(library, tree, meter, (), ledger)


def gone_on(walk: Walk) -> tuple[Step, ...]:
    """Return every way that such a walk went."""
    assert isinstance(walk.ledger, Tracing)  # noqa: S101 (a copy of one is one)
    return walk.ledger.trail


def _silent(walk: Walk) -> Iterator[Step]:
    """Yield the ways gone before the first question: each silent node goes on to the next that was come to."""
    first, ledger = walk.library.tree(walk.tree), walk.ledger
    come_to = [name for tree, name in ledger.arrivals if tree == first.name]
    for here, there in pairwise(come_to):
        if label := next((label for label, way in ways_out(first.nodes[here]) if way.goto == there), None):
            yield Step(first.name, here, label)


class Marks:
    """From nodes put together to what was written."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self._of: dict[Step, tuple[Mark, ...]] = {}

    def of(self, step: Step) -> tuple[Mark, ...]:
        """Return what a way covers: itself as written, and the exits it leaves parts by."""
        if step not in self._of:
            self._of[step] = tuple(self._found(step))
        return self._of[step]

    def end(self, node: Node) -> Mark:
        """Return the mark of an ending, or of a jump to another tree."""
        return Mark(node.file, node.route, LABEL_END)

    def covered(self, walk: Walk, steps: Iterable[Step]) -> set[Mark]:
        """Return all that a walk covers."""
        found = {mark for step in steps for mark in self.of(step)}
        node = walk.ledger.node
        own = walk.ledger.tree.nodes.get(node.name)
        return found | ({self.end(own)} if own is node else set())

    def written(self, tree: str) -> list[Written]:
        """Return a tree and every part it puts in, as written, the tree first."""
        found: dict[str, Written] = {}
        waiting = [self.library.written(tree)]
        while waiting:
            one = waiting.pop(0)
            if one.file not in found:
                found[one.file] = one
                waiting += [self.library.part(use.part) for use in one.nodes.values() if isinstance(use, Use)]
        return list(found.values())

    def all(self, tree: str) -> dict[Mark, Node]:
        """Return all that can be covered in a tree and its parts, with the node it belongs to."""
        found: dict[Mark, Node] = {}
        for written in self.written(tree):
            for node in written.nodes.values():
                if isinstance(node, End):
                    found[self.end(node)] = node
                for label, _ in ways_out(node):
                    found[Mark(node.file, node.route, label)] = node
        return found

    def _found(self, step: Step) -> Iterator[Mark]:
        scopes: list[tuple[Written, Use]] = []
        written, names = self.library.written(step.tree), step.node.split(".")
        for name in names[:-1]:
            use = written.nodes[name]
            assert isinstance(use, Use)  # noqa: S101 (a name with a point goes through a use)
            scopes.append((written, use))
            written = self.library.part(use.part)
        node = written.nodes[names[-1]]
        yield Mark(node.file, node.route, step.label)
        way = dict(ways_out(node)).get(step.label)
        while way and scopes and way.goto in written.exits and way.goto not in written.nodes:
            outer, use = scopes.pop()
            label = f"exit {way.goto}"
            yield Mark(use.file, use.route, label)
            way, written = dict(ways_out(use)).get(label), outer


def jumps(tree: Tree) -> list[str]:
    """Return the nodes at which a walk goes on in another tree."""
    return [name for name, node in tree.nodes.items() if isinstance(node, Jump)]
