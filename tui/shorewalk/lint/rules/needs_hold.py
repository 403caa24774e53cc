"""What a node needs holds on every path to it, whatever was answered on the way.

Every walk is gone through, other trees it leads on to included. A step that could not be done was done or not,
and both are tried. The shortest way on which it may not hold is told.

Bad:

    nodes:
      main_off:
        step: Switch the main breaker in the rig off.
        leaves: {rig-main: "off"}
        done: plug_in
        cannot: plug_in
      plug_in:
        needs: {rig-main: "off"}
        step: Push the plug in.
        leaves: {cord: pedestal-30}
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      main_off:
        step: Switch the main breaker in the rig off.
        leaves: {rig-main: "off"}
        done: plug_in
        cannot: stop_here
      plug_in:
        needs: {rig-main: "off"}
        step: Push the plug in.
        leaves: {cord: pedestal-30}
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.words import quoted

from ..explore import Explorer
from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "needs-hold"


def check(view: View) -> Iterator[Finding]:
    """Find nodes that a walk may come to where what they need is not known to hold."""
    assert view.site  # noqa: S101 - the rule asks for it
    needed = {name for tree in view.trees for node in tree.nodes.values() for name, _ in node.needs}
    for tree in view.trees:
        explorer = Explorer(view, view.site, needed)
        told: set[tuple[str, str, str]] = set()
        for visit in explorer.walk(tree):
            for name, value in visit.node.needs:
                key = (visit.tree.name, visit.node.name, name)
                if key in told or explorer.standings.must(visit.at.standing, name, value):
                    continue
                told.add(key)
                possible = [v for v in explorer.standings.possible(visit.at.standing, name) if v != value]
                local = visit.node.name.rpartition(".")[2]
                may = " or ".join(quoted(v) for v in possible)
                message = (
                    f"{quoted(local)} needs {name} to be {quoted(value)}; on a way to it, it may be {may}."
                )
                yield Finding(
                    ID,
                    Severity.ERROR,
                    view.of(visit.node),
                    message,
                    view.used_at(visit.tree, visit.node.name),
                    "Bring it about on every way there, or lead those ways elsewhere.",
                    explorer.words(visit.at),
                )


RULE = Rule(ID, "What a node needs holds on every path to it.", check)
