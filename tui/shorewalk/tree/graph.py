"""A tree as a directed graph, for whatever asks about reaching, circles and paths."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from .model import Tree, ways_out

if TYPE_CHECKING:
    import networkx as nx

    Graph: TypeAlias = nx.MultiDiGraph[str]


def graph(tree: Tree) -> Graph:
    """Return the nodes of `tree` by name and an edge for each way out.

    A node carries its `node`; an edge its `way`, keyed by the way's label (`choose dry`, `band 2` ...).
    Two ways between the same nodes are two edges. Nothing goes out of a jump or an end.
    """
    import networkx as nx  # not at the top: walking a tree needs no graph

    made: Graph = nx.MultiDiGraph(name=tree.name, begin=tree.begin)
    for name, node in tree.nodes.items():
        made.add_node(name, node=node)
    for name, node in tree.nodes.items():
        for label, way in ways_out(node):
            made.add_edge(name, way.goto, key=label, way=way)
    return made
