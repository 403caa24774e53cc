"""In which damages a walk comes where a look is needed without one of its slot pairs.

Backwards from there, as `shorewalk.lint.walks.suspect` does, with the bits of the damages; then forwards over the
states that this leaves, with what of the pair is held, to see whether such a walk is there.
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.lint.reach import reach
from shorewalk.lint.walks.happen import takes_number
from shorewalk.lint.walks.looked import Pair
from shorewalk.lint.walks.moves import At
from shorewalk.lint.walks.suspect import ELSEWHERE, MANY
from shorewalk.lint.walks.watch import Watch
from shorewalk.tree.model import Measure

from .together import SOUND, Edge, Together

MOST = 400_000
"""So many steps forwards for one pair; what is open then is looked for alone."""


class Lacking:
    """Looks for what lacks a look, in all damages that were not found yet."""

    def __init__(self, together: Together) -> None:
        self.all = together
        self.open = 0
        """The damages for which it was too much to find out."""
        self._back: list[list[tuple[int, Edge]]] = [[] for _ in together.states]
        self._at: dict[str, list[int]] = {}
        for number, at in enumerate(together.states):
            if together.stands[number]:
                self._at.setdefault(at.node, []).append(number)
            for edge in together.out[number]:
                self._back[edge.target].append((number, edge))

    def run(self) -> None:
        """Look at every pair of every clause."""
        for rule, watch in self.all.looking:
            needs = watch.clause.need
            if len(needs) != 1 or any(len(values) > 1 for _, values in needs[0]):
                self._forwards(rule, watch, None, None, self.all.alive)
                continue
            for look in sorted(watch.looks):
                for pair in watch.looked.pairs(look, judged=watch.judging):
                    suspects, states = _Back(self, watch, pair).suspects()
                    if suspects & self.all.alive & ~SOUND:
                        self._forwards(rule, watch, pair, states, suspects)

    def wanting(self, watch: Watch, pair: Pair) -> Iterator[tuple[int, int]]:
        """Yield the states where the pair must be known, and for whom."""
        together = self.all
        for tree, name in watch.forbidding:
            for number in self._at.get(name, ()) if tree == together.sound.name else ():
                at = together.states[number]
                for version in together.versions[name]:
                    bits = together.bits[number] & version.bits & together.alive
                    if bits:
                        outlets = watch.outlets(0, version.node, at)
                        about = pair.outlet is None or not outlets or pair.outlet in outlets
                        if about and watch.broken(0, version.node, at):
                            yield number, bits

    def back(self, number: int) -> list[tuple[int, Edge]]:
        """Return the states from which one is come to."""
        return self._back[number]

    def _forwards(
        self, rule: str, whole: Watch, pair: Pair | None, states: set[int] | None, bits: int
    ) -> None:
        """Go through the walks of some damages with what is held of the pair."""
        together, watch = self.all, whole.of(pair)
        known: dict[tuple[int, int], int] = {}
        waiting: list[tuple[int, int]] = []

        def come(number: int, held: int, here: int) -> None:
            key = (number, held)
            if here & ~known.get(key, 0):
                known[key] = known.get(key, 0) | here
                waiting.append(key)

        for number in together.begins:
            if states is None or number in states:
                come(
                    number,
                    watch.begin(together.states[number].standing),
                    bits & together.bits[number] & ~SOUND,
                )
        keys = {name for tree, name in watch.forbidding if tree == together.sound.name}
        ahead = {name for tree, name in watch.ahead if tree == together.sound.name}
        steps = 0
        while waiting:
            steps += 1
            number, held = waiting.pop()
            here = known[number, held] & together.alive
            at = together.states[number]
            if not here or at.node not in ahead:
                continue
            if steps > MOST:
                self.open |= here
                continue
            if at.node in keys and together.stands[number]:
                for version in together.versions[at.node]:
                    if here & version.bits and watch.broken(held, version.node, at):
                        together.find(here & version.bits, rule, at.node)
                here &= together.alive
            for edge in together.out[number]:
                on = here & edge.bits
                if on and (states is None or edge.target in states) and watch.may_take(edge.move, held, at):
                    after = together.states[edge.target]
                    come(
                        edge.target,
                        watch.turn(held, together.tree, edge.node, edge.move, before=at, after=after),
                        on,
                    )


class _Back:
    def __init__(self, lacking: Lacking, watch: Watch, pair: Pair) -> None:
        self.lacking, self.watch, self.pair = lacking, watch, pair
        self._steps: dict[tuple[int, str, int, int], tuple[int, int]] = {}

    def suspects(self) -> tuple[int, set[int]]:
        """Return the damages in which a walk may come there without the pair, and the states it may lead through."""
        together, bits = self.lacking.all, self.pair.bits
        seen: dict[tuple[int, int], int] = {}
        waiting: list[tuple[int, int]] = []
        times: dict[int, int] = {}
        found: dict[int, int] = {}

        def come(number: int, lost: int, here: int) -> None:
            key = (number, lost)
            if here & ~seen.get(key, 0):
                if key not in seen:
                    times[number] = times.get(number, 0) + 1
                seen[key] = seen.get(key, 0) | here
                waiting.append(key)

        for number, here in self.lacking.wanting(self.watch, self.pair):
            come(number, 0, here)
        while waiting:
            number, lost = waiting.pop()
            here = seen[number, lost]
            if number in together.begins:
                found[number] = found.get(number, 0) | here
            after = together.states[number]
            for before, edge in self.lacking.back(number):
                on = here & edge.bits & together.bits[before] & together.alive
                if not on:
                    continue
                at = together.states[before]
                if not lost and not self._may_lack(edge, at):
                    continue
                if lost == ELSEWHERE:
                    place = self._read(edge)
                    if place == self.pair.outlet:
                        found[before] = found.get(before, 0) | on
                    if not place:
                        come(before, ELSEWHERE, on)
                    continue
                put, taken = self._step(edge, at, after)
                if put & ~lost:
                    continue
                now = ELSEWHERE if taken == ELSEWHERE else lost | taken
                if now == bits or times.get(before, 0) > MANY:
                    found[before] = found.get(before, 0) | on
                    continue
                come(before, now, on)
        if not found:
            return 0, set()
        led = reach(found, lambda number: (before for before, _ in self.lacking.back(number)))
        suspects = 0
        for here in found.values():
            suspects |= here
        return suspects, {number for number, _ in seen} | led

    def _may_lack(self, edge: Edge, at: At) -> bool:
        if not edge.move.lacks or self.watch.judging:
            return True
        if self.pair.outlet and self.watch.looked.outlet(0, at.standing) != self.pair.outlet:
            return True
        return any(each.get(self.pair.look, True) for each in edge.move.lacks)

    def _step(self, edge: Edge, at: At, after: At) -> tuple[int, int]:
        """Return the bits of the pair that a way sets, and those it clears."""
        key = (id(edge.node), edge.move.label, at.standing, after.standing)
        if key not in self._steps:
            looked, bits, tree = self.watch.looked, self.pair.bits, self.lacking.all.tree

            def turned(held: int) -> int:
                return (
                    looked.turn(held, tree, edge.node, edge.move, before=at.standing, after=after.standing)
                    & bits
                )

            cleared = bits & ~turned(bits)
            other = looked.last_read(self.pair.outlet)
            if cleared and other and not bits & ~turned(bits | other):
                cleared = ELSEWHERE
            self._steps[key] = (turned(0), cleared)
        return self._steps[key]

    def _read(self, edge: Edge) -> str | None:
        node = edge.node
        if not isinstance(node, Measure) or not takes_number(edge.move):
            return None
        return node.place if node.place in self.watch.looked.outlets else None
