"""One file as a graph: its nodes, its exits and the nodes a caller names for it; parts put in stand as one node.

What a part does inside is known by its summary, so that a fault in it is found once, in the part, and a part
that nothing uses yet is judged as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

import networkx as nx

from shorewalk.tree.model import End, Jump, Node, Use, Written, ways_out

from .view import View


@dataclass(frozen=True, slots=True)
class Summary:
    """Where a part can lead: its exits and `$parameters`; those left once it is worn; whether it can end.

    Of a part that cannot be read everything is hoped for: `known` is false.
    """

    leaves: frozenset[str] = frozenset()
    worn: frozenset[str] = frozenset()
    ends: bool = True
    known: bool = False


@dataclass
class Graphs:
    """Graphs of files and summaries of parts, made once each."""

    view: View
    summaries: dict[str, Summary] = field(default_factory=dict)

    @cached_property
    def files(self) -> list[tuple[Written, nx.MultiDiGraph[str]]]:
        """Every file looked at, with its graph."""
        return [(written, self.graph(written)) for written in self.view.files]

    def graph(self, written: Written, *, worn: bool = False) -> nx.MultiDiGraph[str]:
        """Return the graph of a file; an edge's key is the way's label.

        With `worn`, the graph of a walk that has gone round so often that every count is used up: a counted
        node is left by `spent` alone.
        """
        made: nx.MultiDiGraph[str] = nx.MultiDiGraph()
        made.add_nodes_from(written.nodes)
        for name, node in written.nodes.items():
            for label, target in self.ways(node, worn=worn):
                made.add_edge(name, target, key=label)
        return made

    def ways(self, node: Node, *, worn: bool) -> Iterator[tuple[str, str]]:
        """Yield the ways out of a node that can be taken, with their labels."""
        counted = node.at_most is not None and node.spent is not None
        inner = self.summary(node.part) if isinstance(node, Use) else None
        for label, way in ways_out(node):
            if worn and counted and label != "spent":
                continue
            if inner and label.startswith("exit ") and (inner.known or worn):
                left = inner.worn if worn else inner.leaves
                if label.removeprefix("exit ") not in left:
                    continue
            yield label, way.goto
        if inner and isinstance(node, Use) and not (worn and counted):
            for name, value in node.with_:
                if f"${name}" in (inner.worn if worn else inner.leaves):
                    yield f"${name}", value

    def summary(self, part: str) -> Summary:
        """Return where a part can lead."""
        if part not in self.summaries:
            written = self.view.part(part)
            self.summaries[part] = Summary()  # also for a part that puts itself in, which is told elsewhere
            if written and written.begin in written.nodes:
                graph, worn = self.graph(written), self.graph(written, worn=True)
                reached = reachable(graph, written.begin)
                ends = any(self.ends(written.nodes[name]) for name in reached if name in written.nodes)
                self.summaries[part] = Summary(
                    frozenset(reached - set(written.nodes)),
                    frozenset(reachable(worn, written.begin) - set(written.nodes)),
                    ends,
                    known=True,
                )
        return self.summaries[part]

    def ends(self, node: Node) -> bool:
        """Tell whether a walk can end at a node, in it, or in another tree that it leads to."""
        return isinstance(node, End | Jump) or (isinstance(node, Use) and self.summary(node.part).ends)


def reachable(graph: nx.MultiDiGraph[str], begin: str) -> set[str]:
    """Return everything a walk that begins at `begin` can come to."""
    return {begin, *nx.descendants(graph, begin)} if begin in graph else set()


def order_of(written: Written) -> Callable[[str], int]:
    """Return what tells a node's place in the order of its file, for choosing among nodes always alike."""
    places = {name: at for at, name in enumerate(written.nodes)}
    return lambda name: places.get(name, len(places))
