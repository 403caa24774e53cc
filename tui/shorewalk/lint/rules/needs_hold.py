"""What a node needs holds on every walk to it, and what a tree starts with on every walk that is led into it.

Every answer is tried, every reading, every step that could not be done (then it may be done in part, or not).
What a tree does not name under `starts` may be anything when a walk begins there.

Bad:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "off"}
        done: cord_out
        cannot: cord_out
      cord_out:
        needs: {rig-main: "off"}
        step: Pull the plug out at the pedestal.
        leaves: {cord: unplugged}
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "off"}
        done: cord_out
        cannot: stop_here
      cord_out:
        needs: {rig-main: "off"}
        step: Pull the plug out at the pedestal.
        leaves: {cord: unplugged}
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Jump
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..walks.proof import Broken, proof, since

ID = "needs-hold"


def check(view: View) -> Iterator[Finding]:
    """Find walks on which something needed does not hold."""
    assert view.site  # noqa: S101 - the rule asks for it
    shown = proof(view, view.site)
    for one in (*shown.needs, *shown.starts):
        name = quoted(one.node.name.rpartition(".")[2])
        here = one.walked.at.standing
        may_be = [
            value
            for value in shown.explorer.standings.possible(here, one.state)
            if value not in _allowed(one, view)
        ]
        if isinstance(one.node, Jump):
            message = f"The tree {quoted(one.node.tree)} starts with {one.state} {one.value}"
        else:
            message = f"{name} needs {one.state} {one.value}"
        message += f", and a walk may come to it with {one.state} {listed(may_be)}."
        hint = f"Lead every walk to {name} through a step that leaves {one.state} {one.value}."
        related = (since(view, shown.explorer, one), *one.used)
        yield Finding(ID, Severity.ERROR, one.place, message, related, hint, one.walked.words)


def _allowed(one: Broken, view: View) -> tuple[str, ...]:
    fact = view.site.states.get(one.state) if view.site else None
    return fact.groups.get(one.value, (one.value,)) if fact else (one.value,)


RULE = Rule(ID, "What a node needs holds on every walk to it.", check)
