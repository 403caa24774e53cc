"""What recorded walks cover of trees as written: endings, ways, bands, and the exits of parts where they are put in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from shorewalk.recorded import Recorded, read_recorded
from shorewalk.tree.library import Library
from shorewalk.tree.source import Problem, TreeError

from .folding import folded
from .trail import LABEL_END, Mark, Marks, gone_on

KINDS = ("endings", "ways", "bands", "exits")


@dataclass(frozen=True, slots=True)
class Coverage:
    """All that can be covered, and what is: by kind (see `KINDS`). `never` is in no walk; it is not counted."""

    every: frozenset[Mark]
    covered: frozenset[Mark]
    walks: int
    problems: tuple[Problem, ...] = ()
    never: frozenset[Mark] = frozenset()

    def counts(self, kind: str) -> tuple[int, int]:
        """Return how many of a kind are covered, and how many there are."""
        mine = [mark for mark in self.every - self.never if kind_of(mark) == kind]
        return sum(mark in self.covered for mark in mine), len(mine)

    @property
    def missing(self) -> list[Mark]:
        """What is not covered."""
        return [mark for mark in self.every - self.never if mark not in self.covered]

    @property
    def percent(self) -> float:
        """The share of all that is covered, of 100; 100 where there is nothing to cover."""
        every = self.every - self.never
        return 100 * len(self.covered) / len(every) if every else 100.0


def kind_of(mark: Mark) -> str:
    """Return the kind of a mark: one of `KINDS`."""
    if mark.label == LABEL_END:
        return "endings"
    return {"band": "bands", "exit": "exits"}.get(mark.label.partition(" ")[0], "ways")


def coverage_of(library: Library, trees: Iterable[str], files: Iterable[Path]) -> Coverage:
    """Return what the recorded walks in these files cover of these trees and the parts they put in."""
    marks = Marks(library)
    every = {mark for tree in trees for mark in marks.all(tree)}
    covered: set[Mark] = set()
    problems: list[Problem] = []
    read: list[Recorded] = []
    for file in files:
        try:
            read.append(read_recorded(file, library))
        except TreeError as error:
            problems += error.problems
    walks = 0
    for _, found in folded(library, read):
        if isinstance(found, Problem):
            problems.append(found)
            continue
        walks += 1
        covered |= marks.covered(found, gone_on(found))
    problems.sort(key=lambda problem: problem.place)
    return Coverage(frozenset(every), frozenset(covered & every), walks, tuple(problems))
