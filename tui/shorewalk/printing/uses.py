"""Which parts a tree comes to, from which steps, and what each part is given there.

A part is printed once, however often it is done; so a name in it may mean several things. `Uses` says all of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shorewalk.tree.library import Library
from shorewalk.tree.model import Node, Use, Written
from shorewalk.tree.record import record

from .step import At

Given = Mapping[str, "Value"]
"""What a part was given once, by the name of the parameter."""


@record()
class Value:
    """The value of a parameter: a node of a caller, or a word (a place, a limit, a text)."""

    word: str = ""
    node: At | None = None


@record()
class Put:
    """One use of a part: in which printed part, by which node."""

    where: str
    use: Use

    @property
    def at(self) -> At:
        """The step at which the part is done."""
        return (self.where, self.use.name)


@record()
class Found:
    """A node that a name may mean, and the step through which its part was done, if it stands in one."""

    at: At
    through: At | None = None


class Uses:
    """A tree with the parts it comes to, each once; `""` is the tree itself."""

    def __init__(self, library: Library, name: str) -> None:
        self.library = library
        self.written: dict[str, Written] = {"": library.written(name)}
        self.puts: dict[str, list[Put]] = {}
        self._collect("")
        self._given: dict[str, tuple[Given, ...]] = {"": ({},)}

    def _collect(self, where: str) -> None:
        for use in self.written[where].nodes.values():
            if isinstance(use, Use):
                new = use.part not in self.written
                self.puts.setdefault(use.part, []).append(Put(where, use))
                if new:
                    self.written[use.part] = self.library.part(use.part)
                    self._collect(use.part)

    def node(self, at: At) -> Node:
        """Return a node as written."""
        return self.written[at[0]].nodes[at[1]]

    def only(self, part: str) -> Put | None:
        """Return the one use of a part; `None` where it is done from several steps."""
        puts = self.puts.get(part, [])
        return puts[0] if len(puts) == 1 else None

    def given(self, part: str) -> tuple[Given, ...]:
        """Return everything that a part may be given, each set once."""
        if part not in self._given:
            sets: dict[tuple[tuple[str, Value], ...], None] = {}
            for put in self.puts[part]:
                for outer in self.given(put.where):
                    values = {name: self.value(put, word, outer) for name, word in put.use.with_}
                    sets.setdefault(tuple(values.items()))
            self._given[part] = tuple(dict(found) for found in sets)
        return self._given[part]

    def value(self, put: Put, word: str, outer: Given) -> Value:
        """Return what `word`, written at a use, stands for."""
        if word[1:] in outer and word.startswith("$"):
            return outer[word[1:]]
        word = word.removeprefix("$")
        nodes = self.written[put.where].nodes
        if word in nodes or word.partition(".")[0] in nodes:
            found = next(self.means(put.where, word), None)
            return Value(word, found.at if found else None)
        return Value(word)

    def values(self, where: str, name: str) -> tuple[Value, ...]:
        """Return every value that a parameter may have."""
        return tuple(dict.fromkeys(given[name] for given in self.given(where) if name in given))

    def means(self, where: str, name: str) -> Iterator[Found]:
        """Yield the nodes that a name may mean where it is written."""
        if name.startswith("$"):
            for value in self.values(where, name[1:]):
                if value.node:
                    yield Found(value.node)
            return
        head, _, rest = name.partition(".")
        nodes = self.written[where].nodes
        use = nodes.get(head)
        if rest and isinstance(use, Use):
            for found in self.means(use.part, rest):
                shared = self.only(use.part) is None
                yield Found(found.at, found.through or ((where, head) if shared else None))
        elif name in nodes:
            yield Found((where, name))
