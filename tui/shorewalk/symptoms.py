"""From a person's words to a tree: its name, a piece of its symptom, or words that are in it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .tree.library import Header

WORD = re.compile(r"[\w'-]+")
# Words that stand in every other symptom and tell nothing.
SMALL = frozenset(
    (
        *(
            "a",
            "an",
            "and",
            "are",
            "at",
            "be",
            "been",
            "do",
            "does",
            "has",
            "have",
            "i",
            "in",
            "is",
            "it",
            "its",
        ),
        *("my", "of", "on", "or", "our", "that", "the", "there", "this", "to", "was", "we"),
    )
)
ENDS = ("ing", "ed", "s")
STEM = 4
"""Letters that must be left of a tree's word before it is found in a longer one that was typed."""


def words_of(text: str) -> list[str]:
    """Return the words that tell something, in small letters."""
    return [word for word in WORD.findall(text.casefold().replace("-", " ")) if word not in SMALL]


def text_of(header: Header) -> str:
    """Return what a tree is called: its name, its symptom and other words for it."""
    return " | ".join((header.name.replace("-", " "), header.symptom, *header.also)).casefold()


def all_of(header: Header) -> str:
    """Return all that a tree says of itself."""
    return " | ".join((text_of(header), *header.tells, header.about or "")).casefold()


def matches(headers: Iterable[Header], asked: str) -> list[Header]:
    """Return the trees that `asked` may mean, in their order.

    By name; else by a piece of what they are called; else by its words; else by words of all they say.
    """
    every = list(headers)
    asked = " ".join(asked.casefold().split())
    name = asked.replace(" ", "-")
    if exact := [header for header in every if asked == header.symptom.casefold() or name == header.name]:
        return exact
    if part := [header for header in every if asked and asked in text_of(header)]:
        return part
    wanted = words_of(asked)
    called = [header for header in every if _has_words(text_of(header), wanted)]
    return called or [header for header in every if _has_words(all_of(header), wanted)]


def _has_words(text: str, wanted: list[str]) -> bool:
    """Tell whether every wanted word is in a text, as far as it was typed."""
    words = words_of(text)
    return bool(wanted) and all(any(_same(word, start) for word in words) for start in wanted)


def _same(word: str, typed: str) -> bool:
    """Tell whether a word begins with what was typed, or both are forms of one: tripped, tripping, trips."""
    stem = _stem(word)
    return word.startswith(typed) or (len(stem) >= STEM and _stem(typed).startswith(stem))


def _stem(word: str) -> str:
    return next((word[: -len(end)] for end in ENDS if word.endswith(end)), word)


def nearest(headers: Iterable[Header], asked: str, most: int = 3) -> list[Header]:
    """Return the trees most like `asked`: those that share most words, else those spelled most alike."""
    import difflib  # only where nothing fits

    every = list(headers)
    wanted = words_of(asked)
    scores: dict[str, float] = {}
    for header in every:
        words = words_of(text_of(header))
        shared = sum(
            1
            for word in wanted
            if any(_same(other, word) for other in words)
            or difflib.get_close_matches(word, words, n=1, cutoff=0.75)
        )
        alike = difflib.SequenceMatcher(None, asked.casefold(), header.name).ratio()
        scores[header.name] = shared + alike
    best = sorted(every, key=lambda header: -scores[header.name])
    return [header for header in best if scores[header.name] >= 0.6][:most]
