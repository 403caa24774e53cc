"""An answer that names an outlet leaves the cord in no other one.

Which outlet holds the cord decides whose slots may be probed and whose readings count.

Bad:

    nodes:
      which:
        ask: Which outlet is your cord in?
        sign: outlet-used
        choices:
          "50": {says: The 50 A, goto: stop_here, leaves: {cord: pedestal-30}}
          "30": {says: The 30 A, goto: stop_here, leaves: {cord: pedestal-30}}
          "20": {says: The 20 A, goto: stop_here, leaves: {cord: pedestal-20}}
        unsure: stop_here

Good:

    nodes:
      which:
        ask: Which outlet is your cord in?
        sign: outlet-used
        choices:
          "50": {says: The 50 A, goto: stop_here, leaves: {cord: pedestal-50}}
          "30": {says: The 30 A, goto: stop_here, leaves: {cord: pedestal-30}}
          "20": {says: The 20 A, goto: stop_here, leaves: {cord: pedestal-20}}
        unsure: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Ask
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "outlet-kept"
SIGN, STATE = "outlet-used", "cord"


def check(view: View) -> Iterator[Finding]:
    """Find answers that name one outlet and leave the cord in another."""
    places = set(view.site.places) if view.site else set()
    for tree in view.trees:
        for name, node in tree.nodes.items():
            for choice in node.choices if isinstance(node, Ask) and node.sign == SIGN else ():
                left, named = dict(choice.way.leaves).get(STATE), f"pedestal-{choice.id}"
                if left in places and left != named:
                    place = view.of(node, "choices", choice.id, "leaves", STATE)
                    message = f"The answer {quoted(choice.id)} leaves the cord at {quoted(left)}."
                    hint = f"Write {quoted(named)}, or leave nothing said of the cord."
                    yield Finding(ID, Severity.ERROR, place, message, tuple(view.used_at(tree, name)), hint)


RULE = Rule(ID, "An answer that names an outlet leaves the cord in no other.", check)
