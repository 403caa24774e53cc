"""Every name means something: nodes, exits, parts, parameters, trees, and all that trees/site/ tells of.

Bad:

    nodes:
      feel:
        ask: How did the handle feel?
        sign: breaker-fell
        choices:
          firm: {says: Firm, goto: stop_here}
        unsure: stop_here

Good:

    nodes:
      feel:
        ask: How did the handle feel?
        sign: breaker-feel
        choices:
          firm: {says: Firm, goto: stop_here}
        unsure: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Work, Written
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..names import faults_in, functions
from ..rule import Rule
from ..view import View

ID = "unresolved-name"


def check(view: View) -> Iterator[Finding]:
    """Find names that mean nothing where they are written."""
    assert view.site  # noqa: S101 - the rule asks for it
    for written, mention, fault in faults_in(view, view.site):
        if mention.kind != "limit":
            place = view.place(written.file, mention.route, key=mention.key)
            yield Finding(ID, Severity.ERROR, place, fault.message, hint=fault.hint)
    for written in view.files:
        yield from _arguments(view, written)


def _arguments(view: View, written: Written) -> Iterator[Finding]:
    for node in written.nodes.values():
        if isinstance(node, Work):
            wanted = functions().get(node.using, ())
            if without := [name for name in wanted if name not in dict(node.inputs)]:
                message = f"The function {quoted(node.using)} also takes {listed(without, 'and')}."
                hint = "Name under `from` the nodes that read them."
                yield Finding(ID, Severity.ERROR, view.of(node, "work", "from", key=True), message, hint=hint)


RULE = Rule(ID, "Every name means something where it is written.", check)
