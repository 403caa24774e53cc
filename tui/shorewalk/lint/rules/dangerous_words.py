"""No text sends somebody round a protector, under a cover, on when unsure, or a hand where none belongs.

A cover is what screws or a lock hold; the hinged lid over an outlet is none. To warn of such a thing is right:
"Never open the cover" keeps the rule. So is to leave it to the park or an electrician. This may not be silenced.

Bad:

    nodes:
      look_inside:
        step: Take off the cover of the pedestal.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      look_from_outside:
        step: Lift the hinged lid with a stick.
        hint: Never take off a cover. If you are not sure, stop.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.source import Place
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.dangers import DANGERS
from ..words.hands import HANDS, ORDERS
from ..words.prose import prose

ID = "dangerous-words"


def check(view: View) -> Iterator[Finding]:
    """Find words that send somebody into danger."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                orders = HANDS.found(said.text) if said.key in ORDERS else ()
                for where, words in (*DANGERS.found(said.text), *orders):
                    yield _finding(view.place(written.file, said.route), where, words)
    for caution in view.site.cautions.values() if view.site else ():
        for where, words in (*DANGERS.found(caution.text), *HANDS.found(caution.text)):
            yield _finding(view.fact("cautions", (caution.id, "text")), where, words)


def _finding(place: Place, where: str, words: str) -> Finding:
    message = f"The words {quoted(words)} send somebody {where}."
    hint = "Say what is safe instead, or whom to call. A warning says never or not in the same clause."
    return Finding(ID, Severity.ERROR, place, message, hint=hint)


RULE = Rule(ID, "No text sends somebody into danger.", check, site=False)
