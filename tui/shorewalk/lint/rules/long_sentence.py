"""A sentence has at most 20 words: whoever reads it stands in the dusk with a probe in each hand.

US plain-language guidance advises 15 to 20. A placeholder counts as one word; words in brackets count, because
they may be shown. A colon or semicolon ends a sentence here.

Bad:

    nodes:
      dry:
        step: >-
          Dry both of your hands with a towel or a cloth that is clean before you go over to the pedestal and stand
          down in front of it.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      dry:
        step: Dry your hands.
        hint: Use a clean towel or cloth. Do it before you go to the pedestal.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "long-sentence"

LONGEST = 20
"""Words in a sentence (US plain-language guidance: 15 to 20)."""


def check(view: View) -> Iterator[Finding]:
    """Find sentences that are too long."""
    for written, speeches in prose(view):
        for speech in speeches:
            for said in speech.said:
                for sentence in said.sentences:
                    if sentence.count(" ") >= LONGEST and (words := sentence.split())[LONGEST:]:
                        begins = quoted(f"{' '.join(words[:4])} ...")
                        message = (
                            f"The sentence {begins} has {len(words)} words; at most {LONGEST} are read well."
                        )
                        place = view.place(written.file, said.route)
                        hint = "Make two of it, or leave out what nobody needs here."
                        yield Finding(ID, Severity.WARNING, place, message, hint=hint)


RULE = Rule(
    ID,
    "A sentence has at most 20 words.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
