"""One thing is denied once: two negatives in one clause must be turned over in the head before they are understood.

"Never run the rig without the protector" says "run the rig only behind the protector". A list that denies each of
its members ("no motors and no air conditioner") is no double negative.

Bad:

    nodes:
      dry:
        step: Touch nothing that is not dry.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      dry:
        step: Touch only what is dry.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "double-negative"

NEGATIVE = re.compile(
    r"\b(?:no|not|never|none|nobody|nothing|nowhere|neither|without|unless|cannot|\w+n't)\b", re.IGNORECASE
)
CLAUSE = re.compile(r"[,()]|\b(?:and|or|nor|but|so|because)\b")


def check(view: View) -> Iterator[Finding]:
    """Find clauses that deny twice."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                if NEGATIVE.search(said.text):
                    for sentence in said.sentences:
                        if words := denied_twice(sentence):
                            message = f"A clause denies twice: {listed(map(quoted, words), 'and')}."
                            place = view.place(written.file, said.route)
                            hint = f'Say what is meant, as in "only" or "at least", instead of: {sentence}'
                            yield Finding(ID, Severity.WARNING, place, message, hint=hint)


def denied_twice(sentence: str) -> list[str]:
    """Return the negatives of the first clause that has more than one."""
    if len(NEGATIVE.findall(sentence)) > 1:
        for clause in CLAUSE.split(sentence):
            if len(words := NEGATIVE.findall(clause)) > 1:
                return words
    return []


RULE = Rule(
    ID,
    "A clause denies at most once.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
