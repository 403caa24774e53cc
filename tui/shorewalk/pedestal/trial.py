"""A tree tried on make-believe pedestals: every fault, many variants, walked by somebody honest.

What must never be: an end that allows use under a dangerous fault that the ending does not name.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
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
from .park import Park, usual
from .person import Person, Shown
from .seen import complains

OWN_ONE = 0.5
"""The share of rigs in use that have a protector, where the tree does not say."""
LOPSIDED = math.log(4)
"""What runs on one leg may be up to four times what runs on the other (common practice)."""
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
    """What is tried: a tree, how many variants of each fault at each outlet, by whom, what meter, what loops."""

    library: Library
    tree: str
    meter: Meter
    variants: int = 4
    seed: int = 1
    lacks: frozenset[str] = frozenset()
    loop: Callable[[Random], Park] = usual

    def walks(self, faults: Iterable[Fault]) -> Iterator[Tried]:
        """Yield each walk, of each fault (and of none) at each outlet that can have it."""
        for fault in (NOTHING, *faults):
            yield from self.of(fault)

    def of(self, fault: Fault, *, felt: bool = False) -> Iterator[Tried]:
        """Yield each walk of one fault; `felt`: only those that somebody has reason to begin with this tree."""
        for outlet in fault.outlets:
            for variant in range(self.variants):
                seed = f"{self.seed}.{variant}"
                person = self._person(fault, outlet, seed)
                if not felt or complains(person.stand, self.tree):
                    yield self._walked(fault, person, seed)

    def _person(self, fault: Fault, outlet: str, seed: str) -> Person:
        """Return somebody before one variant, as the tree begins."""
        chance = Random(f"{fault.id} {outlet} {seed}")  # noqa: S311 - no secret
        stand = stand_with(fault, park_with(fault, outlet, chance, self.loop), outlet, chance)
        if self._in_use:
            fitted = "protector" not in self.lacks and (self._fitted or chance.random() < OWN_ONE)
            stand.lopsided = math.exp(chance.uniform(-LOPSIDED, LOPSIDED))
            stand.begin_in_use(fitted=fitted)
        share, step = self.meter.percent / 100, self.meter.counts * self.meter.step("V")
        shown = Shown(chance.uniform(-share, share), chance.uniform(-step, step))
        signs = fault.seen(chance, used=self._in_use)
        stand.waits = chance.randrange(2)
        return Person(stand, outlet, shown, self.lacks, signs, chance)

    def _walked(self, fault: Fault, person: Person, seed: str) -> Tried:
        walk = begin(self.library, self.tree, self.meter)
        while not walk.ended and len(walk.answers) < MOST:
            walk = _answered(walk, person.answer(walk))
        return Tried(fault, person.outlet, seed, walk, ending(walk))

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
