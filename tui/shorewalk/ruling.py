"""What the readings of a walk leave possible, worked out beside it: the question never waits."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from shorewalk.beside import work_beside
from shorewalk.walk.answers import Read

if TYPE_CHECKING:
    from shorewalk.pedestal.ruleout import Left, RuleOut, Telling
    from shorewalk.tree.facts import Site
    from shorewalk.walk.ending import Ending
    from shorewalk.walk.walk import Walk

Also = tuple[str, ...] | None
"""Dangers that the readings leave possible and the tree does not name; None: not worked out yet."""

NO_SINGLE_ONE = "more than one thing at once, or a reading that slipped: no single fault gives all of these"
"""Stands where nothing is left."""

BEHIND = 10
"""How much the thread stands behind the app, in the system's steps of niceness."""


class Ruled(NamedTuple):
    """What is left after the answers of a walk; `telling` which reading would tell most, where that was `told`.

    `failed`: it could not be worked out.
    """

    left: Left
    telling: Telling | None = None
    told: bool = False
    failed: bool = False

    @property
    def counts(self) -> tuple[int, int]:
        """How many faults are left, of how many."""
        return len(self.left.possible), len(self.left.possible) + len(self.left.out)


class Asked(NamedTuple):
    """A walk to look at, and all who are to be told."""

    walk: Walk
    told: tuple[Callable[[Walk, Ruled], None], ...]
    telling: bool


def has_readings(walk: Walk) -> bool:
    """Tell whether anything was read in a walk: else all is possible."""
    return any(isinstance(answered.answer, Read) for answered in walk.answers)


class Ruling:
    """Follows walks in a thread of its own; where several were asked about meanwhile, the last one alone."""

    def __init__(self) -> None:
        self._wake = threading.Condition()
        self._next: Asked | None = None
        self._works: threading.Thread | None = None
        self._engine: RuleOut | None = None

    def ask(self, walk: Walk, told: Callable[[Walk, Ruled], None], *, telling: bool = False) -> None:
        """Work out what a walk leaves possible; `told` is called from the other thread."""
        with self._wake:
            waiting = self._next if self._next and self._next.walk is walk else Asked(walk, (), telling=False)
            self._next = Asked(walk, (*waiting.told, told), telling or waiting.telling)
            if self._works is None:
                self._works = work_beside(self._work)
            self._wake.notify()

    def look(self, walk: Walk, *, telling: bool = False) -> Ruled:
        """Return what a walk leaves possible, here and now: some tenths of a second."""
        if self._engine is None:
            from shorewalk.pedestal.faults import shipped_faults
            from shorewalk.pedestal.ruleout import RuleOut

            self._engine = RuleOut(shipped_faults())
        left = self._engine.follow(walk)
        if not telling or walk.ended:
            return Ruled(left)
        return Ruled(left, self._engine.what_would_tell(walk), told=True)

    def also(self, walk: Walk) -> tuple[str, ...]:
        """Return the dangers that the readings of an ended walk leave possible and its ending does not name."""
        if not walk.ended or not has_readings(walk):
            return ()
        from shorewalk.walk.message import ending

        return also_possible(ending(walk), self.look(walk).left, walk.library.site)

    def _work(self) -> None:
        with suppress(OSError, AttributeError):  # where a thread cannot be told to stand behind
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), BEHIND)
        while True:
            with self._wake:
                while self._next is None:
                    self._wake.wait()
                asked, self._next = self._next, None
            ruled = self._look_or_fail(asked)
            for told in asked.told:
                with suppress(RuntimeError):  # the app is gone meanwhile
                    told(asked.walk, ruled)
            if self._engine and not asked.walk.ended:
                # What goes wrong here is found again, and said, when the reading is there.
                with suppress(Exception):
                    self._engine.look_ahead(asked.walk)
            _give_back()

    def _look_or_fail(self, asked: Asked) -> Ruled:
        """Return what is left; a walk that cannot be followed is said to be one, and the next is followed again."""
        try:
            return self.look(asked.walk, telling=asked.telling)
        except Exception:  # noqa: BLE001 (whatever it is, the question goes on without it)
            from shorewalk.pedestal.ruleout import Left

            self._engine = None
            return Ruled(Left((), ()), failed=True)


def _give_back() -> None:
    """Give memory that is free again back to the system, where the C library can: it holds as much as all else."""
    import ctypes

    with suppress(OSError, AttributeError):
        ctypes.CDLL(None).malloc_trim(0)


def also_possible(end: Ending, left: Left, site: Site) -> tuple[str, ...]:
    """Return the dangers that the readings leave possible and the ending does not name, in words."""
    if not left.possible:
        return (NO_SINGLE_ONE,)
    return tuple(
        left.in_words(fault)
        for fault in left.possible
        if fault.danger != "none" and not fault.named_in(end, site)
    )
