"""A tree cut down to the walks that bear on a damage: those that come to where it is, and go on from there.

A safety rule holds on every walk or is broken on one, so what is found in fewer walks is found in all of them. A
way that leaves the cone, and every jump, ends in an emergency, which no rule forbids anywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from shorewalk.tree.model import (
    Ask,
    End,
    Judge,
    Jump,
    Measure,
    Node,
    Step,
    Tally,
    Tree,
    Way,
    Work,
    ways_out,
)

OUT = "outside-the-cone"


def cone(tree: Tree, at: Iterable[str], *, jumps: bool = False) -> Tree:
    """Return the tree with the walks that come through any of `at`; with `jumps`, jumps stay jumps."""
    kept = through([tree], at)
    return cut(tree, kept, asked_by(tree.nodes[name] for name in kept), jumps=jumps)


def through(trees: Iterable[Tree], at: Iterable[str]) -> set[str]:
    """Return the nodes of walks that come through any of `at`, with the ways of any of these trees."""
    to: dict[str, set[str]] = {}
    back: dict[str, set[str]] = {}
    for tree in trees:
        for name, node in tree.nodes.items():
            for _, way in ways_out(node):
                to.setdefault(name, set()).add(way.goto)
                back.setdefault(way.goto, set()).add(name)
    there = set(at)
    return _reached(there, lambda name: to.get(name, ())) | _reached(there, lambda name: back.get(name, ()))


def cut(tree: Tree, kept: set[str], asked: Iterable[str], *, jumps: bool) -> Tree:
    """Return a tree with only the nodes that are kept, and those that are asked of; other ways lead outside."""
    nodes = {
        name: cut_node(node, kept, jumps=jumps)
        for name, node in tree.nodes.items()
        if name in {*kept, *asked}
    }
    nodes[OUT] = _out(tree.nodes[tree.begin], OUT)
    return replace(tree, nodes=nodes, begin=tree.begin if tree.begin in kept else OUT)


def cut_node(node: Node, kept: set[str], *, jumps: bool) -> Node:
    """Return a node whose ways lead outside where they lead to what is not kept."""

    def led(way: Way) -> Way:
        return way if way.goto in kept else replace(way, goto=OUT)

    if isinstance(node, Jump) and not jumps:
        return _out(node, node.name)
    return _led(node, led) if any(way.goto not in kept for _, way in ways_out(node)) else node


def asked_by(nodes: Iterable[Node]) -> set[str]:
    """Return the nodes that these ask of."""
    return {name for node in nodes for name in _named(node)}


def _named(node: Node) -> Iterable[str]:
    """Yield the nodes that a node asks of: their readings and answers."""
    if isinstance(node, Judge):
        yield from node.of
        yield from (condition.node for row in node.rows for condition in row.when)
    elif isinstance(node, Work):
        yield from (name for _, name in node.inputs)
    elif isinstance(node, Tally) and node.at_voltage:
        yield node.at_voltage


def _reached(begin: set[str], after: Callable[[str], Iterable[str]]) -> set[str]:
    found, waiting = set(begin), list(begin)
    while waiting:
        for name in after(waiting.pop()):
            if name not in found:
                found.add(name)
                waiting.append(name)
    return found


def _out(node: Node, name: str) -> End:
    return End(
        name=name,
        file=node.file,
        route=node.route,
        verdict="emergency",
        because="It is outside.",
        safe_action="Call the emergency services.",
        call="park",
        first="emergency-services",
    )


def _led(node: Node, led: Callable[[Way], Way]) -> Node:
    def maybe(way: Way | None) -> Way | None:
        return way and led(way)

    node = replace(node, spent=maybe(node.spent))
    match node:
        case Ask():
            choices = tuple(replace(choice, way=led(choice.way)) for choice in node.choices)
            return replace(node, choices=choices, unsure=maybe(node.unsure))
        case Step():
            return replace(node, done=led(node.done), cannot=maybe(node.cannot))
        case Measure() | Work() | Tally():
            bands = tuple(replace(band, way=led(band.way)) for band in node.bands)
            changed = replace(node, next=maybe(node.next), bands=bands)
            match changed:
                case Measure():
                    return replace(changed, unable=maybe(changed.unable))
                case Work():
                    return replace(changed, missing=maybe(changed.missing))
                case _:
                    return replace(changed, unsure=maybe(changed.unsure))
        case Judge():
            rows = tuple(replace(row, way=led(row.way)) for row in node.rows)
            return replace(node, rows=rows, missing=maybe(node.missing))
    return node
