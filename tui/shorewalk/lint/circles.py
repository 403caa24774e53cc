"""Circles in a graph, told so that the same graph always gives the same ones."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from itertools import pairwise

import networkx as nx

Step = tuple[str, str]
"""A node, and the label of the way by which it is left."""


def circles(graph: nx.MultiDiGraph[str], order: Callable[[str], int]) -> Iterator[tuple[Step, ...]]:
    """Yield circles until each edge that lies on one was told; each starts at its first node in `order`.

    Each is the shortest through some edge that no circle before it had. All circles of a graph can be
    too many to count; these are never more than its edges, and with none of them left there is no circle.
    """
    groups = (sorted(group, key=order) for group in nx.strongly_connected_components(graph))
    for names in sorted(groups, key=lambda group: order(group[0])):
        told: set[tuple[str, str]] = set()
        inside = set(names)
        for source in names:
            for target in sorted(inside.intersection(graph[source]), key=order):
                if (source, target) not in told:
                    found = [source, *_path(graph, target, source, order)]
                    told |= set(pairwise(found))
                    yield _turned(graph, found[:-1], order)


def _path(graph: nx.MultiDiGraph[str], start: str, goal: str, order: Callable[[str], int]) -> list[str]:
    """Return a shortest path; of several the one whose nodes come first."""
    before: dict[str, str | None] = {start: None}
    waiting = deque([start])
    while waiting and goal not in before:
        name = waiting.popleft()
        for after in sorted(graph[name], key=order):
            if after not in before:
                before[after] = name
                waiting.append(after)
    path = []
    name_: str | None = goal
    while name_ is not None:
        path.append(name_)
        name_ = before[name_]
    return path[::-1]


def _turned(graph: nx.MultiDiGraph[str], names: list[str], order: Callable[[str], int]) -> tuple[Step, ...]:
    first = names.index(min(names, key=order))
    names = names[first:] + names[:first]
    return tuple(
        (name, next(iter(graph[name][after])))
        for name, after in zip(names, [*names[1:], names[0]], strict=True)
    )
