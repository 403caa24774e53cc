"""Few long walks to what no recorded walk covers yet: each goes where most of it can be taken along."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise, zip_longest
from operator import itemgetter
from random import Random

from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Jump

from .claims import Claim
from .promise import Gone, Promise
from .proving import Proven, along, finished
from .searching import Reached
from .solving import Together
from .stepping import State, Steps, Taken
from .trail import Mark, Marks

TRIES = 6
"""So many walks in a row may find nothing new; then the ways that could not be gone are left alone."""

VAIN = 40
"""So many walks in all may find nothing new."""

BOLD = 0.1
"""So often, where a walk found nothing new, the next goes somewhere else."""

ODD = ("unsure", "cannot", "unable")
"""Answers that are given only where something is to be had by them."""

LONGEST = 400
"""So many steps a walk may have, silent ones included."""


class Gathering:
    """Walks through one tree. The same tree gives the same walks: what is left to chance is seeded."""

    def __init__(self, library: Library, steps: Steps, marks: Marks, wanted: Iterable[Mark]) -> None:
        self.library, self.steps, self.marks = library, steps, marks
        self.promise = Promise(steps.tree, marks, wanted)
        self._chance = Random(steps.tree.name)  # noqa: S311 (nothing is to be kept secret)
        self._missed: Counter[Gone] = Counter()
        self._often: Counter[Gone] = Counter()
        self._shut: dict[Gone, int] = {}
        self._walks = 0
        self.paths: list[list[Reached]] = []  # where the walks came to

    def go(self) -> Iterator[tuple[Proven, set[Mark]]]:
        """Yield walks, and what of the wanted each covers."""
        run = vain = 0
        while vain < VAIN and (self.promise.left or self._wait()):
            self._walks += 1
            self._try_again()
            proven = self._walk(bold=run > 0)
            new = self.marks.covered(proven.walk, proven.gone) & self.promise.wanted if proven else set()
            if proven and new:
                run = vain = 0
                self._missed.clear()
                self.promise.have(new)
                yield proven, new
                continue
            run, vain = run + 1, vain + 1
            if run == TRIES:
                run = 0
                self._leave_alone()

    def _leave_alone(self) -> None:
        """Leave the ways that were missed most often alone, each time for longer."""
        most = max(self._missed.values(), default=0)
        for gone in [gone for gone, times in self._missed.items() if times == most]:
            self._often[gone] += 1
            self._shut[gone] = self._walks + TRIES * 2 ** self._often[gone]
        self.promise.shut(self._shut)
        self._missed.clear()

    def _try_again(self) -> None:
        over = [gone for gone, until in self._shut.items() if until <= self._walks]
        for gone in over:
            del self._shut[gone]
        if over:
            self.promise.open(over)

    def _wait(self) -> bool:
        """Let the time pass until a way may be tried again; tell whether there is one."""
        if self._shut:
            self._walks = min(self._shut.values())
        return bool(self._shut)

    def _walk(self, *, bold: bool) -> Proven | None:
        """Return a walk along the ways that promise most, as far as the fold goes; `bold`: more is left to chance."""
        path = [Reached(self.steps.begin(), -1, "", None, 0)]
        had: set[Mark] = set()
        while len(path) < LONGEST:
            state = path[-1].state
            node = self.steps.tree.nodes.get(state.node)
            if node is None or isinstance(node, End | Jump):
                break
            found = self._next(state, had, bold=bold)
            if found is None:
                break
            label, claim, after, late = found
            had |= self.promise.of((state.node, label))
            path.append(Reached(after, len(path) - 1, label, claim, 0, late))
        proven = along(self.steps, self.library, path)
        if proven is None:
            return None
        meant = [(before.state.node, after.label) for before, after in pairwise(path)]
        on = 1
        for way, gone in zip_longest(meant, proven.gone):
            if way and (gone is None or way != (gone.node, gone.label)):
                self._missed[way] += 1
                break
            on += 1
        self.paths.append(path[:on])
        return finished(proven, self.library)

    def _next(
        self, state: State, had: set[Mark], *, bold: bool
    ) -> tuple[str, Claim | None, State, bool] | None:
        """Return the step that promises most of those that numbers fit; `None` where nothing more is promised."""
        offered: list[tuple[tuple[int, bool, float], str, Claim | None, Taken]] = []
        for taken in self.steps.of(state):
            if taken.late and not bold:
                continue
            for label, claim in taken.ways:
                new = len(self.promise.of((state.node, label)) - had)
                ahead = self.promise.ahead((state.node, label), taken.after.node)
                worth = new + ahead
                if bold and worth and self._chance.random() < BOLD:
                    worth += self._chance.randrange(self.promise.left + 1)
                order = (-worth, not bold and label in ODD, self._chance.random())
                offered.append((order, label, claim, taken))
        best = [gone for gone in self.promise.best(state.node) if not self.promise.of(gone) & had]
        self._missed.update(gone for gone in best if gone[1] not in {one[1] for one in offered})
        node = self.steps.tree.nodes[state.node]
        for order, label, claim, taken in sorted(offered, key=itemgetter(0)):
            if not order[0]:
                break
            if len(taken.ways) == 1:
                return label, claim, taken.after, taken.late
            claims = self.steps.claimed(node, state, label, claim)
            if self._possible(claims, state.claims):
                after = taken.after._replace(claims=self.steps.still(claims, taken.after.read))
                return label, claim, after, taken.late
            self._missed[state.node, label] += 1
        return None

    def _possible(self, claims: Together, before: Together) -> bool:
        solver = self.steps.solver
        return solver.solve(claims, solver.solve(before)) is not None
