"""One clause of a safety rule as an automaton over walks: its latch, and the readings its looks are made of.

Its bits: the first for the latch (set: what came before has happened), the rest as in `looked`. They are forgotten
where no event that the clause speaks of can come any more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import copy
from functools import cached_property

from shorewalk.tree.model import GRADES, Measure, Node, Step, Tree
from shorewalk.tree.safety import LOOK_FACTS, SLOTS, Clause, Event, Facts

from .happen import acts_of
from .looked import Looked, Pair
from .moves import At, Move
from .where import Key, Where

LATCH = 1
FEW = 8
"""Of so many nodes that read one pair it is kept which of them did; of more only whether any did, or perhaps."""


class Watch:
    """A clause, watched. `ahead` are the nodes from which it can be broken."""

    def __init__(self, clause: Clause, where: Where) -> None:
        self.clause, self.where, self.happening = clause, where, where.happening
        self.site, self.standings = self.happening.site, self.happening.standings
        asked = [(name, value) for need in clause.need for name, values in need for value in values]
        self.looks = {value for name, value in asked if name in LOOK_FACTS}
        self.judging = any(name == "judged" for name, _ in asked)
        self.only: Pair | None = None
        """The one pair that is kept, where only that is looked at."""
        self.looked = Looked(self.site, self.standings, where.trees if self.looks else (), self.looks)
        self.forbidding = {key for event in (*clause.before, *clause.never) for key in where.at(event)}
        self.ahead = where.before(self.forbidding)
        graded = [
            each.words[0] if each.kind == "grade" else each.grade for each in (*clause.after, *clause.until)
        ]
        self.least = (
            min((GRADES.index(grade) for grade in graded if grade), default=-1) if all(graded) else -1
        )
        """The least grade of a move that matters here, by rank; below 0 where others matter too."""
        self.aging = {
            name for place in self.site.places.values() for name, look in place.looks.items() if look.lasts
        }
        self._so: dict[int, bool] = {}
        self._so_far: dict[tuple[int, int, bool], bool] = {}
        self._passed: dict[int, tuple[Move, list[tuple[Event, bool]], tuple[bool, bool]]] = {}

    @property
    def of_states(self) -> bool:
        """Whether the latch may be set by how things stand."""
        return any(event.kind == "state" for event in self.clause.after)

    @property
    def by_state(self) -> bool:
        """Whether how things stand is all that matters."""
        return not self.clause.after and not self.looks

    def begin(self, standing: int) -> int:
        """Return the bits as a walk begins: open, but where a state is known to be so."""
        return LATCH if self._is_so(standing) else 0

    def _is_so(self, standing: int) -> bool:
        if standing not in self._so:
            self._so[standing] = any(
                all(self.happening.must_hold(name, values, standing) for name, values in event.sets)
                for event in self.clause.after
                if event.kind == "state"
            )
        return self._so[standing]

    def came(self, before: int, after: int) -> bool:
        """Tell whether the latch is set by how things came to stand."""
        return self._is_so(after) and not self._is_so(before)

    def turn(self, bits: int, tree: Tree, node: Node, move: Move, *, before: At, after: At) -> int:
        """Return the bits after a move."""
        if self.came(before.standing, after.standing) or self._past(tree, node, move, before, closes=False):
            bits |= LATCH
        elif bits & LATCH and self._past(tree, node, move, before, closes=True):
            bits &= ~LATCH
        if not self.looks:
            return bits

        def turned(seen: int) -> int:
            return self.looked.turn(seen, tree, node, move, before=before.standing, after=after.standing)

        return turned(bits) if self.only is None else self._narrowed(bits, turned, self.only.bits)

    def _narrowed(self, bits: int, turned: Callable[[int], int], mine: int) -> int:
        """Return the bits of one pair after a move; many nodes that read it are told apart no longer."""
        if mine.bit_count() <= FEW:
            return turned(bits) & (LATCH | self.looked.about | mine)
        held, maybe = _two(mine)
        rest = bits & (LATCH | self.looked.about)
        put, cleared = turned(rest) & mine, mine & ~turned(rest | mine)
        if put:
            now = held
        elif cleared == mine:
            now = 0
        else:
            now = maybe if cleared and bits & held else bits & (held | maybe)
        return turned(rest) & (LATCH | self.looked.about) | now

    def of(self, pair: Pair | None) -> Watch:
        """Return this watch for one pair alone."""
        other = copy(self)
        other.only = pair
        return other

    def concerned(self) -> set[Key] | None:
        """Return the nodes that may set or close the latch when they are left; `None` for any node."""
        found = [self.where.left(event) for event in (*self.clause.after, *self.clause.until)]
        if None in found:
            return None
        return {key for keys in found for key in keys or ()}

    def may_turn(self, tree: Tree, node: Node, move: Move) -> tuple[bool, bool]:
        """Tell whether a move may set the latch, and whether it may close it, however things stand."""
        if (passed := self._passed.get(id(move))) is None:
            may_be = list(self._may_be(tree, node, move))
            ends = [ends for _, ends in may_be]
            passed = self._passed[id(move)] = (move, may_be, (False in ends, True in ends))
        return passed[2]

    @cached_property
    def _pasts(self) -> list[tuple[bool, Event, set[Key] | None]]:
        """What may set the latch or close it, and the nodes that may do so when they are left."""
        each = ((False, self.clause.after), (True, self.clause.until))
        return [(ends, event, self.where.left(event)) for ends, events in each for event in events]

    def _past(self, tree: Tree, node: Node, move: Move, at: At, *, closes: bool) -> bool:
        key = (id(move), at.standing, closes)
        if (so_far := self._so_far.get(key)) is None:
            so_far = self.may_turn(tree, node, move)[closes] and any(
                self.happening.past(event, tree, node, move, at.standing, surely=closes)
                for event, ends in self._passed[id(move)][1]
                if ends is closes
            )
            self._so_far[key] = so_far
        return so_far

    def _may_be(self, tree: Tree, node: Node, move: Move) -> Iterator[tuple[Event, bool]]:
        unknown = self.standings.nothing
        for ends, event, left in self._pasts:
            here = left is None or (tree.name, node.name) in left
            if here and self.happening.past(event, tree, node, move, unknown, surely=ends):
                yield event, ends

    def may_take(self, move: Move, bits: int, at: At) -> bool:
        """Tell whether a judge goes this way, with the looks that are kept here as they are.

        Any time may pass with any answer: a look that ages may be lacking although it is kept, and both ways are
        gone. What a clause needs is proved without age, which a walk holds by the times of its answers.
        """
        if not move.lacks or not self.looks:
            return True
        outlet = self.looked.outlet(bits, at.standing)
        if self.only:
            # Where this pair is known the look may be held or not, for all that is kept here.
            other = self.judging or (outlet and self.only.outlet not in (None, outlet))
            known = outlet and bits & self.only.bits
            return bool(other or known) or any(each.get(self.only.look, True) for each in move.lacks)
        return any(
            all(
                (lacks and look in self.aging) or lacks is not self.looked.held(bits, outlet, look)
                for look, lacks in combination.items()
                if look in self.looks
            )
            for combination in move.lacks
        )

    def broken(self, bits: int, node: Node, at: At) -> Event | None:
        """Return the event that breaks the clause where a walk stands, if one does."""
        clause = self.clause
        if clause.after and not bits & LATCH:
            return None
        if any(self.happening.at(event, node, at.standing) for event in clause.but):
            return None
        for event in (*clause.before, *clause.never):
            if self.happening.at(event, node, at.standing) and not any(
                self._hold(need, bits, node, at) for need in clause.need
            ):
                return event
        return None

    def _hold(self, facts: Facts, bits: int, node: Node, at: At) -> bool:
        return all(self.holds(name, values, bits, node, at) for name, values in facts)

    def holds(self, name: str, values: tuple[str, ...], bits: int, node: Node, at: At) -> bool:
        """Tell whether a fact surely holds for what happens at a node."""
        if name == SLOTS:
            return isinstance(node, Measure) and not any(
                self.standings.may(at.standing, holds, node.place) for holds in ("cord", "test-load")
            )
        if name not in LOOK_FACTS:
            return self.happening.must_hold(name, values, at.standing)
        outlets = self.outlets(bits, node, at)
        if self.only and outlets:
            of_mine = self.only.look in values and (self.only.outlet is None or self.only.outlet in outlets)
            mine = self.only.bits
            return not of_mine or bool(bits & (mine if mine.bit_count() <= FEW else _two(mine)[0]))
        test = self.looked.judged_well if name == "judged" else self.looked.held
        return bool(outlets) and all(test(bits, outlet, value) for outlet in outlets for value in values)

    def outlets(self, bits: int, node: Node, at: At) -> set[str]:
        """Return the outlets in question: plugged into here, holding the cord, else in use."""
        acts = [value for name, value in acts_of(node) if name == "cord"] if isinstance(node, Step) else []
        cord = set(acts or self.standings.possible(at.standing, "cord")) & set(self.looked.outlets)
        here = self.looked.outlet(bits, at.standing)
        return cord or ({here} if here else set())


def _two(bits: int) -> tuple[int, int]:
    """Return the two lowest of some bits: that a pair was read, and that it may have been."""
    first = bits & -bits
    rest = bits & ~first
    return first, rest & -rest
