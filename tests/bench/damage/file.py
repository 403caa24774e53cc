"""One file of a tree or part as its author wrote it, and the questions that kinds of damage ask of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shorewalk.tree.facts import Site

from .edits import Data, Edit, Keys

KINDS = ("ask", "step", "measure", "work", "tally", "judge", "part", "tree", "end")
LAST = ("unsure", "cannot", "unable", "missing", "spent")
"""The ways of somebody who does not know or cannot go on."""

MILD = (None, "ok", "watch")


@dataclass(frozen=True)
class Way:
    """A way out as written: where it stands, its label, and its keys (a bare name is `goto`)."""

    node: str
    label: str
    route: Keys
    bare: bool
    data: Data

    @property
    def goto(self) -> str:
        """Where it leads."""
        return str(self.data["goto"])

    @property
    def grade(self) -> str | None:
        """The grade that is written here."""
        return self.data.get("grade")

    def to(self, goto: str) -> Edit:
        """Lead it elsewhere."""
        return (self.route, goto) if self.bare else ((*self.route, "goto"), goto)

    def graded(self, grade: str | None) -> Edit:
        """Give it another grade."""
        if self.bare:
            return (self.route, {"goto": self.goto, "grade": grade})
        return ((*self.route, "grade"), grade)


@dataclass(frozen=True)
class File:
    """A file by name, with the facts, and with the files of the parts."""

    name: str
    data: Data
    site: Site
    parts: Mapping[str, Data]
    trees: tuple[str, ...] = ()

    @property
    def nodes(self) -> dict[str, Data]:
        """The nodes as written."""
        found: dict[str, Data] = self.data.get("nodes", {})
        return found

    def of_kind(self, *kinds: str) -> Iterator[tuple[str, Data]]:
        """Yield the nodes of some kinds."""
        return ((name, node) for name, node in self.nodes.items() if any(kind in node for kind in kinds))

    def ways(self, *names: str) -> Iterator[Way]:
        """Yield every way out of these nodes, else of all."""
        for name in names or self.nodes:
            for label, route, data in _ways(self.nodes[name]):
                bare = not isinstance(data, dict)
                keys = {"goto": data} if bare else data
                if "goto" in keys:
                    yield Way(name, label, ("nodes", name, *route), bare, keys)

    def way(self, name: str, label: str) -> Way | None:
        """Return one way out of a node."""
        return next((way for way in self.ways(name) if way.label == label), None)

    def forward(self, name: str) -> str | None:
        """Return where a node leads when all is well."""
        if name not in self.nodes:
            return None
        ways = [way for way in self.ways(name) if way.label not in LAST]
        mildest = [way for way in ways if way.grade in MILD]
        graded = [way for way in mildest if way.grade == "ok"]
        return (graded or mildest or ways)[0].goto if ways else None

    def leading_to(self, name: str) -> list[Way]:
        """Return the ways that lead to a node."""
        return [way for way in self.ways() if way.goto == name]

    def skip(self, name: str, to: str) -> tuple[Edit, ...]:
        """Lead every way that comes to a node past it."""
        begin: list[Edit] = [(("begin",), to)] if self.data.get("begin") == name and to in self.nodes else []
        return tuple(begin + [way.to(to) for way in self.leading_to(name) if way.node != name])

    def targets(self) -> list[str]:
        """Return all that a way here may name, in the order written."""
        return [*self.nodes, *self.data.get("exits", ())] if "part" in self.data else list(self.nodes)


def _ways(node: Data) -> Iterator[tuple[str, Keys, Any]]:
    for name, choice in node.get("choices", {}).items():
        yield f"choose {name}", ("choices", name), choice
    for key in ("done", "next", *LAST):
        if key in node:
            yield key, (key,), node[key]
    for key, label in (("bands", "band"), ("judge", "row")):
        for at, row in enumerate(node.get(key, ())):
            yield f"{label} {at + 1}", (key, at), row
    if "part" in node:
        for name, way in node.get("exits", {}).items():
            yield f"exit {name}", ("exits", name), way
