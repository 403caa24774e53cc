"""Circles that are told of a graph: real ones, enough of them, and always the same."""

from __future__ import annotations

import networkx as nx
from hypothesis import given
from hypothesis import strategies as some

from shorewalk.lint.circles import circles

EDGE = some.tuples(some.integers(0, 6), some.integers(0, 6))


def drawn(edges: list[tuple[int, int]]) -> nx.MultiDiGraph[str]:
    made: nx.MultiDiGraph[str] = nx.MultiDiGraph()
    made.add_nodes_from(str(name) for name in range(7))
    for at, (source, target) in enumerate(edges):
        made.add_edge(str(source), str(target), key=f"way {at}")
    return made


@given(some.lists(EDGE, max_size=20))
def test_every_edge_on_a_circle_is_told_in_one(edges: list[tuple[int, int]]) -> None:
    """Told circles follow edges, start at their first node, and together have every edge that lies on any."""
    graph = drawn(edges)
    told: set[tuple[str, str]] = set()
    for circle in circles(graph, int):
        names = [name for name, _ in circle]
        assert names[0] == min(names, key=int)
        assert len(set(names)) == len(names)
        for (name, label), after in zip(circle, [*names[1:], names[0]], strict=True):
            assert label in graph[name][after]
            told.add((name, after))
    group = {name: at for at, names in enumerate(nx.strongly_connected_components(graph)) for name in names}
    assert told == {(source, target) for source, target in graph.edges() if group[source] == group[target]}


@given(some.lists(EDGE, max_size=14), some.randoms())
def test_the_order_in_which_a_graph_was_made_changes_nothing(
    edges: list[tuple[int, int]], random: object
) -> None:
    """The same ways in another order give the same circles."""
    edges = list(dict.fromkeys(edges))
    turned = list(edges)
    random.shuffle(turned)  # type: ignore[attr-defined]
    one, other = ([[n for n, _ in circle] for circle in circles(drawn(e), int)] for e in (edges, turned))
    assert one == other
