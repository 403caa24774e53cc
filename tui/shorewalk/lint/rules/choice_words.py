"""A choice says what its name says: one named `no` or `will-not-reset` denies, and one named `yes` does not.

Rules and judges go by the name, and people by the words. A "not" lost from the words turns the answer round.

Bad:

    nodes:
      feel:
        ask: How does the handle feel?
        sign: breaker-feel
        choices:
          firm: {says: Firm, goto: stop_here}
          spongy: {says: Spongy, goto: stop_here}
          will-not-latch: {says: It will stay on, goto: stop_here}
        unsure: stop_here

Good:

    nodes:
      feel:
        ask: How does the handle feel?
        sign: breaker-feel
        choices:
          firm: {says: Firm, goto: stop_here}
          spongy: {says: Spongy, goto: stop_here}
          will-not-latch: {says: It will not stay on, goto: stop_here}
        unsure: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.model import Ask
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "choice-words"

NAMED = re.compile(r"(?:^|-)(?:no|not|none|nothing)(?:-|$)")
DENIES = re.compile(
    r"\b(?:no|not|never|none|nobody|nothing|neither|without|cannot|only|left out)\b|n't\b", re.IGNORECASE
)
TURNED = {"yes": re.compile(r"no\b", re.IGNORECASE), "no": re.compile(r"yes\b", re.IGNORECASE)}
"""How the words of a choice must not begin, by its name."""


def check(view: View) -> Iterator[Finding]:
    """Find choices whose words turn their name round."""
    for written in view.files:
        for node in written.nodes.values():
            for choice in node.choices if isinstance(node, Ask) else ():
                turned = choice.id in TURNED and TURNED[choice.id].match(choice.says)
                if turned or (NAMED.search(choice.id) and not DENIES.search(choice.says)):
                    what = "says the opposite" if turned else "denies nothing"
                    message = f"The answer {quoted(choice.id)} reads {quoted(choice.says)} and {what}."
                    place = view.place(written.file, (*node.route, "choices", choice.id, "says"))
                    hint = "Let the words say what the name says."
                    yield Finding(ID, Severity.ERROR, place, message, hint=hint)


RULE = Rule(ID, "A choice's words say what its name says.", check, site=False)
