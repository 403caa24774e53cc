"""A kept walk with its readings, taken from the answers anew, or as they were when that was done last."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from shorewalk.journal import Entry, Journal, Keeper
from shorewalk.journal.where import where_of
from shorewalk.tree.facts import Site as Facts
from shorewalk.tree.source import TreeError
from shorewalk.walk.answers import Answered
from shorewalk.walk.ending import ending
from shorewalk.walk.walk import Walk

from .shelf import Shelf
from .worked import Reading, Worked

__all__ = ["Kept", "Reading", "in_time", "kept_walks"]


class Kept:
    """A walk of the journal. What is in its answers is worked out when it is asked for.

    Walks that are listed together share a `shelf`; `working_out` goes through many of them.
    """

    def __init__(self, journal: Journal, entry: Entry, shelf: Shelf | None = None) -> None:
        self.entry, self.where = entry, where_of(entry)
        self._journal = journal
        self.shelf = shelf or Shelf(journal)
        self._worked: Worked | None = None

    @cached_property
    def walk(self) -> Walk | None:
        """The walk, replayed; None where its trees cannot be read any more."""
        return self.shelf.load(self.entry)

    @property
    def answers(self) -> list[Answered]:
        """Its answers as they are kept, whatever the trees are now; up to the first that cannot be read."""
        return self._journal.answers(self.entry.id)

    @property
    def worked(self) -> Worked:
        """What is worked out from its answers."""
        if self._worked is None:
            self._worked = self.shelf.find(self.entry) or self.shelf.work_out(self.entry)
        return self._worked

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """The readings in force."""
        return self.worked.readings(self.entry.changed)

    @cached_property
    def symptom(self) -> str:
        """What it was about, in words."""
        try:
            return self.shelf.library(self.entry).header(self.entry.tree).symptom or self.entry.tree
        except (TreeError, KeyError):
            return self.entry.tree

    @property
    def site(self) -> str | None:
        """The site for its message and its record, as `Placing.site_for`."""
        walk = self.walk
        verdict = ending(walk).verdict if walk and walk.ended else None
        return Keeper(self._journal, self.entry.id).placing.site_for(verdict)

    @property
    def facts(self) -> Facts | None:
        """The facts of its trees; None where these cannot be read any more."""
        return self.shelf.library(self.entry).site if self.worked.fit is not None else None

    @property
    def whole(self) -> bool:
        """Whether every answer is still understood; the trees may have changed since."""
        return self.worked.fit == self.entry.answers


def in_time(walks: Iterable[Kept]) -> list[Kept]:
    """Return walks in the order they were begun."""
    return sorted(walks, key=lambda walk: (walk.entry.begun, walk.entry.id))


def kept_walks(journal: Journal, entries: Iterable[Entry] | None = None) -> list[Kept]:
    """Return walks, by default all, the one answered last first."""
    shelf = Shelf(journal)
    return [Kept(journal, entry, shelf) for entry in (journal.walks() if entries is None else entries)]
