"""Some walk comes to every node. What no way leads to was forgotten, or the way to it leads elsewhere.

Bad:

    nodes:
      look:
        ask: What do you hear at the pedestal?
        sign: sound
        choices:
          silent: {says: Nothing, goto: stop_here}
          hum: {says: A hum, grade: stop, goto: stop_here}
        unsure: stop_here
      noise:
        end: hands-off
        because: A pedestal that hums may have a loose joint.
        safe_action: Touch nothing.
        call: park

Good:

    nodes:
      look:
        ask: What do you hear at the pedestal?
        sign: sound
        choices:
          silent: {says: Nothing, goto: stop_here}
          hum: {says: A hum, grade: stop, goto: noise}
        unsure: stop_here
      noise:
        end: hands-off
        because: A pedestal that hums may have a loose joint.
        safe_action: Touch nothing.
        call: park
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from shorewalk.tree.model import Written
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..graphs import Graphs, order_of, reachable
from ..rule import Rule
from ..view import View, uses_in

ID = "unreachable"


def check(view: View) -> Iterator[Finding]:
    """Find nodes that no walk comes to, and parts that no tree puts in."""
    for written, graph in Graphs(view).files:
        targets = set(graph) - set(written.nodes)
        named = {*written.exits, *(f"${name}" for name in written.takes)}
        if written.begin in written.nodes and targets <= named:  # else a wrong name is why
            yield from _nodes(view, written, graph)
    yield from _parts(view)


def _nodes(view: View, written: Written, graph: nx.MultiDiGraph[str]) -> Iterator[Finding]:
    lost = set(written.nodes) - reachable(graph, written.begin)
    inner = graph.subgraph(lost)
    heads = nx.condensation(inner)
    for group, into in heads.in_degree():
        if into:
            continue  # whatever leads to it is lost as well, and is told
        first = min(heads.nodes[group]["members"], key=order_of(written))
        after = sorted(reachable(inner, first) - {first}, key=order_of(written))
        message = f"No way leads to {quoted(first)}."
        if after:
            message += f" {listed(map(quoted, after[:5]), 'and')} can only be reached from it."
        hint = "Lead a way to it, or take it out."
        yield Finding(ID, Severity.ERROR, view.of(written.nodes[first]), message, hint=hint)


def _parts(view: View) -> Iterator[Finding]:
    used = {use.part for written in view.files for use in uses_in(written)}
    if any(written.kind == "tree" for written in view.files):
        for written in view.files:
            if written.kind == "part" and written.name not in used:
                place = view.place(written.file, ("part",))
                message = f"No tree here puts in the part {quoted(written.name)}."
                yield Finding(ID, Severity.WARNING, place, message, hint="Use it, or take the file out.")


RULE = Rule(ID, "Some walk comes to every node, and every part is put in somewhere.", check, site=False)
