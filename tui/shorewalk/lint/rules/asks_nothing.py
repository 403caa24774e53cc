"""What is said to whoever is called asks for something: they should not have to guess what is wanted.

A sentence with "please", a question, or an order ("Switch the loop off now.") asks.

Bad:

    nodes:
      low:
        end: stay-unplugged
        because: The voltage is low.
        safe_action: Keep the cord out.
        call: park
        say: "[Site {site}: ]The voltage at our outlet is low."

Good:

    nodes:
      low:
        end: stay-unplugged
        because: The voltage is low.
        safe_action: Keep the cord out.
        call: park
        say: "[Site {site}: ]The voltage at our outlet is low. Please check the supply."
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose
from .one_action import BEGINS

ID = "asks-nothing"
ASKS = re.compile(r"\bplease\b|\bwould like\b|\?", re.IGNORECASE)


def check(view: View) -> Iterator[Finding]:
    """Find words for whoever is called that ask for nothing."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                if said.key == "say" and not any(map(_asks, said.sentences)):
                    message = f"What the ending {quoted(speech.node.name)} says asks for nothing."
                    hint = "Say what is wanted: Please check the supply."
                    place = view.place(written.file, said.route)
                    yield Finding(ID, Severity.WARNING, place, message, hint=hint)


def _asks(sentence: str) -> bool:
    return bool(ASKS.search(sentence) or BEGINS.match(sentence))


RULE = Rule(
    ID,
    "What is said to whoever is called asks for something.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
