"""A tree with some nodes in several versions: the sound one, and what damage made of it.

One exploration then serves many damages: what comes before and behind them is the same for all.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from shorewalk.tree.model import Ask, Judge, Measure, Node, Step, Tally, Work


class Versions(Mapping[str, Node]):
    """Nodes by name; whoever goes through them all sees every version, whoever asks for one the sound one."""

    def __init__(self, sound: Mapping[str, Node], others: Mapping[str, Sequence[Node]]) -> None:
        self._sound, self._others = sound, others

    def __getitem__(self, name: str) -> Node:
        return self._sound[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._sound)

    def __len__(self) -> int:
        return len(self._sound)

    def items(self) -> Any:
        """Every version of every node, with its name."""
        found = list(self._sound.items())
        return found + [(name, node) for name, nodes in self._others.items() for node in nodes]

    def values(self) -> Any:
        """Every version of every node."""
        return [node for _, node in self.items()]


def alike(sound: Node, other: Node) -> bool:
    """Tell whether a node gives, asks and counts as the sound one does, so that only its own ways out differ."""
    return type(sound) is type(other) and _gives(sound) == _gives(other)


def looks_elsewhere(sound: Node, other: Node) -> bool:
    """Tell whether a reading is another than the sound one, so that it serves no look in its place."""
    return isinstance(sound, Measure) and isinstance(other, Measure) and _probes(sound) != _probes(other)


def _probes(node: Measure) -> object:
    return node.what, node.place, node.from_, node.to, node.load, node.meter


def _gives(node: Node) -> object:
    counts = (node.at_most, bool(node.spent))
    match node:
        case Ask():
            return counts, {choice.id for choice in node.choices}, bool(node.unsure)
        case Step():
            return counts, bool(node.cannot)
        case Measure():
            return counts, bool(node.unable), bool(node.next), _cuts(node)
        case Work():
            return counts, node.using, {name for _, name in node.inputs}, bool(node.missing), _cuts(node)
        case Tally():
            return counts, node.at_voltage, bool(node.unsure), _cuts(node)
        case Judge():
            return counts, bool(node.missing)
    return counts


def _cuts(node: Measure | Work | Tally) -> object:
    return [(band.below, band.upto, band.way.grade == "again") for band in node.bands]
