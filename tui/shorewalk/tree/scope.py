"""What a name means where it is written: in a tree, or in a part that was put into one.

In a part, names are the part's own nodes or exits; `$name` is a parameter, and where a node is wanted it
is a node of the caller. Dotted names reach into a part put in (`sockets_30.hot_neutral`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from .model import AGAIN, Pairs, Use, Way, Written, worse
from .words import choose_from, quoted

RUN_TIME = ("readings", "site", "meter")
"""Placeholders that the walk fills."""

Tell = Callable[[str, str | None], None]
"""Notes a problem: the message, and the word in whose value it stands (or `None` for the node)."""


@dataclass(frozen=True, slots=True)
class Bound:
    """The value of a parameter, and the scope it was written in."""

    value: str
    scope: Scope


@dataclass(frozen=True, slots=True, eq=False)
class Scope:
    """One file put in at `prefix` (`""` for the tree itself, else `use.` or `outer.use.`)."""

    written: Written
    prefix: str = ""
    bound: Mapping[str, Bound] = field(default_factory=dict)
    exits: dict[str, Way] = field(default_factory=dict)
    inner: dict[str, Scope] = field(default_factory=dict)
    says: Mapping[str, str] = field(default_factory=dict)

    def word(self, word: str, tell: Tell) -> str:
        """Return a whole value with `$name` filled in."""
        if not word.startswith("$"):
            return word
        found = self.bound.get(word[1:])
        if found is None:
            self._unbound(word, tell)
            return word
        return found.value

    def node(self, name: str, tell: Tell) -> str:
        """Return the full name of the node that `name` means."""
        if name.startswith("$"):
            found = self.bound.get(name[1:])
            if found is None:
                self._unbound(name, tell)
                return name
            return found.scope.node(found.value, tell)
        scope, local = self, name
        while "." in local and (head := local.partition("."))[0] in scope.inner:
            scope, local = scope.inner[head[0]], head[2]
        known = scope.written.nodes.get(local)
        if known is None or isinstance(known, Use):
            what = "a part, not a node; name a node in it" if known else "not a node here"
            tell(f"{quoted(name)} is {what}.{choose_from(name, self.readable())}", name)
        return scope.prefix + local

    def way(self, way: Way, tell: Tell) -> Way:
        """Return `way` with the full name of its target; through an exit, the caller's way is joined."""
        scope, name = self, way.goto
        if name.startswith("$"):
            found = self.bound.get(name[1:])
            if found is None:
                self._unbound(name, tell)
                return way
            scope, name = found.scope, found.value
        mine = Way(name, way.grade and self.word(way.grade, tell), self.pairs(way.leaves, tell))
        if name in scope.written.nodes:
            return Way(scope.begin_of(name), mine.grade, mine.leaves)
        if name in scope.exits:
            outer = scope.exits[name]
            grade = worse(mine.grade, outer.grade) or (AGAIN if AGAIN in (mine.grade, outer.grade) else None)
            return Way(outer.goto, grade, tuple((dict(mine.leaves) | dict(outer.leaves)).items()))
        if (
            name not in scope.written.exits
        ):  # an exit that is not connected is told once, where the part is used
            known = (*scope.written.nodes, *scope.written.exits)
            tell(
                f"{quoted(way.goto)} leads nowhere: no node here has that name.{choose_from(name, known)}",
                way.goto,
            )
        return mine

    def begin_of(self, name: str) -> str:
        """Return the full name of a node, or of the first node of the part put in under `name`."""
        scope = self
        while name in scope.inner:
            scope, name = scope.inner[name], scope.inner[name].written.begin
        return scope.prefix + name

    def pairs(self, pairs: Pairs, tell: Tell) -> Pairs:
        """Return names and values with `$name` filled in."""
        return tuple((key, self.word(value, tell)) for key, value in pairs) if pairs else pairs

    def placeholder(self, name: str, tell: Tell) -> str:
        """Return what stands for `{name}` in a text: words for a parameter, else a placeholder."""
        found = self.bound.get(name)
        if found is not None:
            if found.value in self.says:
                return self.says[found.value]
            if found.value in found.scope.written.nodes or "." in found.value:
                return f"{{{found.scope.node(found.value, tell)}}}"
            return found.value
        return f"{{{name}}}" if name in RUN_TIME else f"{{{self.node(name, tell)}}}"

    def readable(self) -> Iterator[str]:
        """Yield every name that may be written here for a node."""
        for name, node in self.written.nodes.items():
            if not isinstance(node, Use):
                yield name
            elif name in self.inner:
                yield from (f"{name}.{inner}" for inner in self.inner[name].readable())

    def _unbound(self, word: str, tell: Tell) -> None:
        kind = self.written.kind
        known = [f"${name}" for name in self.bound]
        hint = choose_from(word, known) if known else f" This {kind} takes no parameters."
        tell(f"{quoted(word)} is not a parameter of this {kind}.{hint}", word)
