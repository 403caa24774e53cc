"""Words that would send somebody into danger, found by patterns, but where they are a warning or for others to do."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

DENIED = re.compile(
    r"\b(?:no|not|never|nobody|none|neither|nor|cannot|forbidden|dangerous|instead of|rather than)\b|n't\b",
    re.IGNORECASE,
)
OTHERS = re.compile(r"\b(?:electricians?|the park|the crew|they)\b", re.IGNORECASE)
ENDED = re.compile(r"[.;:?!]")


class Advice:
    """Patterns by where they send somebody. `letters`: one of these words stands in whatever a pattern may find.

    `before` returns what, of the text ahead of the words, may forbid them or say that others do it.
    """

    def __init__(
        self, patterns: Mapping[str, Sequence[str]], letters: str, before: Callable[[str], str]
    ) -> None:
        self._patterns = {
            where: re.compile("|".join(some), re.IGNORECASE) for where, some in patterns.items()
        }
        self._letters = letters.split()
        self._before = before

    def found(self, text: str) -> Iterator[tuple[str, str]]:
        """Yield where the text sends somebody, and its words."""
        lower = text.lower()
        if not any(letters in lower for letters in self._letters):
            return  # most texts are done with at once
        for where, pattern in self._patterns.items():
            for found in pattern.finditer(text):
                before = self._before(text[: found.start()])
                if not DENIED.search(before) and not OTHERS.search(before):
                    yield where, found[0]


def after_last(end: re.Pattern[str], head: str) -> str:
    """Return what stands behind the last place where `end` is found; all of it where there is none."""
    ends = list(end.finditer(head))
    return head[ends[-1].end() :] if ends else head
