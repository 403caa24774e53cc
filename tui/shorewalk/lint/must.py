"""What holds on every path: facts that ways add and take away, met wherever paths join.

A fact is a bit. A way keeps some bits and puts some; where ways meet, only what all of them bring stays. Which of
two paths is really possible is not asked, so the answer is on the safe side: a fact may hold though it is not told.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Hashable, Iterable, Mapping
from typing import NamedTuple


class Edge(NamedTuple):
    """A way from one spot to the next: its label, the bits it keeps, and those it puts."""

    label: str
    to: Hashable
    keep: int = -1
    put: int = 0

    def carry(self, facts: int) -> int:
        """Return the facts after this way."""
        return facts & self.keep | self.put


Edges = Callable[[Hashable], Iterable[Edge]]
"""Gives the ways out of a spot."""


def on_every_path(edges: Edges, begins: Mapping[Hashable, int]) -> dict[Hashable, int]:
    """Return the facts that hold at every spot, however it is come to; a spot not come to is left out."""
    held = dict(begins)
    waiting = deque(held)
    queued = set(held)
    while waiting:
        spot = waiting.popleft()
        queued.discard(spot)
        facts = held[spot]
        for edge in edges(spot):
            known = held.get(edge.to)
            after = edge.carry(facts) if known is None else known & edge.carry(facts)
            if after != known:
                held[edge.to] = after
                if edge.to not in queued:
                    queued.add(edge.to)
                    waiting.append(edge.to)
    return held


def path_without(
    edges: Edges, begins: Mapping[Hashable, int], goal: Hashable, bit: int
) -> list[tuple[Hashable, str]]:
    """Return a shortest path to `goal` on which the fact does not hold there: each spot left, and by which way.

    Of equally short ones the first as written; empty where the path is none, or has no way in it.
    """
    first = [(spot, bool(facts & bit)) for spot, facts in begins.items()]
    before: dict[tuple[Hashable, bool], tuple[tuple[Hashable, bool], str] | None] = dict.fromkeys(first)
    waiting = deque(first)
    while waiting:
        at = waiting.popleft()
        if at == (goal, False):
            break
        for edge in edges(at[0]):
            after = (edge.to, bool(edge.carry(bit if at[1] else 0) & bit))
            if after not in before:
                before[after] = (at, edge.label)
                waiting.append(after)
    path: list[tuple[Hashable, str]] = []
    step = before.get((goal, False))
    while step:
        (spot, _), label = step
        path.append((spot, label))
        step = before[step[0]]
    return path[::-1]
