"""What is told apart by its colour is told by something else too: its place, its name, what it does.

Red and green look alike to one man in twelve, and to everybody in the light of a torch. The probes are known by
more than their colour: each has its jack, and the picture says which goes where.

Bad:

    nodes:
      lamps:
        step: Wait until the green lamp is on.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      lamps:
        step: Wait until the lower lamp, the green one, is on.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "colour-alone"

HUE = r"(?:red|green|yellow|amber|orange|blue|white|purple)"
COLOUR = re.compile(
    rf"\b{HUE}(?: (?:light|lamp|led|dot|display|one|button|mark)s?\b|[.!?]?$)|"
    rf"\b(?:is|are|turns?|goes|go|shows?|lights? up|stays?|blinks?) {HUE}\b",
    re.IGNORECASE,
)
OTHER = re.compile(
    r"\b(?:left|right|middle|centre|center|upper|lower|top|bottom|first|second|third|next|above|below|under|beside|"
    r"label\w*|marked|called|says|reads|word|words|named|large|small|round|square|steady|slowly|fast|twice|probe|lead)\b",
    re.IGNORECASE,
)
"""What else a thing may be known by."""


def check(view: View) -> Iterator[Finding]:
    """Find things that only their colour tells apart."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                for sentence in said.sentences:
                    if (found := COLOUR.search(sentence)) and not OTHER.search(sentence):
                        message = f"Only its colour tells what {quoted(found[0])} is."
                        place = view.place(written.file, said.route)
                        hint = "Say also where it is, what stands beside it, or what it does."
                        yield Finding(ID, Severity.WARNING, place, message, hint=hint)


RULE = Rule(
    ID,
    "What has a colour is known by something else too.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
