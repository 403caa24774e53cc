"""What holds on every path, against all paths of small graphs gone through one by one."""

from __future__ import annotations

from collections.abc import Hashable, Iterable

from hypothesis import given
from hypothesis import strategies as st

from shorewalk.lint.must import Edge, on_every_path, path_without

SPOTS, FACTS = 5, 3
Graph = dict[Hashable, list[Edge]]


@st.composite
def graphs(draw: st.DrawFn) -> Graph:
    masks = st.integers(0, 2**FACTS - 1)
    ways = st.tuples(st.integers(0, SPOTS - 1), st.integers(0, SPOTS - 1), masks, masks)
    found: Graph = {spot: [] for spot in range(SPOTS)}
    for number, (spot, to, keep, put) in enumerate(draw(st.lists(ways, max_size=9))):
        found[spot].append(Edge(f"way {number}", to, keep, put))
    return found


def all_facts(graph: Graph) -> dict[Hashable, set[int]]:
    """Return every set of facts that some path from spot 0 brings to each spot."""
    found: dict[Hashable, set[int]] = {0: {0}}
    waiting: list[tuple[Hashable, int]] = [(0, 0)]
    while waiting:
        spot, facts = waiting.pop()
        for edge in graph[spot]:
            after = edge.carry(facts)
            if after not in found.setdefault(edge.to, set()):
                found[edge.to].add(after)
                waiting.append((edge.to, after))
    return found


@given(graphs())
def test_a_fact_holds_where_every_path_brings_it(graph: Graph) -> None:
    """The facts told at a spot are those that all paths to it share; a spot no path leads to is left out."""

    def out(spot: Hashable) -> Iterable[Edge]:
        return graph[spot]

    shared = {}
    for spot, some in all_facts(graph).items():
        shared[spot] = 2**FACTS - 1
        for facts in some:
            shared[spot] &= facts
    assert on_every_path(out, {0: 0}) == shared


@given(graphs(), st.integers(0, SPOTS - 1), st.integers(0, FACTS - 1))
def test_the_path_told_is_one_without_the_fact(graph: Graph, goal: int, fact: int) -> None:
    """Where a fact may be missing, the path can be gone, ends at the goal, and comes there without the fact."""

    def out(spot: Hashable) -> Iterable[Edge]:
        return graph[spot]

    bit = 1 << fact
    path = path_without(out, {0: 0}, goal, bit)
    missing = any(not facts & bit for facts in all_facts(graph).get(goal, set()))
    assert bool(path) == (missing and goal != 0)
    at: Hashable = 0
    facts = 0
    for spot, label in path:
        assert spot == at
        (edge,) = [edge for edge in graph[at] if edge.label == label]
        at, facts = edge.to, edge.carry(facts)
    assert not path or (at == goal and not facts & bit)
