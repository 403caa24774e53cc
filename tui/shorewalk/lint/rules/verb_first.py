"""A step says first what to do: its verb comes first, then where and with what.

Whoever has a hand on the breaker acts on the first word. A condition, an article, a name or a "please" before the
verb makes them wait. A rare word is taken for a verb; only words that cannot be one are told.

Bad:

    nodes:
      dry:
        step: Before you touch the breaker, dry your hands.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      dry:
        step: Dry your hands before you touch the breaker.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.model import Step

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "verb-first"

WORDS = """
    a about after afterwards again all already also always an and another any anybody anyone as at because before
    both but by can could during each either every everybody everyone everything finally first firstly for from he
    her here his how i if immediately in into it its just last lastly later may maybe might must my never next no
    nobody not nothing now of on once one only onto or our ours over perhaps please quickly second secondly she
    should slowly some somebody someone soon such that the their them then there these they third this those though
    three to two under unless until upon we what when where which while who whose why will with within without would
    yes you your yours
    breaker breakers cable cord hands meter outlet pedestal plug's power probes protector rig
    """
NO_VERBS = frozenset(WORDS.split())
"""Words with which no order can begin."""

FORM = re.compile(r"(?=.{6,})\w+(?:ing|tion|ness)$")
"""What things and goings-on look like: `switching`, `connection`."""


def check(view: View) -> Iterator[Finding]:
    """Find steps that begin with something else than their verb."""
    for written, speeches in prose(view):
        for speech in speeches:
            if not isinstance(speech.node, Step) or not speech.said or speech.said[0].key != "step":
                continue
            said = speech.said[0]
            first = re.split(r"\W", said.text, maxsplit=1)[0]
            if first.lower() in NO_VERBS or FORM.match(first.lower()):
                message = f'The step begins with "{first}", and not with what to do.'
                place = view.place(written.file, said.route)
                hint = "Put the verb first, as in: Switch the pedestal breaker off."
                yield Finding(ID, Severity.WARNING, place, message, hint=hint)


RULE = Rule(
    ID,
    "A step begins with its verb.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
