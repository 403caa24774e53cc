"""Whether the recorded walks notice a damage that the linter leaves: one of them no longer goes as recorded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property
from typing import Any

from shorewalk.folders import demo_data
from shorewalk.recorded import Recorded, read_recorded
from shorewalk.replay import replay
from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask, Judge, Jump, Measure, Node, Tally, Work, ways_out
from shorewalk.tree.source import TreeError

from .damaged import DamagedLibrary, Sound
from .edits import Damage
from .proving import touched

Spot = tuple[str, str]
"""A tree and a node of it."""

Gone = tuple[str, str, str]
"""A tree, a node of it, and the node that a walk goes to from there."""

MOST = 10
"""So many of the walks that pass a damage are walked: first those that go by a way it changes, then spread over all."""


class Seen(dict[str, Node]):
    """The nodes of a tree, which write down who was asked for, and after whom."""

    def __init__(self, tree: str, nodes: dict[str, Node], seen: set[Spot | Gone]) -> None:
        super().__init__(nodes)
        self.tree, self.seen, self.last = tree, seen, ""

    def get(self, name: str, default: Any = None) -> Any:
        """Return a node: this is how a walk comes to one."""
        self.seen |= {(self.tree, name), (self.tree, self.last, name)}
        self.last = name
        return super().get(name, default)


class Walks:
    """The recorded walks, by what they pass through."""

    def __init__(self, sound: Sound) -> None:
        self.sound = sound

    @cached_property
    def recorded(self) -> list[tuple[Recorded, frozenset[Spot | Gone]]]:
        """All walks that go as recorded, with the nodes and ways that each passes, shortest first."""
        seen: set[Spot | Gone] = set()
        library = Library(self.sound.library.folder)
        library.site = self.sound.library.site
        library._trees = {
            name: replace(tree, nodes=Seen(name, dict(tree.nodes), seen))
            for name, tree in self.sound.trees.items()
        }
        found: list[tuple[Recorded, frozenset[Spot | Gone]]] = []
        for path in sorted(demo_data().glob("walks/*.yaml")):
            recorded = read_recorded(path, self.sound.library)
            if recorded.walk in self.sound.trees:
                seen.clear()
                _, problems = replay(recorded, library)
                found += [] if problems else [(recorded, frozenset(seen))]
        return sorted(found, key=lambda each: len(each[0].answers))

    def notice(self, damage: Damage) -> str:
        """Return a recorded walk that goes otherwise, or nothing; of those that pass the damage."""
        library = DamagedLibrary(self.sound, damage)
        try:
            changed = set(self._changed(library, damage))
            ways = {way for spot in changed for way in self._ways(library, *spot)}
        except (TreeError, KeyError) as error:
            return str(error)
        through = [each for each in self.recorded if not changed.isdisjoint(each[1])]
        by_way = [recorded for recorded, passed in through if not ways.isdisjoint(passed)]
        for recorded, passed in through:
            for way in ways & passed if by_way else ():
                if (there := self._surely(library, way)) and (way[0], there) not in passed:
                    return f"{recorded.file}: {there} is asked"
        spread = [recorded for recorded, _ in through[:: max(1, -(-len(through) // MOST))]]
        for recorded in (*by_way[:MOST], *spread[: MOST - len(by_way[:MOST])]):
            try:
                _, problems = replay(recorded, library)
            except (TreeError, KeyError) as error:
                return f"{recorded.file}: {error}"
            if problems:
                return str(problems[0])
        return ""

    def _changed(self, library: DamagedLibrary, damage: Damage) -> Iterator[Spot]:
        for name in self.sound.trees_with(damage.file):
            sound, tree = self.sound.trees[name], library.tree(name)
            head = (tree.begin, tree.starts) != (sound.begin, sound.starts)
            for node in sound.nodes if head else touched(self.sound, sound, damage):
                if head or tree.nodes.get(node) != sound.nodes[node]:
                    yield name, node

    def _surely(self, library: DamagedLibrary, way: Gone) -> str:
        """Return the node that is asked now after one, or nothing where that hangs on more than the way."""
        tree, name, goto = way
        sound, other = self.sound.trees[tree].nodes[name], library.tree(tree).nodes.get(name)
        if other is None or _asks(sound) != _asks(other):
            return ""
        now = dict(ways_out(other))
        led = {now[label].goto for label, one in ways_out(sound) if one.goto == goto and label in now}
        there = led.pop() if len(led) == 1 else ""
        asked = library.tree(tree).nodes.get(there)
        return "" if asked is None or isinstance(asked, Judge | Work | Jump) else there

    def _ways(self, library: DamagedLibrary, tree: str, name: str) -> Iterator[Gone]:
        """Yield the ways out of a node that lead elsewhere now."""
        other = library.tree(tree).nodes.get(name)
        there = {way.goto for _, way in ways_out(other)} if other else set()
        sound = ways_out(self.sound.trees[tree].nodes[name])
        same = {(label, way.goto) for label, way in ways_out(other)} if other else set()
        yield from (
            (tree, name, way.goto)
            for label, way in sound
            if way.goto not in there or (label, way.goto) not in same
        )


def _asks(node: Node) -> object:
    """What decides by which way a node is left."""
    match node:
        case Judge():
            rows = [(row.when, row.while_, row.worst, row.lacks, row.way.grade) for row in node.rows]
            return rows, node.of, node.at_most
        case Measure() | Work() | Tally():
            return [(band.below, band.upto, band.way.grade) for band in node.bands], node.at_most
        case Ask():
            return [choice.id for choice in node.choices], node.at_most
    return node.at_most
