"""All walks as a web of states, to be gone over forwards and backwards."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shorewalk.tree.model import Tree

from .explore import Explorer
from .moves import Move
from .where import Key


class Web:
    """An exploration with its ways back, and the different ways out of each node."""

    def __init__(self, explorer: Explorer, trees: Iterable[Tree]) -> None:
        self.explorer, self.states = explorer, explorer.states
        self.trees = {tree.name: tree for tree in trees}
        self.at: dict[Key, list[int]] = {}
        self.different: dict[Key, dict[int, Move]] = {}
        first, moves = explorer.first, explorer.moves
        for number, at in enumerate(self.states):
            key = (at.tree, at.node)
            if key not in self.at:
                self.at[key], self.different[key] = [], {}
            self.at[key].append(number)
            ways = self.different[key]
            for move in moves[first[number] : first[number + 1]]:
                ways[id(move)] = move
        self._back: list[list[tuple[int, Move]]] | None = None

    def ways(self, number: int) -> Iterator[tuple[int, Move]]:
        """Yield the ways out of a state."""
        first, end = self.explorer.first[number], self.explorer.first[number + 1]
        return zip(self.explorer.targets[first:end], self.explorer.moves[first:end], strict=True)

    def back(self, number: int) -> list[tuple[int, Move]]:
        """Return the states from which a state is come to, and the ways."""
        if self._back is None:
            self._back = [[] for _ in self.states]
            for here in range(len(self.states)):
                for target, move in self.ways(here):
                    self._back[target].append((here, move))
        return self._back[number]
