"""The order and the nesting in which a drawing is read, so that lines stay short and hardly any cross.

A box belongs below the nearest box that every way to it passes through (its immediate dominator). Where it is
entered by one way alone it stands inside that way; where several ways meet, and where a way has most of what
is still to come, it stands on the same level, further down. So a long walk is a long column and not a staircase:
whatever stands inside is at most half of what it stands in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from .drawing import LEAVES, Arrow, Box, Drawing


@dataclass(slots=True)
class Branch:
    """A way as drawn: with the blocks inside it, or leading to a box drawn elsewhere."""

    arrow: Arrow
    inner: list[Block] = field(default_factory=list)


@dataclass(slots=True)
class Block:
    """A box and its ways."""

    box: Box
    branches: list[Branch]


def outline(drawing: Drawing) -> list[Block]:
    """Return all boxes, each once, as columns of blocks; what nothing leads to stands last."""
    import networkx as nx

    blocks: list[Block] = []
    placed: set[str] = set()
    for root in sorted(drawing.boxes, key=drawing.place.__getitem__):
        if root not in placed:
            left = drawing.graph.subgraph(set(drawing.boxes) - placed)
            above = nx.immediate_dominators(left, root)
            blocks += _Nesting(drawing, root, above).column(root)
            placed |= {root, *above}
    return blocks


class _Nesting:
    def __init__(self, drawing: Drawing, root: str, above: dict[str, str]) -> None:
        self.drawing, self.above = drawing, {name: over for name, over in above.items() if name != root}
        self.below: dict[str, list[str]] = {}
        for name, over in self.above.items():
            self.below.setdefault(over, []).append(name)
        for names in self.below.values():  # endings after what goes on
            names.sort(key=lambda name: (drawing.boxes[name].kind in LEAVES, drawing.place[name]))
        self.size = dict.fromkeys((root, *self.above), 1)  # a box and all below it
        for name in sorted(self.above, key=drawing.place.__getitem__, reverse=True):
            self.size[self.above[name]] += self.size[name]
        self.out: dict[str, list[Arrow]] = {}
        self.into: dict[str, list[Arrow]] = {}
        for arrow in drawing.arrows:
            self.out.setdefault(arrow.source, []).append(arrow)
            self.into.setdefault(arrow.target, []).append(arrow)

    def column(self, first: str) -> list[Block]:
        """Return a box and all below it that stands on its level."""
        blocks: list[Block] = []
        waiting = [first]
        while waiting:
            name = waiting.pop()
            inner = {
                arrow: child for child in self.below.get(name, ()) if (arrow := self._alone(name, child))
            }
            branches = [
                Branch(arrow, self.column(inner[arrow]) if arrow in inner else [])
                for arrow in self.out.get(name, ())
            ]
            blocks.append(Block(self.drawing.boxes[name], branches))
            waiting += [c for c in reversed(self.below.get(name, ())) if c not in inner.values()]
        return blocks

    def _alone(self, name: str, child: str) -> Arrow | None:
        """Return the one way into a child that stands inside it; `None` where it stands on the same level."""
        ways = [arrow for arrow in self.into[child] if not self._within(arrow.source, child)]
        if len(ways) != 1 or ways[0].source != name:
            return None
        on = [other for other in self.below[name] if self.drawing.boxes[other].kind not in LEAVES]
        most = on == [child] or 2 * self.size[child] > self.size[name]
        return None if most and on else ways[0]

    def _within(self, name: str, top: str) -> bool:
        """Tell whether every way to a box passes through `top`."""
        while name != top and name in self.above:
            name = self.above[name]
        return name == top


def reading_order(blocks: list[Block]) -> Iterator[str]:
    """Yield the names of boxes from top to bottom."""
    for block in blocks:
        yield block.box.name
        for branch in block.branches:
            yield from reading_order(branch.inner)
