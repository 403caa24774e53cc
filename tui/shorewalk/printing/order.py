"""The order of steps on paper: the main way first, then each branch, then the endings, then the parts."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import AGAIN, VERDICTS, End, Node, Use, Way, Written, ways_out

from .step import At
from .uses import Uses

MILD = ("ok", None, "watch", AGAIN, "stop", "danger")
LAST = ("unsure", "cannot", "unable", "missing", "spent")
"""Ways that are the main one only where there is no other."""


def order(uses: Uses) -> dict[At, int]:
    """Return the number of every node that the tree may come to."""
    inner = {where: _inner(written, uses) for where, written in uses.written.items()}
    numbers: dict[At, int] = {}
    waiting = [""]
    done: set[str] = set()
    for where in waiting:
        if where in done:
            continue
        done.add(where)
        for name in inner[where]:
            numbers[where, name] = len(numbers) + 1
            node = uses.written[where].nodes[name]
            if isinstance(node, Use):
                waiting.append(node.part)
    return numbers


def _inner(written: Written, uses: Uses) -> list[str]:
    """Return the nodes of one file: from its begin along the main way, branches after it, endings last."""
    seen: dict[str, None] = {}
    branches = [written.begin]
    for branch in branches:
        name: str | None = branch
        while name is not None and name not in seen and name in written.nodes:
            seen[name] = None
            node = written.nodes[name]
            ways = [way.goto for way in _main_first(node)]
            if isinstance(node, Use):
                ways += [value for key, value in node.with_ if key in _led_to(node.part, uses)]
            branches += ways[1:]
            name = ways[0] if ways else None
    ends = [name for name in seen if isinstance(written.nodes[name], End)]
    ends.sort(key=lambda name: _verdict(written.nodes[name]))
    return [*(name for name in seen if name not in ends), *ends]


def _led_to(part: str, uses: Uses) -> set[str]:
    """Return the parameters of a part that a way in it leads to."""
    found: set[str] = set()
    for node in uses.written[part].nodes.values():
        found |= {way.goto[1:] for _, way in ways_out(node) if way.goto.startswith("$")}
        if isinstance(node, Use):
            inner = _led_to(node.part, uses)
            found |= {value[1:] for key, value in node.with_ if key in inner and value.startswith("$")}
    return found


def _verdict(node: Node) -> int:
    verdict = node.verdict if isinstance(node, End) else ""
    return len(VERDICTS) - (VERDICTS.index(verdict) if verdict in VERDICTS else 0)


def _main_first(node: Node) -> Iterator[Way]:
    """Yield the ways out, the one that most walks take first."""
    ways = ways_out(node)
    if isinstance(node, Use) and not ways:
        return
    ranked = sorted(ways, key=lambda found: (found[0] in LAST, _rank(found[1])))
    yield from (way for _, way in ranked[:1])
    yield from (way for label, way in ways if (label, way) != ranked[0])


def _rank(way: Way) -> int:
    return MILD.index(way.grade) if way.grade in MILD else 0
