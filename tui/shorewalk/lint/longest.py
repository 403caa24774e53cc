"""How long a message of a tree can come to be, with as much known as one walk can know."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache

from shorewalk.tree.model import Ask, End, Measure, Tally, Tree, ways_out
from shorewalk.walk.saying import MOST, terse
from shorewalk.walk.site_words import SITE_MOST
from shorewalk.walk.wording import BRACKET, PLACEHOLDER

from .reach import reach

READING = 9
"""Letters of a reading: `121.8 V`, and some more in case one of several wanders."""

READINGS = 70
"""Letters of one reading with what it is about, and of how many are left out; the others may be left out."""

RESULT = 21
"""Letters of a result with from where to where it may lie: `26.6 A (22.8 to 30.4)`."""

DONE = len(terse(" Our cord is out, breaker off."))
"""What is said of what was done."""


def longest(tree: Tree, end: End) -> int:
    """Return how many letters the message of an ending takes at most, written as short as it can be."""
    text = (end.say or "").replace("{because}", end.because)
    whole = _length(tree, text)
    brackets = BRACKET.findall(text)
    if whole <= MOST or not brackets:
        return whole
    always = _length(tree, BRACKET.sub("", text))
    return always + _most(brackets, [_length(tree, inner) - DONE for inner in brackets], _together(tree))


NO_BRACKETS = str.maketrans("", "", "[]")


def _length(tree: Tree, text: str) -> int:
    filled = PLACEHOLDER.sub(lambda found: "x" * _width(tree, found[1]), text.translate(NO_BRACKETS))
    return len(terse(filled)) + DONE


def _width(tree: Tree, name: str) -> int:
    fixed = {"site": SITE_MOST, "readings": READINGS, "meter": READING}
    match tree.nodes.get(name):
        case Measure():
            return READING
        case Ask(choices=choices):
            return max(len(choice.says) for choice in choices)
        case Tally():
            return RESULT
    return fixed.get(name, RESULT)


def _together(tree: Tree) -> Callable[[str, str], bool]:
    """Return whether one walk can know two names: from the node of one a way leads to the other's."""

    @cache
    def ahead(name: str) -> frozenset[str]:
        return frozenset(reach([name], lambda at: (way.goto for _, way in ways_out(tree.nodes[at]))))

    def both(one: str, other: str) -> bool:
        if one not in tree.nodes or other not in tree.nodes:
            return True
        return other in ahead(one) or one in ahead(other)

    return both


def _most(brackets: list[str], lengths: list[int], both: Callable[[str, str], bool]) -> int:
    """Return the length of the longest brackets that one walk can know together."""
    names = [frozenset(PLACEHOLDER.findall(inner)) for inner in brackets]

    def fits(at: int, taken: Iterable[int]) -> bool:
        mine = names[at]
        return all(both(one, other) for other in mine for held in (*taken, at) for one in names[held])

    def most(at: int, taken: tuple[int, ...]) -> int:
        if at == len(brackets):
            return sum(lengths[held] for held in taken)
        without = most(at + 1, taken)
        return max(without, most(at + 1, (*taken, at))) if fits(at, taken) else without

    return most(0, ())
