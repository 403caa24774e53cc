"""Two endings of one file differ in more than their name: else one of them is enough.

Twins drift apart: one is mended, the other forgotten. Endings of different files may be alike, because a part ends
a walk only where that end is true for each of its uses, and two parts may come to the same.

Bad:

    nodes:
      wet:
        step: Look at the ground.
        done: ground_wet
        cannot: ground_unseen
      ground_wet:
        end: hands-off
        because: The ground may be wet.
        safe_action: Keep away from the pedestal.
        call: park
      ground_unseen:
        end: hands-off
        because: The ground may be wet.
        safe_action: Keep away from the pedestal.
        call: park

Good:

    nodes:
      wet:
        step: Look at the ground.
        done: ground_wet
        cannot: ground_wet
      ground_wet:
        end: hands-off
        because: The ground may be wet.
        safe_action: Keep away from the pedestal.
        call: park
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import End
from shorewalk.tree.words import quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "endings-alike"


def check(view: View) -> Iterator[Finding]:
    """Find endings that say the same as one above them."""
    for written in view.files:
        firsts: dict[object, End] = {}
        for node in written.nodes.values():
            if not isinstance(node, End):
                continue
            first = firsts.setdefault(_says(node), node)
            if first is not node:
                message = f"The ending {quoted(node.name)} says word for word what {quoted(first.name)} says."
                there = Related(view.of(first), "the ending it is like")
                hint = f"Lead to {quoted(first.name)} instead, or say what is different here."
                yield Finding(ID, Severity.WARNING, view.of(node), message, (there,), hint)


def _says(end: End) -> object:
    texts = (end.because, end.safe_action, end.call_when, end.say)
    words = tuple(" ".join(text.split()) if text else "" for text in texts)
    return end.verdict, words, end.call, end.first, frozenset(end.not_ruled_out)


RULE = Rule(
    ID,
    "Two endings of a file differ in more than their name.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
