"""What names come to on paper: numbers of steps, words for what a part was given, texts with both put in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cached_property
from string import ascii_uppercase

from shorewalk.marks import grade_mark
from shorewalk.tree.facts import Site
from shorewalk.tree.model import AGAIN, Pairs, Use, Way, Written, ways_out, worse
from shorewalk.walk.wording import BRACKET, PLACEHOLDER, bare

from .order import order
from .step import Ahead, At
from .uses import Found, Uses, Value

WRITTEN_IN = {"site": "____", "readings": "your readings", "meter": "your meter"}
"""What the walk fills in by itself, and what stands for it on paper."""


class Desk:
    """Everything that words for one checklist need."""

    def __init__(self, uses: Uses) -> None:
        self.uses = uses
        self.site: Site = uses.library.site
        self.numbers: Mapping[At, int] = order(uses)
        parts = list(dict.fromkeys(where for where, _ in self.numbers if where))
        self.letters = dict(zip(parts, _letters(), strict=False))

    def written(self, where: str) -> Written:
        """Return the file a section is made of."""
        return self.uses.written[where]

    def names_part(self, part: str) -> str:
        """Return a part as it is called on paper: `part C, outlet one hot`."""
        return f"part {self.letters[part]}, {spoken(part)}"

    def refer(self, where: str, name: str) -> str:
        """Return what stands for an answer or reading given elsewhere: `[12]`, `[63 from 31]` or `[before]`."""
        if name.startswith("$") and len(self.uses.values(where, name[1:])) > 1:
            return f"[{spoken(name[1:])}]"
        found = next(self.uses.means(where, name), None)
        return self._step(found) if found else f"[{name}]"

    def _step(self, found: Found) -> str:
        number = self.numbers.get(found.at)
        if number is None:  # nothing leads there
            return f"[{spoken(found.at[1])}: not taken]"
        if found.through and found.through in self.numbers:
            return f"[{number} from {self.numbers[found.through]}]"
        return f"[{number}]"

    def value(self, value: Value) -> str:
        """Return what a part is given, in words."""
        if value.node:
            return self._step(Found(value.node))
        place, limit = self.site.places.get(value.word), self.site.limits.get(value.word)
        if place:
            return place.says
        return amount(limit.value, limit.unit) if limit else value.word

    def put_in(self, where: str, name: str) -> str:
        """Return what stands for `{name}` in a text."""
        if name in WRITTEN_IN:
            return WRITTEN_IN[name]
        values = self.uses.values(where, name) if name in self.written(where).takes else ()
        if len(values) == 1:
            return self.value(values[0])
        return f"[{spoken(name)}]" if values else self.refer(where, name)

    def text(self, where: str, text: str) -> str:
        """Return a text with steps for what was answered there; what may drop out stands in `( )`."""
        if text.startswith("$"):
            return self.put_in(where, text[1:])
        text = BRACKET.sub(_may_drop_out, text)
        text = PLACEHOLDER.sub(lambda found: self.put_in(where, found[1]), text)
        return " ".join(text.split()).replace(") .", ").").replace("( ", "(")

    def given_words(self, where: str, word: str) -> str:
        """Return what a part is given at one step, in words."""
        if word.startswith("$"):
            return self.put_in(where, word[1:])
        if next(self.uses.means(where, word), None):
            return self.refer(where, word)
        return self.value(Value(word))

    def way(self, where: str, key: str, way: Way, says: str, *, tick: bool = False) -> Ahead:
        """Return a way as a line to take. An exit of a part that is done from one step leads on from there."""
        goes, to, grade, notes = self._goes(where, way)
        noted = f"note: {'; '.join(notes)}" if notes else ""
        return Ahead(key, says, goes, to, grade, noted, tick)

    def _goes(self, where: str, way: Way) -> tuple[str, At | None, str | None, list[str]]:
        """Return what to print for a way, where it leads, its grade, and what to keep in mind."""
        name, written, only = way.goto, self.written(where), self.uses.only(where)
        grade, notes = self.grade(where, way.grade), self.noted(where, way.leaves)
        if name.startswith("$"):
            values = self.uses.values(where, name[1:])
            node = values[0].node if len(values) == 1 else None
            if node and node in self.numbers:
                return f"-> {self.numbers[node]}", node, grade, notes
            return f"-> [{spoken(name[1:])}]", None, grade, notes
        if name in written.nodes:
            return f"-> {self.numbers[where, name]}", (where, name), grade, notes
        outer = dict(only.use.exits).get(name) if only else None
        if only is None or outer is None:
            return f"-> back: {spoken(name).upper()}", None, grade, notes
        goes, to, further, more = self._goes(only.where, outer)
        both = worse(grade, further) or (AGAIN if AGAIN in (grade, further) else None)
        return goes, to, both, [*notes, *more]

    def grade(self, where: str, grade: str | None) -> str | None:
        """Return a grade; where a part is given it, the worst that it may be given."""
        if grade is None or not grade.startswith("$"):
            return grade
        found: str | None = None
        for value in self.uses.values(where, grade[1:]):
            found = worse(found, value.word) or found or value.word
        return found

    def word(self, where: str, word: str) -> str:
        """Return a word of the format that a part may be given; all of them where they differ."""
        if not word.startswith("$"):
            return word
        return " or ".join(value.word for value in self.uses.values(where, word[1:]))

    def noted(self, where: str, leaves: Pairs) -> list[str]:
        """Return what to keep in mind: states that a judgement on this sheet asks for."""
        return [self.state(where, name, value) for name, value in leaves if name in self.asked_states]

    def state(self, where: str, name: str, value: str) -> str:
        """Return how something stands, in words."""
        fact = self.site.states.get(name)
        words = self.given_words(where, value) if value.startswith("$") else self.value(Value(value))
        return f"{fact.says if fact else name}: {bare(words)}"

    @cached_property
    def asked_states(self) -> frozenset[str]:
        """The states that a judgement on this sheet branches on."""
        rows = (
            row
            for written in self.uses.written.values()
            for node in written.nodes.values()
            for row in getattr(node, "rows", ())
        )
        return frozenset(name for row in rows for name, _ in row.while_)

    def calls(self, part: str) -> Iterator[tuple[int, str, Use]]:
        """Yield the steps at which a part is done: number, section, node."""
        for put in self.uses.puts[part]:
            if put.at in self.numbers:
                yield self.numbers[put.at], put.where, put.use

    def lost(self) -> tuple[str, ...]:
        """Return the nodes that nothing leads to; they are not printed."""
        return tuple(
            f"{where or written.name}: {name}"
            for where, written in self.uses.written.items()
            for name in written.nodes
            if (where, name) not in self.numbers
        )

    def rest(self, where: str, name: str, says: Mapping[str, str]) -> tuple[Ahead, ...]:
        """Return the ways out that have one of these labels, in these words."""
        ways = dict(ways_out(self.uses.node((where, name))))
        return tuple(self.way(where, key, ways[key], words) for key, words in says.items() if key in ways)


def _may_drop_out(found: re.Match[str]) -> str:
    return f" ({found[1].strip(' :,;')}) " if PLACEHOLDER.search(found[1]) else found[1]


def amount(value: float, unit: str) -> str:
    """Return a number with its unit."""
    return f"{value:g}" if unit == "1" else f"{value:g} {unit}"


def spoken(name: str) -> str:
    """Return a name of the format as words."""
    return name.replace("-", " ").replace("_", " ")


def graded(grade: str | None) -> str:
    """Return a grade as printed: mark and word; stops in capitals."""
    if grade is None:
        return ""
    mark = grade_mark(grade, void=grade == AGAIN)
    word = mark.word.upper() if grade in ("watch", "stop", "danger") else mark.word
    return f"{mark.ascii} {word}"


def _letters() -> Iterator[str]:
    yield from ascii_uppercase
    yield from (first + second for first in ascii_uppercase for second in ascii_uppercase)
