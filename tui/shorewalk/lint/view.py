"""What rules see of a folder of trees: files as written, trees with their parts put in, facts, and places.

A rule speaks of routes (`nodes`, `feel`, `unsure`); here they become lines and columns. What could not be
read is kept as problems and left out, so that one broken file hides nothing of the others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property, partial
from typing import Any

from shorewalk.tree.facts import Site
from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump, Node, Route, Tree, Use, Written
from shorewalk.tree.source import Place, Problem, TreeError

from .finding import Related


class View:
    """A library as far as it can be read. `trees` and `parts` name what is looked at; by default all of it."""

    def __init__(
        self, library: Library, trees: Iterable[str] | None = None, parts: Iterable[str] = ()
    ) -> None:
        self.library = library
        self.problems: list[Problem] = []
        self.shown: dict[str, Any] = {}  # what rules worked out of it, to share
        self.site = self._site()
        self._parts: dict[str, Written | None] = {}
        self.written: list[Written] = []
        for name in library.names() if trees is None else trees:
            self._keep(partial(self._read_tree, name))
        self.written += [part for name in parts if (part := self.part(name))]

    def part(self, name: str) -> Written | None:
        """Return a part, or `None` where there is none or it cannot be read."""
        if name not in self._parts:
            self._parts[name] = None
            self._keep(partial(self._read_part, name))
        return self._parts[name]

    @cached_property
    def files(self) -> list[Written]:
        """The trees looked at, every part they put in, and the parts looked at for themselves."""
        files = {written.file: written for written in self.written}
        waiting = list(self.written)
        while waiting:
            for use in uses_in(waiting.pop()):
                part = self.part(use.part)
                if part and part.file not in files:
                    files[part.file] = part
                    waiting.append(part)
        return list(files.values())

    @cached_property
    def expansion(self) -> tuple[list[Tree], list[Problem]]:
        """The trees looked at, as far as their parts can be put in; and why others cannot."""
        trees: list[Tree] = []
        problems: list[Problem] = []
        for written in self.written:
            if written.kind != "tree" or self.site is None:
                continue
            try:
                trees.append(self.library.tree(written.name))
            except TreeError as error:
                problems += error.problems
        return trees, problems

    @property
    def trees(self) -> list[Tree]:
        """The trees looked at, parts put in."""
        return self.expansion[0]

    def tree(self, name: str) -> Tree | None:
        """Return any tree of the library, for a jump to it; `None` where it cannot be had."""
        try:
            return self.library.tree(name)
        except (TreeError, KeyError):
            return None

    def led_to(self) -> list[Tree]:
        """Return the trees looked at, and those they lead to."""
        found = {tree.name: tree for tree in self.trees}
        waiting = list(found.values())
        while waiting:
            for node in waiting.pop().nodes.values():
                other = self.tree(node.tree) if isinstance(node, Jump) else None
                if other and other.name not in found:
                    found[other.name] = other
                    waiting.append(other)
        return list(found.values())

    def place(self, file: str, route: Route, *, key: bool = False) -> Place:
        """Return where a value stands, or its key; the nearest thing around it where there is none."""
        return self.library.source(file).place(route, key=key)

    def of(self, node: Node, *inner: str | int, key: bool = False) -> Place:
        """Return where a node stands, or a value in it."""
        return self.place(node.file, (*node.route, *inner), key=key or not inner)

    def fact(self, name: str, route: Route, *, key: bool = False) -> Place:
        """Return where something stands in a file of facts (`grades`, `signs` ...)."""
        return self.library.fact(name, route, key=key)

    def used_at(self, tree: Tree, name: str) -> tuple[Related, ...]:
        """Return where the part that holds this node was put into the tree; nothing for the tree's own nodes."""
        head, _, rest = name.partition(".")
        if not rest:
            return ()
        place = self.place(tree.file, ("nodes", head), key=True)
        return (Related(place, f"used at {name.rpartition('.')[0]} in the tree {tree.name}"),)

    def use(self, tree: Tree, prefix: str) -> Use | None:
        """Return where the part at `prefix` (as `sockets_30` or `read.sockets`) was put in."""
        written: Written | None = next(
            (w for w in self.written if w.name == tree.name and w.kind == "tree"), None
        )
        node: Node | None = None
        for name in prefix.split("."):
            node = written.nodes.get(name) if written else None
            written = self.part(node.part) if isinstance(node, Use) else None
        return node if isinstance(node, Use) else None

    def has(self, node: Node, *inner: str | int) -> bool:
        """Tell whether this key was written in the node itself (and not handed down from a use)."""
        data: Any = self.library.source(node.file).data
        for step in (*node.route, *inner):
            listed = isinstance(data, list) and isinstance(step, int) and step < len(data)
            if listed or (isinstance(data, dict) and step in data):
                data = data[step]
            else:
                return False
        return True

    def _site(self) -> Site | None:
        try:
            return self.library.site
        except TreeError as error:
            self.problems += error.problems
        return None

    def _read_tree(self, name: str) -> None:
        self.written.append(self.library.written(name))

    def _read_part(self, name: str) -> None:
        self._parts[name] = self.library.part(name)

    def _keep(self, read: Callable[[], object]) -> None:
        try:
            read()
        except TreeError as error:
            self.problems += error.problems
        except KeyError:
            pass  # a name that is not there is told where it is written


def uses_in(written: Written) -> Iterator[Use]:
    """Yield the places where a file puts in a part."""
    return (node for node in written.nodes.values() if isinstance(node, Use))
