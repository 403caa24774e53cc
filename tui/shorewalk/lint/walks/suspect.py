"""Whether a clause that asks for a look may be broken at all, by going over the web once for each slot pair.

It is gone back from where the pair must be known until it was surely read. That goes over far fewer states than all
walks with all that is held would; where it finds nothing the clause holds. Where it does, `proof` goes through the
walks themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shorewalk.tree.model import Measure

from ..reach import reach
from .happen import takes_number
from .looked import Pair
from .moves import At, Move
from .watch import Watch
from .web import Web


class Suspect(NamedTuple):
    """A pair for which some walk may break a clause, and the states it leads through; `None` for any."""

    pair: Pair | None = None
    through: set[int] | None = None


def suspects(watch: Watch, web: Web) -> Iterator[Suspect]:
    """Yield the pairs for which some walk may break the clause; one `None` where it has no looks, or several."""
    needs = watch.clause.need
    if not watch.looks or len(needs) != 1 or any(len(values) > 1 for _, values in needs[0]):
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


class _Backwards:
    """Goes back from where a slot pair must be known, as long as no reading of it but some may be there.

    Those are the ones that were lost on the way: a bit mask of them goes along.
    """

    def __init__(self, watch: Watch, web: Web, pair: Pair) -> None:
        self.watch, self.web = watch, web
        self.look, self.outlet, self.bits = pair.look, pair.outlet, pair.bits
        self._steps: dict[tuple[str, str, str, int, int], tuple[int, int]] = {}

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
        key = (at.tree, at.node, move.label, at.standing, after.standing)
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
