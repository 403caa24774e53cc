"""What a tree says can be read by whoever finished grade 8 of school (US plain-language guidance: 6 to 8).

Every node is judged by all it says: question or step, answers, reason, hint, what an ending says. The measure is the
automated readability index (Senter and Smith 1967; weights for training manuals by Kincaid and others 1975): letters
in a word and words in a sentence. From 30 words on the Coleman-Liau index (1975) counts too, the harder of both: it
weighs long words more, which short sentences would hide. Neither needs a guess at syllables, which goes wrong with
words like "pedestal", nor a dictionary to fetch. On a few words both leap: one long name is a grade or two. So a node
of fewer than 15 words is judged with those that follow it in the file, until there are 15. Placeholders and what
stands in for another text are left out.

Bad:

    nodes:
      a_verdict:
        end: stay-unplugged
        because: >-
          Considerable inconsistencies characterise contemporary distribution infrastructure.
          Insufficient conductor continuity necessitates professional investigation.
        safe_action: Discontinue participation immediately, notwithstanding operational considerations.
        call: park

Good:

    nodes:
      a_verdict:
        end: stay-unplugged
        because: The readings do not fit each other. A wire is loose or open somewhere in the loop.
        safe_action: Keep the cord out. Keep children and pets away. Let the park look first.
        call: park
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from shorewalk.tree.model import Route

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import Said, Speech, prose

ID = "hard-to-read"

HARDEST = 8.0
"""US school grade."""

SHORTEST = 15
"""Words under which a node is judged with the next."""

WEIGHED = 30
"""Words from which on the Coleman-Liau index counts too: on fewer it leaps by more than a grade for one long word."""

LEFT_OUT = re.compile(r"\{[^{}]*\}|[\[\]]")


def check(view: View) -> Iterator[Finding]:
    """Find passages that are hard to read."""
    for written, speeches in prose(view):
        for nodes, route, said in passages(speeches):
            grade = grade_of(said)
            if grade > HARDEST:
                at = nodes[0] if len(nodes) == 1 else f"{nodes[0]} to {nodes[-1]}"
                message = f"What {at} says asks for grade {grade:.0f} of school; at most {HARDEST:.0f} is asked for."
                hint = f"Take shorter words and sentences. The hardest here: {max(said, key=grade_of_one)}"
                yield Finding(ID, Severity.WARNING, view.place(written.file, route), message, hint=hint)


def passages(speeches: list[Speech]) -> Iterator[tuple[list[str], Route, list[str]]]:
    """Yield the nodes of each passage, where it begins, and its sentences; what is left over joins the last."""
    found: list[tuple[list[str], Route, list[str]]] = []
    words = SHORTEST
    for speech in speeches:
        said = [sentence for one in speech.said for sentence in _plain(one)]
        if not said:
            continue
        if words >= SHORTEST:
            found.append(([], speech.said[0].route, []))
            words = 0
        found[-1][0].append(speech.node.name)
        found[-1][2].extend(said)
        words += sum(sentence.count(" ") + 1 for sentence in said)
    if words < SHORTEST and len(found) > 1:
        nodes, _, said = found.pop()
        found[-1][0].extend(nodes)
        found[-1][2].extend(said)
        words = SHORTEST
    yield from found if words >= SHORTEST else ()


def _plain(said: Said) -> Iterator[str]:
    for sentence in said.sentences:
        plain = LEFT_OUT.sub("", sentence) if "{" in sentence else sentence
        if any(letter.isalpha() for letter in plain):
            yield plain.strip(" ,;:.") + "."


def grade_of(sentences: list[str]) -> float:
    """Return the US school grade that a passage asks for."""
    from textstat import textstat

    text = " ".join(sentences)
    found = [textstat.automated_readability_index(text)]
    if text.count(" ") >= WEIGHED - 1:
        found.append(textstat.coleman_liau_index(text))
    return float(max(found))


def grade_of_one(sentence: str) -> float:
    """Return how hard one sentence is, only to tell it from others."""
    words = sentence.split()
    return 4.71 * sum(map(len, words)) / len(words) + 0.5 * len(words)


RULE = Rule(
    ID,
    "What a tree says can be read at grade 8.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
