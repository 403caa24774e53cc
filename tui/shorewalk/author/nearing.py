"""Walks to what is left: from every place that a walk has come to, on to the nearest way that is wanted."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable, Iterator
from heapq import heappop, heappush

from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Jump

from .ahead import Ways, ways_to
from .promise import Promise
from .proving import Proven, along, finished
from .searching import Reached
from .stepping import State, Steps
from .trail import Mark, Marks

PATIENCE = 12_000
"""So many places are gone on from without finding anything; then no more is looked for."""

ENOUGH = 400
"""So often a node with something wanted is come to in vain; then it is no longer looked for."""

ALIKE = 3
"""From so many places is gone on that differ only in what is claimed of numbers."""


class Nearing:
    """A search that goes on first from where something wanted is fewest ways off."""

    def __init__(
        self, library: Library, steps: Steps, marks: Marks, promise: Promise, seeds: Iterable[list[Reached]]
    ) -> None:
        self.library, self.steps, self.marks, self.promise = library, steps, marks, promise
        self._before = ways_to(steps.tree)
        self._vain: Counter[str] = Counter()
        self._look()
        self._reached: list[Reached] = []
        self._known: dict[State, int] = {}
        self._alike: Counter[State] = Counter()
        self._waiting: list[tuple[int, int]] = []
        self._failed: Counter[tuple[str, str]] = Counter()
        self._add(Reached(steps.begin(), -1, "", None, 0))
        for path in seeds:
            at = 0
            for one in path[1:]:
                at = self._add(one._replace(before=at))

    def go(self) -> Iterator[tuple[Proven, set[Mark]]]:
        """Yield walks, and what of the wanted each covers."""
        idle = 0
        while self._waiting and idle < PATIENCE:
            far, here = heappop(self._waiting)
            state = self._reached[here].state
            if far < (now := self._far.get(state.node, -1)):
                heappush(self._waiting, (now, here))
            if far != now:
                continue
            idle += 1
            self._vain[state.node] += far == 0
            for proven, new in self._from(here, state):
                idle = self._vain[state.node] = 0
                self.promise.have(new)
                self._look()
                yield proven, new
            if self._vain[state.node] == ENOUGH:
                self._look()

    def _look(self) -> None:
        """See anew how far off everything wanted is, but for nodes that were come to often enough."""
        wanted = (name for name in self.promise.nodes() if self._vain[name] < ENOUGH)
        self._far = far_from(self._before, wanted)

    def _from(self, here: int, state: State) -> Iterator[tuple[Proven, set[Mark]]]:
        node = self.steps.tree.nodes.get(state.node)
        if node is None or isinstance(node, End | Jump):
            return
        for taken in self.steps.of(state):
            for label, claim in taken.ways:
                gone = (state.node, label)
                if self.promise.of(gone) and self._failed[gone] < ALIKE:
                    proven = along(self.steps, self.library, self._path(here), (label, claim))
                    whole = proven and finished(proven, self.library)
                    new = self.marks.covered(whole.walk, whole.gone) & self.promise.wanted if whole else set()
                    if whole and new:
                        yield whole, new
                    self._failed[gone] += bool(self.promise.of(gone))
            self._add(Reached(taken.after, here, taken.ways[0][0], taken.claim, 0, taken.late))

    def _add(self, reached: Reached) -> int:
        """Keep a place that was come to, if it is new, and return where it is kept."""
        state = reached.state
        if state in self._known:
            return self._known[state]
        at = self._known[state] = len(self._reached)
        self._reached.append(reached)
        like = state._replace(claims=frozenset())
        self._alike[like] += 1
        if state.node in self._far and self._alike[like] <= ALIKE:
            heappush(self._waiting, (self._far[state.node], at))
        return at

    def _path(self, at: int) -> list[Reached]:
        path = []
        while at >= 0:
            path.append(self._reached[at])
            at = path[-1].before
        return path[::-1]


def far_from(before: Ways, nodes: Iterable[str]) -> dict[str, int]:
    """Return for each node how many ways off the nearest of these is; nothing where none is ahead."""
    far = dict.fromkeys(nodes, 0)
    waiting = deque(far)
    while waiting:
        here = waiting.popleft()
        for one in before.get(here, ()):
            if one not in far:
                far[one] = far[here] + 1
                waiting.append(one)
    return far
