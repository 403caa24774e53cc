"""At which nodes the events of safety rules can happen at all, worked out once for each event."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shorewalk.tree.model import Ask, End, Judge, Jump, Measure, Node, Step, Tree, ways_out
from shorewalk.tree.safety import Event

from ..reach import reach
from .happen import Happening

Key = tuple[str, str]
"""A tree and a node of it."""

AT: dict[str, tuple[type[Node], ...]] = {
    "touch": (Ask, Step, Measure),
    "measure": (Measure,),
    "set": (Step,),
    "energise": (Step,),
    "ask": (Ask,),
    "end": (End,),
}
"""The kinds of node at which an event can happen."""


class Where:
    """The nodes of some trees, by what can happen there; and the ways back through them."""

    def __init__(self, trees: Sequence[Tree], happening: Happening) -> None:
        self.trees, self.happening = trees, happening
        self._kinds: dict[type[Node], list[tuple[Key, Node]]] = {}
        self._signs: dict[str, set[Key]] = {}
        self._leaving: set[Key] = set()
        self._back: dict[Key, list[Key]] = {}
        self._at: dict[Event, set[Key]] = {}
        self._left: dict[Event, set[Key] | None] = {}
        self._before: dict[frozenset[Key], frozenset[Key]] = {}
        begins = {tree.name: (tree.name, tree.begin) for tree in trees}
        for tree in trees:
            for name, node in tree.nodes.items():
                key = (tree.name, name)
                self._kinds.setdefault(type(node), []).append((key, node))
                if isinstance(node, Ask):
                    self._signs.setdefault(node.sign, set()).add(key)
                for _, way in ways_out(node):
                    self._back.setdefault((tree.name, way.goto), []).append(key)
                    if way.leaves:
                        self._leaving.add(key)
                if isinstance(node, Jump) and node.tree in begins:
                    self._back.setdefault(begins[node.tree], []).append(key)

    def at(self, event: Event) -> set[Key]:
        """Return the nodes at which an event may happen, however things stand."""
        if event not in self._at:
            unknown = self.happening.standings.nothing
            self._at[event] = {
                key
                for kind in AT[event.kind]
                for key, node in self._kinds.get(kind, ())
                if self.happening.at(event, node, unknown)
            }
        return self._at[event]

    def left(self, event: Event) -> set[Key] | None:
        """Return the nodes with which an event may have happened when they are left; `None` for any node."""
        if event not in self._left:
            self._left[event] = self._leaving_with(event)
        return self._left[event]

    def _leaving_with(self, event: Event) -> set[Key] | None:
        match event.kind:
            case "grade":
                return None
            case "state":
                return set()
            case "sign":
                return {key for name, _ in event.sets for key in self._signs.get(name, ())}
            case "set":
                return self.at(event) | self._leaving
            case "measure" if event.grade:
                return self.at(event) | {key for key, _ in self._kinds.get(Judge, ())}
        return self.at(event)

    def before(self, where: Iterable[Key]) -> frozenset[Key]:
        """Return every node from which one of these can be reached, and themselves."""
        asked = frozenset(where)
        if asked not in self._before:
            self._before[asked] = frozenset(reach(asked, lambda key: self._back.get(key, ())))
        return self._before[asked]
