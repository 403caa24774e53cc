"""No walk goes round for ever: every circle runs through a node with `at_most` and `spent`.

The way `spent` must leave the circle, too. Trees may not lead round to each other: a walk enters each once.

Bad:

    nodes:
      light:
        ask: Can you see every slot and handle well?
        sign: light
        choices:
          enough: {says: "Yes", goto: stop_here}
          too-dark: {says: "No", goto: get_light}
        unsure: get_light
      get_light:
        step: Bring a head lamp.
        done: light
        cannot: stop_here

Good:

    nodes:
      light:
        ask: Can you see every slot and handle well?
        sign: light
        at_most: 2
        spent: stop_here
        choices:
          enough: {says: "Yes", goto: stop_here}
          too-dark: {says: "No", goto: get_light}
        unsure: get_light
      get_light:
        step: Bring a head lamp.
        done: light
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from shorewalk.tree.model import Jump

from ..circles import circles
from ..finding import Finding, Related, Severity
from ..graphs import Graphs, order_of, reachable
from ..rule import Rule
from ..view import View

ID = "unbounded-loop"


def check(view: View) -> Iterator[Finding]:
    """Find circles that a walk can go round without end."""
    graphs = Graphs(view)
    for written, graph in graphs.files:
        worn = graphs.graph(written, worn=True).subgraph(reachable(graph, written.begin))
        for circle in circles(worn, order_of(written)):
            names = [name for name, _ in circle]
            spent = [name for name, label in circle if label == "spent"]
            related = [Related(view.of(written.nodes[name]), f"then {name}") for name in names[1:]]
            hint = "Give one of these nodes `at_most`, and `spent` for the way on when it is used up."
            if spent:
                hint = f"Let `spent` of {' and '.join(spent)} lead out of the circle."
            path = (*(f"{name} ({label})" for name, label in circle), names[0])
            message = f"A walk can go round for ever: {' > '.join([*names, names[0]])}."
            place = view.of(written.nodes[names[0]])
            yield Finding(ID, Severity.ERROR, place, message, tuple(related), hint, path)
    yield from _trees(view)


def _trees(view: View) -> Iterator[Finding]:
    jumps: nx.MultiDiGraph[str] = nx.MultiDiGraph()
    places: dict[tuple[str, str], tuple[str, Jump]] = {}
    for tree in view.trees:
        for name, node in tree.nodes.items():
            if isinstance(node, Jump):
                jumps.add_edge(tree.name, node.tree, key=name)
                places[tree.name, name] = (name, node)
    order = sorted(jumps)
    for circle in circles(jumps, order.index):
        trees = [tree for tree, _ in circle]
        found = [(tree, *places[tree, key]) for tree, key in circle]
        related = tuple(
            Related(view.of(node, "tree"), f"{tree} leads on at {name}") for tree, name, node in found
        )
        message = (
            f"Trees lead round to each other: {' > '.join([*trees, trees[0]])}. A walk enters each tree once."
        )
        place = view.of(found[0][2], "tree")
        yield Finding(ID, Severity.ERROR, place, message, related, "Let one of them end instead.")


RULE = Rule(ID, "No walk goes round for ever.", check, site=False)
