"""Which clauses with a latch may be broken: all gone forwards with at once, a bit for each.

A state has the bits of the clauses whose latch is set by some walk that comes there. How a way turns them depends on
how things stand before and after it alone, so it is worked out once for each.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence

from shorewalk.tree.model import Node, Tree

from .moves import Move
from .watch import LATCH, Watch
from .web import Web
from .where import Key

Turn = tuple[int, int]
"""The latches that a way sets, and those that it surely closes."""

NO_TURN = (0, 0)

Labelled = tuple[str, str, str]
"""All ways of one label out of a node of a tree: they differ in what is remembered alone."""


class Latches:
    """The latches of some clauses, and what sets and closes them."""

    def __init__(self, watches: Sequence[Watch], web: Web) -> None:
        self.watches, self.web = watches, web
        self._ahead: dict[Key, int] = {}
        self._concerned: dict[Key, list[int]] = {}
        for number, watch in enumerate(watches):
            concerned = watch.concerned()
            for key in watch.ahead:
                self._ahead[key] = self._ahead.get(key, 0) | 1 << number
                if concerned is None or key in concerned:
                    self._concerned.setdefault(key, []).append(number)
        self._of_states: dict[object, list[int]] = {}
        """Those set by how things stand, by the states that set them: many begin in the same way."""
        for number, watch in enumerate(watches):
            if watch.of_states:
                set_by = tuple(event for event in watch.clause.after if event.kind == "state")
                self._of_states.setdefault(set_by, []).append(number)
        self._may: dict[Labelled, list[int]] = {}
        self._turns: dict[tuple[Labelled, int, int], Turn] = {}

    def broken(self) -> list[Watch]:
        """Return the clauses that are broken somewhere."""
        web, states = self.web, self.web.states
        bits = [0] * len(states)
        for number in web.explorer.begins:
            standing = states[number].standing
            begun = sum(1 << at for at, watch in enumerate(self.watches) if watch.begin(standing))
            bits[number] |= begun & self._ahead.get(_key(web, number), 0)
        waiting, is_waiting = deque(range(len(states))), bytearray(b"\1") * len(states)
        while waiting:
            here = waiting.popleft()
            is_waiting[here] = 0
            at = states[here]
            tree = web.trees[at.tree]
            node = tree.nodes.get(at.node)
            if node is None or (at.tree, at.node) not in self._ahead:
                continue
            set_ = bits[here]
            for target, move in web.ways(here):
                after = states[target]
                sets, closes = self._turn(tree, node, move, here, target)
                new = (set_ & ~closes | sets) & ~bits[target]
                if new and (new := new & self._ahead.get((after.tree, after.node), 0)):
                    bits[target] |= new
                    if not is_waiting[target]:
                        is_waiting[target] = 1
                        waiting.append(target)
        return [watch for number, watch in enumerate(self.watches) if self._is_broken(number, watch, bits)]

    def _is_broken(self, number: int, watch: Watch, bits: list[int]) -> bool:
        web = self.web
        for key in watch.forbidding:
            node = web.trees[key[0]].nodes[key[1]]
            known: dict[int, bool] = {}
            for here in web.at.get(key, ()):
                if bits[here] >> number & 1 and web.explorer.stands(here):
                    at = web.states[here]
                    if at.standing not in known:
                        known[at.standing] = bool(watch.broken(LATCH, node, at))
                    if known[at.standing]:
                        return True
        return False

    def _turn(self, tree: Tree, node: Node, move: Move, here: int, target: int) -> Turn:
        before, after = self.web.states[here], self.web.states[target]
        way = (before.tree, before.node, move.label)
        key = (way, before.standing, after.standing)
        if key not in self._turns:
            if way not in self._may:
                self._may[way] = [
                    number
                    for number in self._concerned.get((tree.name, node.name), ())
                    if move.grade >= self.watches[number].least
                    and any(self.watches[number].may_turn(tree, node, move))
                ]
            sets = closes = 0
            changed = (
                self._set_by(before.standing, after.standing) if before.standing != after.standing else ()
            )
            for number in {*self._may[way], *changed}:
                watch = self.watches[number]
                if watch.turn(0, tree, node, move, before=before, after=after) & LATCH:
                    sets |= 1 << number
                if not watch.turn(LATCH, tree, node, move, before=before, after=after) & LATCH:
                    closes |= 1 << number
            self._turns[key] = (sets, closes) if sets or closes else NO_TURN
        return self._turns[key]

    def _set_by(self, before: int, after: int) -> Iterator[int]:
        """Yield the latches that how things came to stand sets."""
        for numbers in self._of_states.values():
            if self.watches[numbers[0]].came(before, after):
                yield from numbers


def _key(web: Web, number: int) -> Key:
    at = web.states[number]
    return at.tree, at.node
