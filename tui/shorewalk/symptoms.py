"""From a person's words to a tree: its name, a piece of its symptom, or words that are in it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

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
            "get",
            "got",
            "has",
            "have",
            "here",
            "i",
            "in",
        ),
        *(
            "is",
            "it",
            "its",
            "just",
            "my",
            "of",
            "on",
            "or",
            "our",
            "really",
            "so",
            "that",
            "the",
            "there",
            "this",
        ),
        *("to", "very", "was", "we", "went", "what", "why"),
    )
)
ENDS = ("ing", "ed", "s")
STEM = 4
"""Letters that two forms of a word must have in common."""


@cache
def words_of(text: str) -> tuple[str, ...]:
    """Return the words that tell something, in small letters."""
    return tuple(word for word in WORD.findall(text.casefold().replace("-", " ")) if word not in SMALL)


@cache
def text_of(header: Header) -> str:
    """Return what a tree is called: its name, its symptom and other words for it."""
    return " | ".join((header.name.replace("-", " "), header.symptom, *header.also)).casefold()


@cache
def all_of(header: Header) -> str:
    """Return all that a tree says of itself."""
    return " | ".join((text_of(header), *header.tells, header.about or "")).casefold()


def matches(headers: Iterable[Header], asked: str) -> list[Header]:
    """Return the trees that `asked` may mean, those called by these very words first.

    By name; else by what they are called; else by words of all they say. A word finds its other forms too.
    """
    every = list(headers)
    asked = " ".join(asked.casefold().split())
    name = asked.replace(" ", "-")
    if exact := [header for header in every if asked == header.symptom.casefold() or name == header.name]:
        return exact
    part = [header for header in every if asked and asked in text_of(header)]
    if part and " " in asked:
        return part
    wanted = words_of(asked)
    called = [header for header in every if header not in part and _has_words(text_of(header), wanted)]
    return part + called or [header for header in every if _has_words(all_of(header), wanted)]


def _has_words(text: str, wanted: tuple[str, ...]) -> bool:
    """Tell whether every wanted word is in a text, as far as it was typed."""
    words = words_of(text)
    return bool(wanted) and all(any(_same(word, start) for word in words) for start in wanted)


def _same(word: str, typed: str) -> bool:
    """Tell whether a word begins with what was typed, or both are forms of one: tripped, tripping, trips."""
    short, long = sorted((_stem(word), _stem(typed)), key=len)
    return word.startswith(typed) or (len(short) >= STEM and long.startswith(short))


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
        near = (any(difflib.get_close_matches(word, words, n=1, cutoff=0.75)) for word in wanted)
        shared = sum(any(_same(other, word) for other in words) for word in wanted) + sum(near)
        alike = difflib.SequenceMatcher(None, asked.casefold(), header.name).ratio()
        scores[header.name] = shared + alike
    best = sorted(every, key=lambda header: -scores[header.name])
    return [header for header in best if scores[header.name] >= 0.6][:most]
