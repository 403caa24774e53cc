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

from shorewalk.tree.model import Jump, Node, Pairs, Tree
from shorewalk.tree.source import Place
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..wants import broken

ID = "needs-hold"


def check(view: View) -> Iterator[Finding]:
    """Find walks on which something needed does not hold."""
    assert view.site  # noqa: S101 - the rule asks for it

    def wants(tree: Tree, node: Node) -> Pairs:
        del tree
        other = view.tree(node.tree) if isinstance(node, Jump) else None
        return (*node.needs, *(other.starts if other else ()))

    def where(tree: Tree, node: Node, state: str) -> Place:
        return written_at(view, tree, node, state)

    for one in broken(view, view.site, wants, where):
        name = quoted(one.node.name.rpartition(".")[2])
        if isinstance(one.node, Jump) and one.state not in dict(one.node.needs):
            message = f"The tree {quoted(one.node.tree)} starts with {one.state} {one.value}, and a walk may come to it"
        else:
            message = f"{name} needs {one.state} {one.value}, and a walk may come to it"
        message += f" with {one.state} {listed(one.may_be)}."
        hint = f"Lead every walk to {name} through a step that leaves {one.state} {one.value}."
        related = (one.changed, *one.used)
        yield Finding(
            ID, Severity.ERROR, where(one.tree, one.node, one.state), message, related, hint, one.path
        )


def written_at(view: View, tree: Tree, node: Node, state: str) -> Place:
    """Return where a need was written: in the node, or where the part it begins was put in."""
    prefix = node.name
    here: Node | None = node
    while here and not view.has(here, "needs", state) and "." in prefix:
        prefix = prefix.rpartition(".")[0]
        here = view.use(tree, prefix)
    if here and view.has(here, "needs", state):
        return view.of(here, "needs", state, key=True)
    return view.of(node, "tree") if isinstance(node, Jump) else view.of(node)


RULE = Rule(ID, "What a node needs holds on every walk to it.", check)
