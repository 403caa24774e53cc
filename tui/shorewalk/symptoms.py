"""From a person's words to a tree: its name, a piece of its symptom, or words that are in it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .tree.library import Header

WORD = re.compile(r"[\w'-]+")
# Words that stand in every other symptom and tell nothing.
SMALL = frozenset(
    ("a", "an", "and", "at", "i", "in", "is", "it", "my", "of", "on", "or", "our", "the", "to", "we")
)


def words_of(text: str) -> list[str]:
    """Return the words that tell something, in small letters."""
    return [word for word in WORD.findall(text.casefold().replace("-", " ")) if word not in SMALL]


def text_of(header: Header) -> str:
    """Return all that is searched of a tree."""
    return " | ".join((header.name.replace("-", " "), header.symptom, *header.also)).casefold()


def matches(headers: Iterable[Header], asked: str) -> list[Header]:
    """Return the trees that `asked` may mean: by name, else by a piece of text, else by its words."""
    every = list(headers)
    asked = " ".join(asked.casefold().split())
    name = asked.replace(" ", "-")
    if exact := [header for header in every if asked == header.symptom.casefold() or name == header.name]:
        return exact
    if part := [header for header in every if asked and asked in text_of(header)]:
        return part
    return [header for header in every if _has_words(header, words_of(asked))]


def _has_words(header: Header, wanted: list[str]) -> bool:
    """Tell whether every wanted word begins a word of the tree's."""
    words = words_of(text_of(header))
    return bool(wanted) and all(any(word.startswith(start) for word in words) for start in wanted)


def nearest(headers: Iterable[Header], asked: str, most: int = 3) -> list[Header]:
    """Return the trees most like `asked`: those that share most words, else those spelled most alike."""
    import difflib  # only where nothing fits

    every = list(headers)
    wanted = words_of(asked)
    scores: dict[str, float] = {}
    for header in every:
        words = words_of(text_of(header))
        shared = sum(1 for word in wanted if difflib.get_close_matches(word, words, n=1, cutoff=0.75))
        alike = difflib.SequenceMatcher(None, asked.casefold(), header.name).ratio()
        scores[header.name] = shared + alike
    best = sorted(every, key=lambda header: -scores[header.name])
    return [header for header in best if scores[header.name] >= 0.6][:most]
