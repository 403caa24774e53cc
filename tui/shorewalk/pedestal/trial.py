"""A tree tried on make-believe pedestals: every fault, many variants, walked by somebody honest.

What must never be: an end that allows use under a dangerous fault that the ending does not name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from random import Random

from shorewalk.tree.library import Library
from shorewalk.tree.model import ALLOW_USE
from shorewalk.walk.answers import Answer, Read
from shorewalk.walk.ending import Ending
from shorewalk.walk.message import ending
from shorewalk.walk.meter import Meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

from .faults import NOTHING, Fault, park_with, stand_with
from .person import Person, Shown

OWN_ONE = 0.5
"""The share of rigs in use that have a protector, where the tree does not say."""
MOST = 500
"""Answers after which a walk is given up."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One walk: the fault, the outlet, the seed that repeats it, and how it ended."""

    fault: Fault
    outlet: str
    seed: str
    walk: Walk
    end: Ending

    @property
    def used(self) -> bool:
        """Whether the ending allows use."""
        return self.end.verdict in ALLOW_USE

    @property
    def named(self) -> bool:
        """Whether the ending says that this fault was not ruled out."""
        return self.fault.named_in(self.end, self.walk.library.site)

    @property
    def harm(self) -> bool:
        """Whether somebody was let into use under a dangerous fault that nobody named."""
        return self.used and self.fault.danger != "none" and not self.named


@dataclass(frozen=True, slots=True)
class Trial:
    """What is tried: a tree, how many variants of each fault at each outlet, by whom and with which meter."""

    library: Library
    tree: str
    meter: Meter
    variants: int = 4
    seed: int = 1
    lacks: frozenset[str] = frozenset()

    def walks(self, faults: Iterable[Fault]) -> Iterator[Tried]:
        """Yield each walk, of each fault (and of none) at each outlet that can have it."""
        for fault in (NOTHING, *faults):
            for outlet in fault.outlets:
                for variant in range(self.variants):
                    yield self._walked(fault, outlet, f"{self.seed}.{variant}")

    def _walked(self, fault: Fault, outlet: str, seed: str) -> Tried:
        chance = Random(f"{fault.id} {outlet} {seed}")  # noqa: S311 - no secret
        stand = stand_with(fault, park_with(fault, outlet, chance), outlet, chance)
        if self._in_use:
            protector = "protector" not in self.lacks and (self._fitted or chance.random() < OWN_ONE)
            stand.begin_in_use(protector=protector)
        share, step = self.meter.percent / 100, self.meter.counts * self.meter.step("V")
        shown = Shown(chance.uniform(-share, share), chance.uniform(-step, step))
        signs = fault.seen(chance, used=self._in_use)
        person = Person(stand, outlet, shown, self.lacks, signs, chance)
        walk = begin(self.library, self.tree, self.meter)
        while not walk.ended and len(walk.answers) < MOST:
            walk = _answered(walk, person.answer(walk))
        return Tried(fault, outlet, seed, walk, ending(walk))

    @property
    def _in_use(self) -> bool:
        """Whether the rig is in use as the tree begins."""
        return dict(self.library.tree(self.tree).starts).get("cord") != "unplugged"

    @property
    def _fitted(self) -> bool:
        """Whether the tree begins with a protector."""
        return dict(self.library.tree(self.tree).starts).get("protector") == "fitted"


def _answered(walk: Walk, answer: Answer) -> Walk:
    try:
        return walk.answer(answer)
    except Refused as refused:
        if not (refused.confirm and isinstance(answer, Read)):
            raise
        return walk.answer(Read(answer.text, confirmed=True))
