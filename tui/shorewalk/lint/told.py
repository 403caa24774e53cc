"""Which placeholders of a tree are surely known where: answers, readings and results that every path brought."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property
from typing import NamedTuple

from shorewalk.tree.facts import Site
from shorewalk.tree.model import (
    AGAIN,
    Ask,
    Judge,
    Measure,
    Node,
    Route,
    Step,
    Tally,
    Tree,
    Way,
    Work,
    ways_out,
)
from shorewalk.walk.behind import USUAL
from shorewalk.walk.evidence import quantity_of

from .must import Edge, Edges, on_every_path, path_without
from .walks.lives import voided
from .words.prose import bare_texts

PLACEHOLDER = re.compile(r"\{([^{}\s]+)\}")
BRACKET = re.compile(r"\[[^\[\]]*\]")
READINGS = "readings"
NO_ANSWER = ("unsure", "unable", "cannot", "done")
"""What a row may ask for that tells nothing to put into words."""


class Need(NamedTuple):
    """A placeholder that stands outside brackets: its node, the route to the text inside it, and its name."""

    node: Node
    route: Route
    name: str


@dataclass
class Told:
    """What is known on every path of a tree, of all that its texts need."""

    tree: Tree
    site: Site
    _bases: dict[str, int] = field(default_factory=dict)

    @cached_property
    def needs(self) -> list[Need]:
        """Everything that some text needs."""
        return [
            Need(node, route, name)
            for node in self.tree.nodes.values()
            for route, text in bare_texts(node)
            if "{" in text
            for name in dict.fromkeys(PLACEHOLDER.findall(BRACKET.sub("", text) if "[" in text else text))
        ]

    @cached_property
    def bits(self) -> Mapping[str, int]:
        """A bit for each name that some text needs."""
        return {name: 1 << at for at, name in enumerate(dict.fromkeys(need.name for need in self.needs))}

    @cached_property
    def gone(self) -> Mapping[str, int]:
        """What else is not known any more when a number is not."""
        return {name: self._mask(all_) for name, all_ in voided(self.tree).items() if len(all_) > 1}

    @cached_property
    def edges(self) -> Edges:
        """The ways of the tree, with what each brings and takes."""
        nodes = self.tree.nodes
        return cache(lambda name: tuple(self._out(nodes[name])) if name in nodes else ())

    @cached_property
    def begins(self) -> Mapping[Hashable, int]:
        return {self.tree.begin: 0}

    @cached_property
    def held(self) -> Mapping[Hashable, int]:
        """The bits known at each node that is come to."""
        return on_every_path(self.edges, self.begins)

    def unknown(self, node: Node, name: str) -> bool:
        """Tell whether some path comes to the node without what `name` stands for."""
        return node.name in self.held and not self.held[node.name] & self.bits[name]

    def path(self, node: Node, name: str) -> tuple[str, ...]:
        """Return a shortest such path in words."""
        steps = path_without(self.edges, self.begins, node.name, self.bits[name])
        return (f"{self.tree.name} begins", *(f"{at} ({label})" for at, label in steps), node.name)

    def _mask(self, names: frozenset[str]) -> int:
        return sum(self.bits[name] for name in names if name in self.bits)

    def _out(self, node: Node) -> Iterator[Edge]:
        gone = self.gone
        bit, void = self.bits.get(node.name, 0), ~gone.get(node.name, self.bits.get(node.name, 0))
        for label, way in ways_out(node):
            keep, put = -1, 0
            kind = label.partition(" ")[0]
            if kind == "spent":
                pass
            elif isinstance(node, Measure | Work | Tally):
                keep = void
                if kind in ("next", "band") and way.grade != AGAIN:
                    put = self._behind(node.name) | self._graded(node, way)
            elif isinstance(node, Ask):
                keep = ~bit
                chosen = kind == "choose" and node.sign != "tenths"  # a meter that is known is not asked for
                put = bit if chosen else 0
            elif isinstance(node, Step):
                keep = ~bit
            elif isinstance(node, Judge) and kind == "row":
                if way.grade == AGAIN:
                    for name in node.of:
                        keep &= ~gone.get(name, self.bits.get(name, 0))
                else:
                    put = self._judged(node, int(label.partition(" ")[2]) - 1)
                    for name in node.of:
                        put |= self._graded(self.tree.nodes.get(name), way)
            yield Edge(label, way.goto, keep, put)

    def _graded(self, node: Node | None, way: Way) -> int:
        """Return that there are readings behind the ending, where this one is graded a stop or worse."""
        graded = isinstance(node, Measure) and way.grade in ("stop", "danger")
        return self.bits.get(READINGS, 0) if graded else 0

    def _behind(self, name: str) -> int:
        """Return what is known while a number is: itself, and the readings it was worked out from.

        A result between them may be voided, and what was worked out from it stays.
        """
        if name not in self._bases:
            self._bases[name] = 0  # also for what is worked out from itself, which is told elsewhere
            node = self.tree.nodes.get(name)
            if isinstance(node, Work):
                for _, read in node.inputs:
                    inner = self.tree.nodes.get(read)
                    own = self.bits.get(read, 0) if not isinstance(inner, Measure) else 0
                    self._bases[name] |= self._behind(read) & ~own
            elif isinstance(node, Measure) and (kind := quantity_of(node, self.site)) and kind.id in USUAL:
                self._bases[name] = self.bits.get(READINGS, 0)
            self._bases[name] |= self.bits.get(name, 0)
        return self._bases[name]

    def _judged(self, node: Judge, row: int) -> int:
        """Return what a row's being met tells: what the judge waited for was read, what it asks for is there."""
        asked = (c.node for c in node.rows[row].when if c.choice not in NO_ANSWER)
        put = 0
        for name in (*node.of, *asked):
            known = self.tree.nodes.get(name)
            if isinstance(known, Measure | Work | Tally) or (isinstance(known, Ask) and name not in node.of):
                put |= self._behind(name)
        held = any(
            above.lacks and not (above.when or above.while_ or above.worst) for above in node.rows[:row]
        )
        return put | (self.bits.get(READINGS, 0) if held else 0)  # a look that is held stands on readings
