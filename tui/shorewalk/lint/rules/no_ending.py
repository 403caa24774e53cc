"""From every node an ending can be reached, an exit of the part, or another tree.

Bad:

    nodes:
      first:
        step: Switch the main off.
        done: again
        cannot: again
      again:
        step: Switch the main off once more.
        at_most: 2
        spent: first
        done: first
        cannot: first

Good:

    nodes:
      first:
        step: Switch the main off.
        done: again
        cannot: again
      again:
        step: Switch the main off once more.
        at_most: 2
        spent: stop_here
        done: first
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from shorewalk.tree.model import Written
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..graphs import Graphs, order_of
from ..rule import Rule
from ..view import View

ID = "no-ending"


def check(view: View) -> Iterator[Finding]:
    """Find nodes from which a walk can never end."""
    graphs = Graphs(view)
    for written, graph in graphs.files:
        ends = {name for name in graph if name not in written.nodes or graphs.ends(written.nodes[name])}
        trapped = set(graph) - ends.union(*(nx.ancestors(graph, end) for end in ends))
        yield from _traps(view, written, graph.subgraph(trapped))


def _traps(view: View, written: Written, trapped: nx.MultiDiGraph[str]) -> Iterator[Finding]:
    rounds = nx.condensation(trapped)
    for group, out in rounds.out_degree():
        if out:
            continue  # it leads into another trap, which is told
        names = sorted(rounds.nodes[group]["members"], key=order_of(written))
        before = sorted(nx.ancestors(trapped, names[0]) - set(names), key=order_of(written))
        message = f"No ending can be reached from {listed(map(quoted, names[:8]), 'or')}."
        related = tuple(Related(view.of(written.nodes[name]), "leads only there") for name in before[:5])
        hint = "Give one of them a way to an ending."
        yield Finding(ID, Severity.ERROR, view.of(written.nodes[names[0]]), message, related, hint)


RULE = Rule(ID, "From every node an ending can be reached.", check, site=False)
