"""A tree as a graph."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.tree.graph import graph
from shorewalk.tree.library import Library
from shorewalk.tree.model import Tree, ways_out


def test_the_graph_has_a_node_for_each_node_and_an_edge_for_each_way(library: Callable[[], Library]) -> None:
    """Names are those of the tree; two ways to one node stay two edges, told apart by their labels."""
    tree = library().tree("small")
    drawn = graph(tree)
    assert list(drawn) == list(tree.nodes)
    assert drawn.graph == {"name": "small", "begin": "main_off"}
    assert set(drawn["main_off"]["at_30.hot_neutral"]) == {"done"}
    assert set(drawn["at_30.verdict"]["stay"]) == {"row 1", "missing"}
    assert drawn["at_30.verdict"]["ready"]["row 2"]["way"].grade == "ok"
    assert drawn.nodes["stay"]["node"] is tree.nodes["stay"]
    assert drawn.out_degree("stay") == 0


def test_the_graph_of_a_shipped_tree_is_whole(shipped_tree: Tree) -> None:
    """Every way out of every shipped node is an edge, and no edge leads out of the tree."""
    drawn = graph(shipped_tree)
    assert set(drawn) == set(shipped_tree.nodes)
    assert drawn.number_of_edges() == sum(len(ways_out(node)) for node in shipped_tree.nodes.values())
