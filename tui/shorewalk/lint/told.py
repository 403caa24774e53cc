"""Which placeholders of a tree are surely known where: answers, readings and results that every path brought."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from shorewalk.tree.facts import Site
from shorewalk.tree.model import AGAIN, Ask, Judge, Measure, Node, Step, Tally, Tree, Work, ways_out
from shorewalk.walk.evidence import quantity_of

from .lives import voided
from .must import Edge, on_every_path, path_without
from .prose import Said, texts_of

PLACEHOLDER = re.compile(r"\{([^{}\s]+)\}")
BRACKET = re.compile(r"\[[^\[\]]*\]")
READINGS = "readings"
NO_ANSWER = ("unsure", "unable", "cannot", "done")
"""What a row may ask for that tells nothing to put into words."""


def needed(node: Node) -> Iterator[tuple[Said, str]]:
    """Yield the placeholders of a node that stand outside brackets, each with its text."""
    for said in texts_of(node):
        if "{" in said.text:
            bare = BRACKET.sub("", said.text) if "[" in said.text else said.text
            for name in dict.fromkeys(PLACEHOLDER.findall(bare)):
                yield said, name


@dataclass
class Told:
    """What is known on every path of a tree, of all that its texts need."""

    tree: Tree
    site: Site
    _bases: dict[str, int] = field(default_factory=dict)

    @cached_property
    def bits(self) -> Mapping[str, int]:
        """A bit for everything that some text needs."""
        names = {name: None for node in self.tree.nodes.values() for _, name in needed(node)}
        return {name: 1 << at for at, name in enumerate(names)}

    @cached_property
    def edges(self) -> Mapping[Hashable, list[Edge]]:
        """The ways of the tree, with what each brings and takes."""
        gone = {name: self._mask(all_) for name, all_ in voided(self.tree).items()}
        return {name: list(self._out(node, gone)) for name, node in self.tree.nodes.items()}

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

    def _out(self, node: Node, gone: Mapping[str, int]) -> Iterator[Edge]:
        bit, void = self.bits.get(node.name, 0), ~gone[node.name]
        for label, way in ways_out(node):
            keep, put = -1, 0
            kind = label.partition(" ")[0]
            if kind == "spent":
                pass
            elif isinstance(node, Measure | Work | Tally):
                keep = void
                if kind in ("next", "band") and way.grade != AGAIN:
                    put = self._behind(node.name)
            elif isinstance(node, Ask):
                keep = ~bit
                put = (
                    bit if kind == "choose" and node.sign != "tenths" else 0
                )  # a meter that is known is not asked for
            elif isinstance(node, Step):
                keep = ~bit
            elif isinstance(node, Judge) and kind == "row":
                if way.grade == AGAIN:
                    for name in node.of:
                        keep &= ~gone.get(name, 0)
                else:
                    put = self._judged(node, int(label.partition(" ")[2]) - 1)
            yield Edge(label, way.goto, keep, put)

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
            elif isinstance(node, Measure) and quantity_of(node, self.site):
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
