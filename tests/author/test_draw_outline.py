"""The order and nesting of a drawing, on any graph at all."""

from __future__ import annotations

from collections.abc import Iterator
from math import log2

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.author.draw.asked import Asked
from shorewalk.author.draw.drawing import Arrow, Box, Drawing
from shorewalk.author.draw.gather import gather
from shorewalk.author.draw.outline import Block, outline, reading_order
from shorewalk.tree.library import shipped

Edges = list[tuple[int, int]]


def drawn(size: int, edges: Edges) -> Drawing:
    """Return boxes 0 to `size` and arrows between them; a box without a way out is an ending."""
    sources = {source for source, _ in edges}
    boxes = {str(n): Box(str(n), "ask" if n in sources else "end", "") for n in range(size)}
    arrows = (Arrow(str(a), str(b), f"way {at}", f"way {at}") for at, (a, b) in enumerate(edges))
    return Drawing("", "", "0", boxes, tuple(arrows))


def blocks_in(blocks: list[Block], depth: int = 0) -> Iterator[tuple[int, Block]]:
    """Yield every block with how deep it stands."""
    for block in blocks:
        yield depth, block
        for branch in block.branches:
            yield from blocks_in(branch.inner, depth + 1)


graphs = st.integers(1, 12).flatmap(
    lambda size: st.tuples(
        st.just(size),
        st.lists(st.tuples(st.integers(0, size - 1), st.integers(0, size - 1)), max_size=30),
    )
)


@given(graphs)
def test_every_box_and_every_way_stands_once(graph: tuple[int, Edges]) -> None:
    """Loops, ways side by side and boxes that nothing leads to included."""
    drawing = drawn(*graph)
    blocks = outline(drawing)
    assert sorted(reading_order(blocks)) == sorted(drawing.boxes)
    arrows = [branch.arrow for _, block in blocks_in(blocks) for branch in block.branches]
    assert sorted(arrow.key for arrow in arrows) == sorted(arrow.key for arrow in drawing.arrows)


@given(graphs)
def test_what_stands_inside_a_way_is_entered_by_it_alone(graph: tuple[int, Edges]) -> None:
    """Whoever reads a branch from its top has come by that branch; nothing else that is reached leads in."""
    drawing = drawn(*graph)
    reached = {"0", *nx.descendants(drawing.graph, "0")}
    for _, block in blocks_in(outline(drawing)):
        for branch in block.branches:
            inside = set(reading_order(branch.inner))
            into = [
                arrow
                for arrow in drawing.arrows
                if arrow.target in inside and arrow.source not in inside and arrow.source in reached
            ]
            if block.box.name in reached:
                assert into == [branch.arrow] * bool(inside)
            assert not inside or branch.inner[0].box.name == branch.arrow.target


@given(graphs)
def test_it_is_never_a_staircase(graph: tuple[int, Edges]) -> None:
    """Whatever stands inside a way is at most half of what it stands in; a lone ending is one step more."""
    drawing = drawn(*graph)
    assert max(depth for depth, _ in blocks_in(outline(drawing))) <= log2(len(drawing.boxes)) + 1


def test_a_long_row_of_questions_with_a_step_aside_each_stays_narrow() -> None:
    """Each question either ends after a step or goes on: the usual shape, which must not drift to the right."""
    edges = [pair for n in range(0, 2000, 2) for pair in ((n, n + 1), (n + 1, 2001), (n, n + 2))]
    drawing = drawn(2002, edges)
    assert max(depth for depth, _ in blocks_in(outline(drawing))) == 1


@given(graphs)
@settings(deadline=None)
def test_without_the_ways_marked_as_loops_there_is_no_loop(graph: tuple[int, Edges]) -> None:
    """And each of those marked closes one."""
    drawing = drawn(*graph)
    rest = drawing.graph.copy()
    for arrow in drawing.loops:
        assert nx.has_path(drawing.graph, arrow.target, arrow.source)
        rest.remove_edge(arrow.source, arrow.target, key=arrow.key)
    assert nx.is_directed_acyclic_graph(rest)


@pytest.mark.parametrize("name", shipped().names())
@pytest.mark.parametrize("opened", [False, True])
def test_shipped_trees_stay_within_forty_cells(name: str, *, opened: bool) -> None:
    """Three cells a level: at six levels there are still twenty left for words in the narrowest window."""
    drawing = gather(Asked(shipped(), name), opened=opened)
    assert max(depth for depth, _ in blocks_in(outline(drawing))) <= 6
