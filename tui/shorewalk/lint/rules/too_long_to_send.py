"""The message fits a text message, 320 letters, with all that one walk can know and the site's name in it.

Where it is too long, a walk writes pairs of slots in fewer letters and leaves readings out of {readings}; it never
leaves out what the words name themselves. They are counted: 24 letters for the site, 9 for a reading, the longest
answer, 70 for {readings}, and "Unplugged, breaker off." at the end. Brackets that no walk can know together count
as one.

Bad:

    nodes:
      low:
        end: stay-unplugged
        because: The voltage is low.
        safe_action: Keep the cord out.
        call: park
        say: >-
          [Site {site}: ]The voltage at our outlet is low, and it was low all day, in the morning and at noon. It may
          have been low last night too, when the lights went dim and the kettle took its time. We have kept the cord
          out since then and have looked at nothing more. Please check the supply as soon as you can, and tell us.

Good:

    nodes:
      low:
        end: stay-unplugged
        because: The voltage is low.
        safe_action: Keep the cord out.
        call: park
        say: "[Site {site}: ]The voltage at our outlet is low, and was all day. Please check the supply."
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import End
from shorewalk.tree.words import quoted
from shorewalk.walk.saying import MOST

from ..finding import Finding, Severity
from ..longest import longest
from ..rule import Rule
from ..view import View

ID = "too-long-to-send"


def check(view: View) -> Iterator[Finding]:
    """Find words for whoever is called that a text message may not hold; those of a part once."""
    told = set()
    for tree in view.trees:
        for node in tree.nodes.values():
            if not isinstance(node, End) or not node.say or (node.file, node.route) in told:
                continue
            letters = longest(tree, node)
            if letters > MOST:
                told.add((node.file, node.route))
                name = quoted(node.name.rpartition(".")[2])
                message = f"The message of {name} can come to {letters} letters; a text message holds {MOST}."
                hint = f"Say it in {letters - MOST} letters less."
                place, used = view.of(node, "say"), view.used_at(tree, node.name)
                yield Finding(ID, Severity.WARNING, place, message, used, hint)


RULE = Rule(
    ID,
    "What is said to whoever is called fits a text message.",
    check,
    severity=Severity.WARNING,
    silenceable=True,
)
