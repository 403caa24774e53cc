"""What a name means where it is written: in a tree, or in a part that was put into one.

In a part, names are the part's own nodes or exits; `$name` is a parameter, and where a node is wanted it
is a node of the caller. Dotted names reach into a part put in (`sockets_30.hot_neutral`).

Parts are read when something leads into them, so that a walk reads only what it walks through.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from .model import AGAIN, Node, Pairs, Route, Use, Way, Written, worse
from .source import Place, Problem, TreeError
from .words import choose_from, listed, quoted

RUN_TIME = ("readings", "site", "meter")
"""Placeholders that the walk fills."""

DEEPEST_USE = 10

Find = Callable[[str, Route, str | None], Place]
"""From a file, the route of a node in it and a word of that node to the place of the word."""


class Desk:
    """What all scopes of one tree share: parts by name, words for places, and the problems found so far."""

    def __init__(
        self, parts: Callable[[str], Written], says: Callable[[str], str | None], find: Find
    ) -> None:
        self.parts, self.says, self.find = parts, says, find
        self.problems: list[Problem] = []

    def tell(self, at: Node, message: str, word: str | None = None) -> None:
        """Note a problem of a node, at the `word` in it where one is named."""
        self.problems.append(Problem(self.find(at.file, at.route, word), message))

    def settle(self) -> None:
        """Raise what was noted, if anything was."""
        if self.problems:
            raise TreeError(self.problems)


class Bound(NamedTuple):
    """The value of a parameter, and the scope it was written in."""

    value: str
    scope: Scope


class Scope:
    """One file put in at `prefix` (`""` for the tree itself, else `use.` or `outer.use.`)."""

    def __init__(
        self, written: Written, desk: Desk, outer: Scope | None = None, use: Use | None = None
    ) -> None:
        self.written, self.desk, self.outer, self.use = written, desk, outer, use
        self.prefix: str = f"{outer.prefix}{use.name}." if outer and use else ""
        self.bound: dict[str, Bound] = {}
        self._inner: dict[str, Scope | None] = {}
        self._exits: dict[str, Way] = {}
        if written.begin not in written.nodes:
            what = f"The {written.kind} begins at {quoted(written.begin)}, and no node has that name."
            place = desk.find(written.file, ("begin",), written.begin)
            desk.problems.append(Problem(place, what + choose_from(written.begin, written.nodes)))
        if outer and use:
            self._bind(outer, use)

    def inner(self, name: str) -> Scope | None:
        """Return the scope of the part put in under `name`, or `None` where none can be read."""
        if name not in self._inner:
            use = self.written.nodes.get(name)
            part = self._part(use) if isinstance(use, Use) else None
            self._inner[name] = Scope(part, self.desk, self, use) if part and isinstance(use, Use) else None
        return self._inner[name]

    def word(self, word: str, at: Node) -> str:
        """Return a whole value with `$name` filled in."""
        found = self._bound(word, at) if word.startswith("$") else None
        return found.value if found else word

    def pairs(self, pairs: Pairs, at: Node) -> Pairs:
        """Return names and values with `$name` filled in."""
        return tuple((key, self.word(value, at)) for key, value in pairs) if pairs else pairs

    def node(self, name: str, at: Node) -> str:
        """Return the full name of the node that `name` means."""
        if name.startswith("$"):
            found = self._bound(name, at)
            return found.scope.node(found.value, at) if found else name
        scope, local = self, name
        while "." in local and (inner := scope.inner(local.partition(".")[0])):
            scope, local = inner, local.partition(".")[2]
        known = scope.written.nodes.get(local)
        if known is None or isinstance(known, Use):
            what = "a part, not a node; name a node in it" if known else "not a node here"
            self.desk.tell(at, f"{quoted(name)} is {what}.{choose_from(name, self.readable())}", name)
        return scope.prefix + local

    def way(self, way: Way, at: Node) -> Way:
        """Return `way` with the full name of its target; through an exit, the caller's way is joined."""
        scope, name = self, way.goto
        if name.startswith("$"):
            found = self._bound(name, at)
            if found is None:
                return way
            name, scope = found
        grade, leaves = way.grade and self.word(way.grade, at), self.pairs(way.leaves, at)
        if name in scope.written.nodes:
            return Way(scope.begin_of(name), grade, leaves)
        if name in scope.written.exits:
            outer = scope.exit(name)
            worst = worse(grade, outer.grade) or (AGAIN if AGAIN in (grade, outer.grade) else None)
            return Way(outer.goto, worst, tuple((dict(leaves) | dict(outer.leaves)).items()))
        known = (*scope.written.nodes, *scope.written.exits)
        what = f"{quoted(way.goto)} leads nowhere: no node here has that name.{choose_from(name, known)}"
        self.desk.tell(at, what, way.goto)
        return way

    def exit(self, name: str) -> Way:
        """Return the way the caller wrote for an exit of this part."""
        if name not in self._exits:
            written = dict(self.use.exits).get(name) if self.use else None
            # An exit that is not connected is told once, where the part is put in.
            ready = self.outer.way(written, self.use) if written and self.outer and self.use else Way(name)
            self._exits[name] = ready
        return self._exits[name]

    def begin_of(self, name: str) -> str:
        """Return the full name of a node, or of the first node of the part put in under `name`."""
        inner = self.inner(name)
        return inner.begin_of(inner.written.begin) if inner else self.prefix + name

    def placeholder(self, name: str, at: Node) -> str:
        """Return what stands for `{name}` in a text: words for a parameter, else a placeholder."""
        if name in self.bound:
            value, scope = self.bound[name]
            if words := self.desk.says(value):
                return words
            return f"{{{scope.node(value, at)}}}" if value in scope.written.nodes or "." in value else value
        return f"{{{name}}}" if name in RUN_TIME else f"{{{self.node(name, at)}}}"

    def readable(self) -> Iterator[str]:
        """Yield every name that may be written here for a node."""
        for name, node in self.written.nodes.items():
            if not isinstance(node, Use):
                yield name
            elif inner := self.inner(name):
                yield from (f"{name}.{there}" for there in inner.readable())

    def _bound(self, word: str, at: Node) -> Bound | None:
        found = self.bound.get(word[1:])
        if found is None:
            kind, known = self.written.kind, [f"${name}" for name in self.bound]
            hint = choose_from(word, known) if known else f" This {kind} takes no parameters."
            self.desk.tell(at, f"{quoted(word)} is not a parameter of this {kind}.{hint}", word)
        return found

    def _part(self, use: Use) -> Written | None:
        chain, scope = [use.part], self
        while scope.outer:
            chain.append(scope.written.name)
            scope = scope.outer
        if use.part in chain[1:]:
            circle = " > ".join(reversed(chain[: chain.index(use.part, 1) + 1]))
            self.desk.tell(use, f"Parts use each other in a circle: {circle}.", use.part)
            return None
        if len(chain) > DEEPEST_USE:
            self.desk.tell(use, f"Parts are put into parts more than {DEEPEST_USE} deep.", use.part)
            return None
        try:
            return self.desk.parts(use.part)
        except KeyError as error:
            hint = error.args[1] if len(error.args) > 1 else ""
            self.desk.tell(use, f"There is no part {quoted(use.part)}.{hint}", use.part)
            return None

    def _bind(self, outer: Scope, use: Use) -> None:
        part = self.written
        for name, value in use.with_:
            if name not in part.takes:
                hint = choose_from(name, part.takes)
                self.desk.tell(use, f"The part {part.name} takes no {quoted(name)}.{hint}", name)
            passed = outer._bound(value, use) if value.startswith("$") else None
            self.bound[name] = passed or Bound(value.removeprefix("$"), outer)
        if without := [name for name in part.takes if name not in self.bound]:
            what = f"The part {part.name} also takes {listed(without, 'and')}. Name it under `with`."
            self.desk.tell(use, what, use.part)
            self.bound |= {name: Bound(name, outer) for name in without}
        exits = [name for name, _ in use.exits]
        for name in exits:
            if name not in part.exits:
                hint = choose_from(name, part.exits)
                self.desk.tell(use, f"The part {part.name} has no exit {quoted(name)}.{hint}", name)
        if unconnected := [name for name in part.exits if name not in exits]:
            what = f"The part {part.name} also has {listed(unconnected, 'and')}. Write it under `exits`."
            self.desk.tell(use, what, use.part)
