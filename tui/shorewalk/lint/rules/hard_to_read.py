"""What a tree says can be read by whoever finished grade 8 of school (US plain-language guidance: 6 to 8).

The measure is the automated readability index (Senter and Smith 1967; weights for training manuals by Kincaid and
others 1975): letters in a word and words in a sentence. It needs no guess at syllables, which goes wrong with words
like "pedestal", and no dictionary to fetch. Short texts say little: one long name moves 30 words by a grade or two.
So passages of 100 words and more are judged, as Flesch took them: what neighbouring nodes of a file say, in the
order written. Placeholders and what stands in for another text are left out.

Bad:

    nodes:
      a_verdict:
        end: stay-unplugged
        because: >-
          Considerable inconsistencies characterise contemporary distribution infrastructure.
          Insufficient conductor continuity necessitates professional investigation.
          Alternating potential differences demonstrate unsatisfactory referencing.
          Predetermined precautionary methodologies consistently prohibit reconnection.
          Substantial contamination compromises insulation performance unpredictably.
          Comprehensive documentation accompanies manufacturers' installation recommendations.
          Environmental circumstances occasionally exacerbate deteriorating terminations.
        safe_action: >-
          Discontinue participation immediately, notwithstanding operational considerations.
          Communicate observations comprehensively. Maintain satisfactory separation distances.
          Investigate alternative accommodation possibilities. Relinquish responsibility appropriately.
          Facilitate uninterrupted accessibility. Acknowledge organisational responsibilities accordingly.
          Substantiate professional qualifications beforehand. Request authoritative confirmation subsequently.
          Circumvent unnecessary complications altogether. Familiarise accompanying individuals accordingly.
          Periodically reconsider circumstances. Anticipate administrative deliberations.
          Scrutinise correspondence attentively. Photograph discolouration systematically.
          Determine responsibilities contractually. Authenticate recommendations independently.
          Demonstrate proportionate consideration towards neighbouring establishments.
          Accumulate supplementary documentation. Disseminate conclusions appropriately thereafter.
          Reconsider inconvenient assumptions. Avoid precipitate generalisations.
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
from ..prose import Said, Speech, prose
from ..rule import Rule
from ..view import View

ID = "hard-to-read"

HARDEST = 8.0
"""US school grade."""

SHORTEST = 100
"""Words of a passage (Flesch's samples); one with 100 words is known to about one grade."""

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

    return float(textstat.automated_readability_index(" ".join(sentences)))


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
