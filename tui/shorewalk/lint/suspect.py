"""Whether a clause may be broken at all, by going over the web once for its one question.

What comes after an event is looked at forwards from every such event; what must be known before one backwards from
there, for each slot pair alone, until it was surely read. Both go over far fewer states than all walks with all
latches would; where they find nothing the clause holds. Where they do, `proof` goes through the walks themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from shorewalk.tree.model import Measure, Tree

from .explore import Explorer
from .happen import takes_number
from .looked import Pair
from .moves import At, Move
from .reach import reach
from .watch import LATCH, Watch
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


class Suspect(NamedTuple):
    """A pair for which some walk may break a clause, and the states it leads through; `None` for any."""

    pair: Pair | None = None
    through: set[int] | None = None


def suspects(watch: Watch, web: Web) -> Iterator[Suspect]:
    """Yield the pairs for which some walk may break the clause; one `None` where it has no looks, or several."""
    needs = watch.clause.need
    if not watch.looks:
        if _Forwards(watch, web).found():
            yield Suspect()
    elif len(needs) != 1 or any(len(values) > 1 for _, values in needs[0]):
        yield Suspect()
    else:
        for look in sorted(watch.looks):
            for pair in watch.looked.pairs(look, judged=watch.judging):
                if through := _Backwards(watch, web, pair).through():
                    yield Suspect(pair, through)


MANY = 16
"""Come to with so many different losses a state is suspect: the walks themselves will tell."""

ELSEWHERE = -1
"""What a trip cleared, if the outlet was the last that was read."""


class _Forwards:
    """Goes on from every way with which the latch is set, until it is surely closed."""

    def __init__(self, watch: Watch, web: Web) -> None:
        self.watch, self.web = watch, web
        self.opening, self.closing = set[int](), set[int]()
        self.nodes = list[Key]()
        concerned = watch.concerned()
        keys = web.at.keys() & (watch.ahead if concerned is None else watch.ahead & concerned)
        for key in keys:
            node = web.trees[key[0]].nodes[key[1]]
            for move in web.different[key].values():
                if move.grade < watch.least:
                    continue
                opens, closes = watch.may_turn(web.trees[key[0]], node, move)
                if opens:
                    self.opening.add(id(move))
                    if not self.nodes or self.nodes[-1] != key:
                        self.nodes.append(key)
                if closes:
                    self.closing.add(id(move))
        self.seen: set[int] = set()
        self.waiting: list[int] = []

    def found(self) -> bool:
        """Tell whether anything forbidden is come to with the latch set."""
        broken: dict[tuple[Key, int], bool] = {}
        self._set()
        while self.waiting:
            number = self.waiting.pop()
            at = self.web.states[number]
            key = (at.tree, at.node)
            if key in self.watch.forbidding and self.web.explorer.stands(number):
                if (key, at.standing) not in broken:
                    node = self.web.trees[at.tree].nodes[at.node]
                    broken[key, at.standing] = bool(self.watch.broken(LATCH, node, at))
                if broken[key, at.standing]:
                    return True
            for target, move in self.web.ways(number):
                if target not in self.seen and (
                    id(move) not in self.closing or self._turned(LATCH, number, move, target)
                ):
                    self._come(target)
        return False

    def _set(self) -> None:
        """Come to every state in which the latch has just been set."""
        states = self.web.states
        so = (
            {at.standing for at in states if self.watch.begin(at.standing)} if self.watch.of_states else set()
        )
        for number in self.web.explorer.begins:
            if states[number].standing in so:
                self._come(number)
        for key in self.watch.ahead & self.web.at.keys() if so else ():
            for number in self.web.at[key]:
                if states[number].standing not in so:
                    for target, _ in self.web.ways(number):
                        if states[target].standing in so:
                            self._come(target)
        for key in self.nodes:
            for number in self.web.at[key]:
                for target, move in self.web.ways(number):
                    if id(move) in self.opening and self._turned(0, number, move, target):
                        self._come(target)

    def _turned(self, bits: int, number: int, move: Move, target: int) -> bool:
        at, after = self.web.states[number], self.web.states[target]
        tree = self.web.trees[at.tree]
        return bool(self.watch.turn(bits, tree, tree.nodes[at.node], move, before=at, after=after) & LATCH)

    def _come(self, number: int) -> None:
        at = self.web.states[number]
        if number not in self.seen and (at.tree, at.node) in self.watch.ahead:
            self.seen.add(number)
            self.waiting.append(number)


class _Backwards:
    """Goes back from where a slot pair must be known, as long as no reading of it but some may be there.

    Those are the ones that were lost on the way: a bit mask of them goes along.
    """

    def __init__(self, watch: Watch, web: Web, pair: Pair) -> None:
        self.watch, self.web = watch, web
        self.look, self.outlet, self.bits = pair.look, pair.outlet, pair.bits
        self._steps: dict[tuple[int, int, int], tuple[int, int]] = {}

    def through(self) -> set[int]:
        """Return the states by which a walk may come there without; none where none may."""
        waiting = [(number, 0) for number in self._wanting()]
        seen = set(waiting)
        times: dict[int, int] = {}
        begins = set(self.web.explorer.begins)
        lacking = set[int]()  # however a walk comes to these, it may lack the pair behind them
        while waiting:
            number, lost = waiting.pop()
            if number in begins:
                lacking.add(number)
            after = self.web.states[number]
            for before, move in self.web.back(number):
                at = self.web.states[before]
                if not lost and not self._may_lack(move, at):
                    continue
                if lost == ELSEWHERE:
                    place = self._read(at, move)
                    if place == self.outlet:
                        lacking.add(before)
                    here = (before, ELSEWHERE)
                    if place:
                        continue
                else:
                    put, taken = self._step(at, move, after)
                    if put & ~lost:
                        continue
                    here = (before, ELSEWHERE if taken == ELSEWHERE else lost | taken)
                    if here[1] == self.bits or times.get(before, 0) > MANY:
                        lacking.add(before)
                        continue
                if here not in seen:
                    seen.add(here)
                    waiting.append(here)
                    times[before] = times.get(before, 0) + 1
        return {number for number, _ in seen} | self._led_to(lacking) if lacking else set()

    def _led_to(self, numbers: set[int]) -> set[int]:
        """Return the states from which one of these is come to, themselves too."""
        return reach(numbers, lambda number: (before for before, _ in self.web.back(number)))

    def _wanting(self) -> Iterator[int]:
        """Yield the states where the pair must be known."""
        for key in self.watch.forbidding:
            node = self.web.trees[key[0]].nodes[key[1]]
            for number in filter(self.web.explorer.stands, self.web.at.get(key, ())):
                at = self.web.states[number]
                outlets = self.watch.outlets(0, node, at)
                if (self.outlet is None or not outlets or self.outlet in outlets) and self.watch.broken(
                    0, node, at
                ):
                    yield number

    def _may_lack(self, move: Move, at: At) -> bool:
        """Tell whether a judge goes this way where the look is lacking."""
        if not move.lacks or self.watch.judging:
            return True
        if self.outlet and self.watch.looked.outlet(0, at.standing) != self.outlet:
            return True
        return any(combination.get(self.look, True) for combination in move.lacks)

    def _step(self, at: At, move: Move, after: At) -> tuple[int, int]:
        """Return the bits that a move sets, and those it clears."""
        key = (id(move), at.standing, after.standing)
        if key not in self._steps:
            tree = self.web.trees[at.tree]

            def turned(bits: int) -> int:
                node = tree.nodes[at.node]
                return (
                    self.watch.looked.turn(bits, tree, node, move, before=at.standing, after=after.standing)
                    & self.bits
                )

            cleared = self.bits & ~turned(self.bits)
            other = self.watch.looked.last_read(self.outlet)
            if cleared and other and not self.bits & ~turned(self.bits | other):
                cleared = ELSEWHERE
            self._steps[key] = (turned(0), cleared)
        return self._steps[key]

    def _read(self, at: At, move: Move) -> str | None:
        """Return the outlet that was read with a move."""
        node = self.web.trees[at.tree].nodes[at.node]
        reads = isinstance(node, Measure) and takes_number(move) and node.place in self.watch.looked.outlets
        return node.place if reads and isinstance(node, Measure) else None
