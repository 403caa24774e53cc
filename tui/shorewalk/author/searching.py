"""Going through a tree from its beginning, fewest answers first, wherever numbers can be that lead there."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from shorewalk.tree.model import End, Jump

from .ahead import until, ways_to
from .claims import Claim
from .stepping import State, Steps, Taken

PATIENCE = 12_000
"""So many states are gone through without finding anything that is wanted; then the search ends."""


class Reached(NamedTuple):
    """A state; how it was come to (its place in `Search.reached`, the way, what that claims); the answers it took."""

    state: State
    before: int
    label: str
    claim: Claim | None
    answers: int
    late: bool = False


class Search:
    """All paths through one tree, jumps to other trees apart, which end a path.

    States that differ only in what is claimed of numbers are gone on from `most` times; `cut` counts those left out.
    """

    def __init__(self, steps: Steps, most: int, wanted: Iterable[str]) -> None:
        self.steps, self.most, self.cut = steps, most, 0
        self.reached: list[Reached] = []
        self._times: dict[tuple[object, ...], int] = {}
        self._before = ways_to(steps.tree)
        self._wanted = set(wanted)
        self.on_ways: Callable[[int, Taken], None] | None = None  # told of every step that is taken
        self._idle = 0
        self._open = until(self._before, self._wanted)

    def found(self, name: str) -> None:
        """Leave out what leads only to this node from now on."""
        self._idle = 0
        self._wanted.discard(name)
        self._open = until(self._before, self._wanted)

    def go(self) -> Iterator[int]:
        """Yield the place in `reached` of every state come to, fewest answers first."""
        self.reached.append(Reached(self.steps.begin(), -1, "", None, 0))
        best: dict[State, int] = {self.reached[0].state: 0}
        waiting = deque([0])
        while waiting:
            here = waiting.popleft()
            state, answers = self.reached[here].state, self.reached[here].answers
            if best[state] != here or state.node not in self._open:
                continue  # it was come to with fewer answers, or leads to nothing that is wanted
            if not self._room(state):
                self.cut += 1
                continue
            self._idle += 1
            if self._idle > PATIENCE:
                self.cut += 1
                return
            yield here
            node = self.steps.tree.nodes.get(state.node)
            if node is None or isinstance(node, End | Jump):
                continue
            for taken in self.steps.of(state):
                if self.on_ways:
                    self.on_ways(here, taken)
                ways, claim, after, more, late = taken
                if after.node not in self._open:
                    continue
                known = best.get(after)
                if known is not None and self.reached[known].answers <= answers + more:
                    continue
                best[after] = len(self.reached)
                self.reached.append(Reached(after, here, ways[0][0], claim, answers + more, late))
                (waiting.append if more else waiting.appendleft)(best[after])

    def path(self, place: int) -> list[Reached]:
        """Return the states on the way to a place, the beginning first, that place last."""
        path = []
        while place >= 0:
            path.append(self.reached[place])
            place = path[-1].before
        return path[::-1]

    def _room(self, state: State) -> bool:
        claimed = frozenset(one.node for claim in state.claims for one in claim.given)
        tests = self.steps.ahead.tests.get(state.node, frozenset())
        out = frozenset(test for claim in state.claims for test in claim.out if test in tests)
        asked = self.steps.ahead.numbers.get(state.node, frozenset())
        bands = frozenset(test for claim in state.claims for test in claim.bands if test.node in asked)
        like = (state._replace(claims=frozenset()), claimed, out, bands)
        self._times[like] = self._times.get(like, 0) + 1
        return self._times[like] <= self.most
