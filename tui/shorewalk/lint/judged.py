"""Which judges a reading comes to first, and which endings it comes to without any."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field

from shorewalk.tree.model import AGAIN, GRADES, End, Judge, Measure, Node, Tally, Tree, Work, ways_out

QUIET = ("unplugged", "leave-as-is", "use-with-care", "good-to-use")
"""Verdicts that say that nothing was found, or nothing that forbids what is."""

Step = tuple[str, str]
"""A node and the way by which it is left."""


@dataclass
class Followed:
    """A reading followed until it is judged: the judges it comes to first, and quiet endings before any."""

    judges: list[Judge] = field(default_factory=list)
    endings: list[tuple[End, tuple[Step, ...]]] = field(default_factory=list)


def follow(tree: Tree, node: Measure | Work | Tally) -> Followed:
    """Follow the reading of a node that does not judge it itself; shortest ways first."""
    found = Followed()
    if node.next is None:
        return found
    there = _there(tree, node)
    before: dict[str, Step | None] = {node.next.goto: (node.name, "next")}
    waiting = deque([node.next.goto])
    while waiting:
        name = waiting.popleft()
        here = tree.nodes.get(name)
        if here is None or name == node.name:
            continue  # read afresh
        if isinstance(here, End) and here.verdict in QUIET:
            found.endings.append((here, _path(before, name, node.name)))
        if isinstance(here, Judge) and names(here, node.name):
            found.judges.append(here)
        for label, goto in _on(here, node.name, there):
            if goto not in before:
                before[goto] = (name, label)
                waiting.append(goto)
    return found


def names(judge: Judge, name: str) -> bool:
    """Tell whether a judge that gives grades looks at the number of this node."""
    graded = any(row.way.grade in GRADES for row in judge.rows)
    asked = any(c.node == name and c.choice is None for row in judge.rows for c in row.when)
    return graded and (asked or name in judge.of)


def _there(tree: Tree, node: Node) -> set[str]:
    """Return the reading and all readings it was worked out from: while it is there, so are they.

    Results between do not count: one may be voided, and what was worked out from it stays.
    """
    found = {node.name}
    seen: set[str] = set()
    waiting = [node]
    while waiting:
        one = waiting.pop()
        if one.name in seen:
            continue
        seen.add(one.name)
        if isinstance(one, Measure):
            found.add(one.name)
        inputs = one.inputs if isinstance(one, Work) else ()
        waiting += [tree.nodes[name] for _, name in inputs if name in tree.nodes]
    return found


def _on(here: Node, name: str, there: set[str]) -> Iterator[tuple[str, str]]:
    """Yield the ways on which the reading still waits to be judged.

    `again` lets what the judge waits for count for nothing, and what was worked out from it. `missing` is
    shut where all that the judge waits for is there.
    """
    judging = isinstance(here, Judge) and names(here, name)
    waits = set(here.of) if isinstance(here, Judge) else set()
    for label, way in ways_out(here):
        if judging and label.startswith("row") and way.grade in (*GRADES, AGAIN):
            continue
        if waits & there and label.startswith("row") and way.grade == AGAIN:
            continue
        if waits and waits <= there and label == "missing":
            continue
        yield label, way.goto


def _path(before: dict[str, Step | None], name: str, first: str) -> tuple[Step, ...]:
    path: list[Step] = []
    step = before[name]
    while step:
        path.append(step)
        step = before.get(step[0]) if step[0] != first else None
    return tuple(path[::-1])
