"""An ask has a choice for every answer of its sign, so that whoever sees that answer is not left to guess.

Pedestals give the answers of a sign, in a make-believe one and in the field. Two answers that lead to the same
place are still two choices. (A choice that is no answer of the sign is told by `unresolved-name`.)

Bad:

    nodes:
      wet:
        ask: How wet is it at the pedestal?
        sign: wet
        choices:
          dry: {says: Dry, goto: stop_here}
          standing-water: {says: Standing water, goto: stop_here}
        unsure: stop_here

Good:

    nodes:
      wet:
        ask: How wet is it at the pedestal?
        sign: wet
        choices:
          dry: {says: Dry, goto: stop_here}
          damp-ground: {says: Damp ground, goto: stop_here}
          standing-water: {says: Standing water, goto: stop_here}
          water-inside: {says: Water inside, goto: stop_here}
        unsure: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Ask
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "answer-without-choice"


def check(view: View) -> Iterator[Finding]:
    """Find answers nobody can give."""
    assert view.site  # noqa: S101 - the rule asks for it
    for tree in view.trees:
        for name, node in tree.nodes.items():
            sign = view.site.signs.get(node.sign) if isinstance(node, Ask) else None
            if sign is None or not isinstance(node, Ask):
                continue
            given = {choice.id for choice in node.choices}
            if without := [answer for answer in sign.answers if answer not in given]:
                answers = listed([quoted(answer) for answer in without], "and")
                message = f"The sign {quoted(sign.id)} may also be {answers}, and there is no such choice."
                there = Related(
                    view.fact("signs", (sign.id, "answers"), key=True), f"the answers of {sign.id}"
                )
                related = (there, *view.used_at(tree, name))
                hint = "Add a choice for each, even where two lead to the same place."
                yield Finding(ID, Severity.ERROR, view.of(node, "choices", key=True), message, related, hint)


RULE = Rule(ID, "An ask has a choice for every answer of its sign.", check)
